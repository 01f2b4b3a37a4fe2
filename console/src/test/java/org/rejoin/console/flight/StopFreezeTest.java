package org.rejoin.console.flight;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.ByteBuffer;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.console.recording.CaptureWriter;
import org.rejoin.console.recording.Said;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.dis.DisFormat;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Simulation management of IEEE 1278.1-2012 (Stop/Freeze 7.5.5, Start/Resume 7.5.4, Remove Entity 7.5.3) and the exercise
 * in its header (6.2.66): what is said in another exercise is not said here, and who is seen to fly is not paused.
 */
class StopFreezeTest {

    private static final int OWN = 1;
    private static final int OTHER = 9;
    private static final int SIMULATOR = 4001;
    private static final int MANAGER = 4002;
    private static final double UNTIL_S = 250;
    private static final List<AircraftState> FLOWN = new ArrayList<>();

    @TempDir
    private Path folder;

    private final WireFormat.Encoder encoder = new DisFormat().newEncoder();
    private final List<Datagram> sent = new ArrayList<>();
    private int flights;

    @BeforeAll
    static void fly() throws Exception {
        new PracticeFlight(lesson(), LocalDate.of(2026, 6, 1), Habit.GOOD).fly(2, FLOWN::add);
        FLOWN.removeIf(state -> state.timeS() > UNTIL_S);
    }

    private static Lesson lesson() throws Exception {
        return LessonReader.read("heading-to-airway");
    }

    private void send(double atS, int port, byte[] octets) {
        sent.add(Datagram.of(
                1_780_000_000_000_000L + Math.round(atS * 1e6),
                new InetSocketAddress(InetAddress.getLoopbackAddress(), port),
                octets));
    }

    private void state(double atS, AircraftState state, int exercise) {
        for (byte[] octets : encoder.encode(state.withTimeS(atS))) {
            octets[1] = (byte) exercise;
            send(atS, SIMULATOR, octets);
        }
    }

    private void flyOn() {
        FLOWN.forEach(each -> state(each.timeS(), each, OWN));
    }

    /** To all. */
    private void manage(double atS, int port, int type, int length, int exercise) {
        ByteBuffer pdu = ByteBuffer.allocate(length);
        pdu.put(0, (byte) 7)
                .put(1, (byte) exercise)
                .put(2, (byte) type)
                .put(3, (byte) 5)
                .putShort(8, (short) length);
        pdu.putShort(18, (short) -1).putShort(20, (short) -1).putShort(22, (short) -1);
        send(atS, port, pdu.array());
    }

    private void stop(double atS, int port, int exercise) {
        manage(atS, port, 14, 40, exercise);
    }

    private void resume(double atS, int port) {
        manage(atS, port, 13, 44, OWN);
    }

    private List<Debrief> debrief(Following following) throws Exception {
        Path file = folder.resolve("flight" + flights++ + ".pcap");
        sent.sort(Comparator.comparingLong(Datagram::receivedMicros));
        try (CaptureWriter writer =
                CaptureWriter.create(file, new InetSocketAddress(InetAddress.getLoopbackAddress(), 3000))) {
            for (Datagram each : sent) {
                writer.write(each);
            }
        }
        sent.clear();
        return Debrief.of(file, lesson(), List.of(new DisFormat()), following, Said.NOTHING);
    }

    private Debrief debrief() throws Exception {
        return debrief(Following.FIRST).get(0);
    }

    private Debrief undisturbed() throws Exception {
        flyOn();
        Debrief flown = debrief();
        assertThat(flown.notes()).isEmpty();
        return flown;
    }

    @Test
    void anotherExerciseIsStoppedAndEmptiedWithoutThisOne() throws Exception {
        Debrief alone = undisturbed();
        for (int port : new int[] {SIMULATOR, MANAGER}) {
            flyOn();
            stop(100.1, port, OTHER);
            manage(120.1, port, 12, 28, OTHER);
            Debrief flown = debrief();
            assertThat(flown.events()).isEqualTo(alone.events());
            assertThat(flown.notes()).isEmpty();
        }
    }

    @Test
    void whoFliesOnAfterStopFreezeIsNotPausedAndThatIsSaidOnce() throws Exception {
        Debrief alone = undisturbed();
        flyOn();
        stop(100.1, SIMULATOR, OWN);
        stop(130.1, SIMULATOR, OWN);
        Debrief flown = debrief();
        assertThat(flown.events()).isEqualTo(alone.events());
        assertThat(flown.notes()).singleElement().asString().contains("Stop/Freeze");
    }

    @Test
    void aStartResumeThatIsLostDoesNotHoldTheFlight() throws Exception {
        AircraftState there = at(100);
        for (AircraftState each : FLOWN) {
            state(each.timeS() + (each.timeS() > 100 ? 30 : 0), each, OWN);
        }
        for (int beat = 1; beat < 6; beat++) {
            state(100 + 5 * beat, there, OWN);
        }
        stop(100.1, SIMULATOR, OWN);
        Debrief flown = debrief();
        assertThat(one(flown, FlightEvent.SimPaused.class).timeS()).isCloseTo(100.1, Offset.offset(0.11));
        assertThat(one(flown, FlightEvent.SimResumed.class).timeS()).isBetween(125.0, 131.0);
        assertThat(flown.events()).noneMatch(FlightEvent.FeedLost.class::isInstance);
    }

    private static AircraftState at(double timeS) {
        return FLOWN.stream()
                .filter(each -> Math.abs(each.timeS() - timeS) < 0.01)
                .findFirst()
                .orElseThrow();
    }

    private static FlightEvent one(Debrief flown, Class<? extends FlightEvent> kind) {
        List<FlightEvent> all = flown.events().stream().filter(kind::isInstance).toList();
        assertThat(all).as(kind.getSimpleName()).hasSize(1);
        return all.get(0);
    }

    @Test
    void aStoppedSimulatorThatSendsNothingIsPausedAndNotLost() throws Exception {
        List<FlightEvent> alone = undisturbed().events();
        for (int port : new int[] {SIMULATOR, MANAGER}) {
            for (boolean heartbeats : new boolean[] {false, true}) {
                for (AircraftState each : FLOWN) {
                    state(each.timeS() + (each.timeS() > 100 ? 60 : 0), each, OWN);
                }
                for (int beat = 1; heartbeats && beat < 12; beat++) {
                    state(100 + 5 * beat, at(100), OWN);
                }
                stop(100.1, port, OWN);
                resume(159.9, port);
                Debrief flown = debrief();
                assertThat(one(flown, FlightEvent.SimPaused.class).timeS()).isCloseTo(100.1, Offset.offset(0.11));
                assertThat(one(flown, FlightEvent.SimResumed.class).timeS()).isCloseTo(159.9, Offset.offset(0.01));
                List<FlightEvent> rest = flown.events().stream()
                        .filter(event -> !event.name().startsWith("sim_"))
                        .toList();
                assertThat(rest).hasSameSizeAs(alone);
                for (int i = 0; i < rest.size(); i++) {
                    assertThat(rest.get(i).name()).isEqualTo(alone.get(i).name());
                    assertThat(rest.get(i).timeS())
                            .isCloseTo(
                                    alone.get(i).timeS() + (alone.get(i).timeS() > 100 ? 60 : 0), Offset.offset(0.3));
                }
            }
        }
    }

    @Test
    void twoExercisesOfOneSenderAreTwoAircraftOfOneIdentifier() throws Exception {
        Debrief alone = undisturbed();
        for (AircraftState each : FLOWN) {
            state(each.timeS(), each, OWN);
            state(each.timeS() + 0.04, at(Math.max(0, Math.floor(each.timeS()) - 3)), OTHER);
        }
        List<Debrief> both = debrief(Following.EVERY);
        assertThat(both).hasSize(2);
        assertThat(both.get(0).events()).isEqualTo(alone.events());
        assertThat(both.get(0).aircraft().label()).isEqualTo(alone.aircraft().label());
        assertThat(both.get(0).record().points().count())
                .isEqualTo(alone.record().points().count());
    }
}
