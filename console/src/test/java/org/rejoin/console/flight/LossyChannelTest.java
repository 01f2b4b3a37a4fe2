package org.rejoin.console.flight;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.stream.Stream;

import org.rejoin.bridge.feed.AircraftChoice;
import org.rejoin.bridge.feed.AircraftSorter;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.console.grade.Fault;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.console.recording.Said;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.detect.WireFormats;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The same flight through a bad network gives the same faults, event times within a second and a score within two
 * points: every built-in lesson, every habit, every format. The bounds are this project's own; no source.
 */
class LossyChannelTest {

    private static final InetSocketAddress SENDER = new InetSocketAddress(InetAddress.getLoopbackAddress(), 40_000);
    private static final long BEGAN_MICROS = 1_780_348_474_000_000L;
    private static final double HZ = 5;
    private static final double LOSS = 0.25;
    private static final double DOUBLED = 0.05;
    private static final double JITTER_S = 0.3;
    private static final long SEEDS = Long.getLong("rejoin.channel.seeds", 1);

    private record Outcome(Grade grade, Map<String, Double> times) {}

    static Stream<Arguments> flights() {
        return Stream.of(BuiltInLesson.values())
                .flatMap(lesson -> Stream.of(Habit.values())
                        .flatMap(habit ->
                                Stream.of("dis", "nmea", "json").map(format -> Arguments.of(lesson, habit, format))));
    }

    private static List<AircraftState> flown(BuiltInLesson lesson, Habit habit) throws Exception {
        List<AircraftState> states = new ArrayList<>();
        Lesson read = LessonReader.read(lesson.lessonName());
        new PracticeFlight(read, read.date().orElseThrow(), habit).fly(HZ, states::add);
        return states;
    }

    @ParameterizedTest
    @MethodSource("flights")
    void theNetworkIsNobodysFault(BuiltInLesson lesson, Habit habit, String format) throws Exception {
        List<AircraftState> states = flown(lesson, habit);
        WireFormat wire = new WireFormats().named(format).orElseThrow();
        Outcome clean = graded(lesson, sent(states, wire, 0, 0, 0, 0));
        for (long seed = 1; seed <= SEEDS; seed++) {
            Outcome lossy = graded(lesson, sent(states, wire, LOSS, DOUBLED, JITTER_S, seed));
            assertThat(codes(lossy.grade)).as("faults, seed %d", seed).isEqualTo(codes(clean.grade));
            assertThat(lossy.times.keySet())
                    .as("events, seed %d", seed)
                    .containsExactlyInAnyOrderElementsOf(clean.times.keySet());
            clean.times.forEach(
                    (name, timeS) -> assertThat(lossy.times.get(name)).as(name).isCloseTo(timeS, within(1.0)));
            assertThat(lossy.grade.score().orElseThrow())
                    .isCloseTo(clean.grade.score().orElseThrow(), within(2.0));
        }
    }

    static List<FaultCode> codes(Grade grade) {
        return grade.faults().stream().map(Fault::code).toList();
    }

    /** Datagrams in order of receipt: lost, doubled and delayed at random; what is delayed longer is overtaken. */
    static List<Datagram> sent(
            List<AircraftState> states, WireFormat format, double loss, double doubled, double jitterS, long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        WireFormat.Encoder encoder = format.newEncoder();
        List<Datagram> arriving = new ArrayList<>();
        for (AircraftState state : states) {
            for (byte[] octets : encoder.encode(state)) {
                int copies = random.nextDouble() < loss ? 0 : random.nextDouble() < doubled ? 2 : 1;
                for (int i = 0; i < copies; i++) {
                    double atS = state.timeS() + jitterS * random.nextDouble();
                    arriving.add(Datagram.of(BEGAN_MICROS + Math.round(atS * 1e6), SENDER, octets));
                }
            }
        }
        arriving.sort(Comparator.comparingLong(Datagram::receivedMicros));
        return arriving;
    }

    /** The one aircraft of these datagrams, flown to the end. */
    static FlownAircraft graded(Lesson lesson, List<Datagram> datagrams) throws Exception {
        LessonFlights flights = new LessonFlights(
                lesson,
                ToleranceSet.read(lesson.standard()),
                () -> lesson.date().orElseThrow(),
                Following.FIRST,
                FlightRecord::whole,
                flown -> List.of(new LessonFlights.Watcher() {
                    @Override
                    public void notIssued(Entry.NotIssued not) {
                        throw new AssertionError(not.why());
                    }
                }),
                Said.NOTHING);
        AircraftSorter seats = new AircraftSorter(new WireFormats().all(), AircraftChoice.all(), flights);
        datagrams.forEach(seats::accept);
        seats.finish();
        flights.finish();
        return flights.flown().get(0);
    }

    private static Outcome graded(BuiltInLesson name, List<Datagram> datagrams) throws Exception {
        FlownAircraft flown = graded(LessonReader.read(name.lessonName()), datagrams);
        Map<String, Double> times = new LinkedHashMap<>();
        for (FlightEvent event : flown.events()) {
            if (event instanceof FlightEvent.FlightEnded) {
                continue; // when the last sample that arrived was sent is the network's
            }
            int n = 1;
            while (times.containsKey(event.name() + " " + n)) {
                n++;
            }
            times.put(event.name() + " " + n, event.timeS());
        }
        return new Outcome(flown.grade(), times);
    }
}
