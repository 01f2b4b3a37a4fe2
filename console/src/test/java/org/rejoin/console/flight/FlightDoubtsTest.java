package org.rejoin.console.flight;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.UnaryOperator;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.console.recording.CaptureWriter;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.console.recording.Said;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.json.JsonFormat;

import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A recording that is not the whole flight of its lesson is graded as far as it goes, and it is said. */
class FlightDoubtsTest {

    private static final List<AircraftState> FLOWN = new ArrayList<>();

    @TempDir
    private Path folder;

    @BeforeAll
    static void fly() throws Exception {
        new PracticeFlight(lesson("heading-to-airway"), LocalDate.of(2026, 6, 1), Habit.GOOD).fly(1, FLOWN::add);
    }

    private static Lesson lesson(String name) throws Exception {
        return LessonReader.read(name);
    }

    private Debrief debrief(List<AircraftState> states, UnaryOperator<AircraftState> change) throws Exception {
        return debrief(states, change, Said.NOTHING);
    }

    private Debrief debrief(List<AircraftState> states, UnaryOperator<AircraftState> change, Said said)
            throws Exception {
        Path file = folder.resolve("flight.pcap");
        InetSocketAddress sender = new InetSocketAddress(InetAddress.getLoopbackAddress(), 4001);
        WireFormat.Encoder encoder = new JsonFormat().newEncoder();
        try (CaptureWriter writer = CaptureWriter.create(file, sender)) {
            for (AircraftState state : states) {
                for (byte[] payload : encoder.encode(change.apply(state))) {
                    writer.write(
                            Datagram.of(1_780_000_000_000_000L + Math.round(state.timeS() * 1e6), sender, payload));
                }
            }
        }
        return Debrief.of(file, lesson("heading-to-airway"), List.of(new JsonFormat()), Following.FIRST, said)
                .get(0);
    }

    private static AircraftState with(
            AircraftState s, double latitudeDeg, OptionalDouble altitudeFt, boolean keepHeading) {
        return new AircraftState(
                s.timeS(),
                latitudeDeg,
                s.longitudeDeg(),
                altitudeFt,
                keepHeading ? s.headingTrueDeg() : OptionalDouble.empty(),
                keepHeading ? s.headingMagneticDeg() : OptionalDouble.empty(),
                s.trackTrueDeg(),
                s.groundSpeedKt(),
                s.verticalSpeedFpm(),
                s.pitchDeg(),
                s.rollDeg(),
                s.indicatedAirspeedKt(),
                s.paused());
    }

    @Test
    void aWholeFlightIsNotDoubted() throws Exception {
        assertThat(debrief(FLOWN, state -> state).notes()).isEmpty();
    }

    @Test
    void anotherPartOfTheWorld() throws Exception {
        Debrief far = debrief(FLOWN, state -> with(state, state.latitudeDeg() - 30, state.altitudeMslFt(), true));
        assertThat(far.notes()).anyMatch(note -> note.matches(".*begins 1[0-9]{3} NM from the nearest point.*"));
    }

    @Test
    void beginsAfterTheIntercept() throws Exception {
        Debrief late = debrief(FLOWN.subList(FLOWN.size() - 200, FLOWN.size()), state -> state);
        assertThat(late.notes())
                .as("%s %s", late.notes(), late.events())
                .anyMatch(note -> note.contains("begin after the intercept"));
        assertThat(late.events()).isNotEmpty();
    }

    /** An instructor's clearance to a line he is on already says nothing of the recording, which had begun long before. */
    @Test
    void aLaterClearanceRaisesNoDoubtOfTheBeginning() throws Exception {
        double lateS = FLOWN.get(FLOWN.size() - 20).timeS();
        Debrief behind = debrief(
                FLOWN,
                state -> state,
                new Said(
                        List.of(new InstructorFile.Spoken(
                                lateS, "127.0.0.1:4001", "fly heading 120, intercept V40", OptionalDouble.empty())),
                        List.of(),
                        List.of(),
                        List.of()));
        assertThat(behind.record().issued()).hasSize(2);
        assertThat(behind.record().events())
                .filteredOn(FlightEvent.InterceptAchieved.class::isInstance)
                .anyMatch(event -> event.timeS() > lateS && event.timeS() < lateS + 10);
        assertThat(behind.notes()).noneMatch(note -> note.contains("did the recording begin"));
    }

    @Test
    void noHeadingAndNoAltitude() throws Exception {
        Debrief bare = debrief(FLOWN, state -> with(state, state.latitudeDeg(), OptionalDouble.empty(), false));
        assertThat(bare.notes())
                .anyMatch(note -> note.contains("no heading"))
                .anyMatch(note -> note.contains("no altitude"));
        assertThat(bare.grade().criteria()).extracting(each -> each.code()).contains("COURSE", "INTERCEPT");
    }

    @Test
    void endsInATurn() throws Exception {
        int end = 40;
        while (Math.abs(FLOWN.get(end).rollDeg().orElse(0)) < 10) {
            end++;
        }
        Debrief cut = debrief(FLOWN.subList(0, end + 4), state -> state);
        assertThat(cut.notes()).anyMatch(note -> note.contains("ends in a turn"));
    }
}
