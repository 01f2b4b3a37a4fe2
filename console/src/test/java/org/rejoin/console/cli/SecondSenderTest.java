package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.console.recording.CaptureWriter;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.json.JsonFormat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Two simulators on one machine, neither of which sends a name: the second is no part of the first one's flight, whatever
 * the first one's silence. Captures of the two are graded by the program itself.
 */
class SecondSenderTest {

    private static final long START_MICROS = 1_780_348_474_000_000L;
    private static final int SILENT_FROM_S = 60;
    private static final int SILENT_TO_S = 100;

    @TempDir
    private Path folder;

    private final List<AircraftState> flight = new ArrayList<>();

    @BeforeEach
    void fly() throws Exception {
        new PracticeFlight(LessonReader.read("heading-to-airway"), LocalDate.of(2026, 6, 1), Habit.GOOD)
                .fly(1, flight::add);
    }

    static AircraftState moved(AircraftState state, double northDeg, double upFt) {
        return new AircraftState(
                state.timeS(),
                state.latitudeDeg() + northDeg,
                state.longitudeDeg(),
                state.altitudeMslFt().isPresent()
                        ? OptionalDouble.of(state.altitudeMslFt().getAsDouble() + upFt)
                        : OptionalDouble.empty(),
                state.headingTrueDeg(),
                state.headingMagneticDeg(),
                state.trackTrueDeg(),
                state.groundSpeedKt(),
                state.verticalSpeedFpm(),
                state.pitchDeg(),
                state.rollDeg(),
                state.indicatedAirspeedKt(),
                state.paused());
    }

    private static List<Datagram> sent(int port, List<AircraftState> states, double laterS, double clockS) {
        WireFormat.Encoder encoder = new JsonFormat().newEncoder();
        InetSocketAddress from = new InetSocketAddress(InetAddress.getLoopbackAddress(), port);
        List<Datagram> all = new ArrayList<>();
        for (AircraftState state : states) {
            for (byte[] payload : encoder.encode(state.withTimeS(state.timeS() + clockS))) {
                all.add(Datagram.of(START_MICROS + Math.round((state.timeS() + laterS) * 1e6), from, payload));
            }
        }
        return all;
    }

    private Path capture(String name, List<Datagram> datagrams) throws Exception {
        Path file = folder.resolve(name + ".pcap");
        datagrams.sort(Comparator.comparingLong(Datagram::receivedMicros));
        try (CaptureWriter writer =
                CaptureWriter.create(file, new InetSocketAddress(InetAddress.getLoopbackAddress(), 3000))) {
            for (Datagram datagram : datagrams) {
                writer.write(datagram);
            }
        }
        return file;
    }

    private JsonNode grade(Path capture, String seat, String... more) throws Exception {
        Path out = folder.resolve(capture.getFileName() + "-graded");
        List<String> args = new ArrayList<>(
                List.of("debrief", capture.toString(), "--lesson", "heading-to-airway", "--out", out.toString()));
        args.addAll(List.of(more));
        Ran ran = Ran.well(args.toArray(String[]::new));
        assertThat(ran.out() + ran.err()).doesNotContain("Exception").doesNotContain("could not be used");
        return new ObjectMapper().readTree(Files.readString(out.resolve(seat).resolve("grade.json")));
    }

    /** The first one's datagrams, with a silence in the middle of a straight leg. */
    private List<Datagram> first() {
        List<AircraftState> heard = flight.stream()
                .filter(state -> state.timeS() < SILENT_FROM_S || state.timeS() > SILENT_TO_S)
                .toList();
        return sent(40_001, heard, 0, 0);
    }

    @Test
    void aSecondSimulatorFarAwayChangesNothingOfTheFirstOnesGrade() throws Exception {
        JsonNode alone = grade(capture("alone", first()), "");
        List<Datagram> both = first();
        List<AircraftState> other = flight.subList(0, 120).stream()
                .map(state -> moved(state, 0.2, 0))
                .toList();
        both.addAll(sent(40_002, other, SILENT_FROM_S + 15, 5_000));
        assertThat(grade(capture("both", both), "")).isEqualTo(alone);
    }

    @Test
    void aSecondSimulatorHighAboveChangesNothingEither() throws Exception {
        JsonNode alone = grade(capture("alone", first()), "");
        List<Datagram> both = first();
        List<AircraftState> above = flight.subList(SILENT_FROM_S, flight.size()).stream()
                .map(state -> moved(state, 0, 9_000))
                .toList();
        both.addAll(sent(40_002, above, 15, 5_000));
        assertThat(grade(capture("both", both), "")).isEqualTo(alone);
    }

    /** Where both fly the same lesson from one place, a doubt is possible: the seat goes back, and both are told. */
    @Test
    void whoWasTakenForTheSilentOneHasAWholeFlightOfItsOwn() throws Exception {
        List<Datagram> both = first();
        both.addAll(sent(40_002, flight.subList(SILENT_FROM_S, flight.size()), 15, 5_000));
        Path capture = capture("both", both);
        JsonNode first = grade(capture, "seats/127_0_0_1_40001", "--every-aircraft");
        assertThat(first.get("score").asInt()).isPositive();
        List<Datagram> second = sent(40_002, flight.subList(SILENT_FROM_S, flight.size()), 15, 5_000);
        JsonNode alone = grade(capture("second", second), "seats/127_0_0_1_40002", "--every-aircraft");
        Path graded = folder.resolve("both.pcap-graded/seats/127_0_0_1_40002/grade.json");
        assertThat(new ObjectMapper().readTree(Files.readString(graded))).isEqualTo(alone);
    }
}
