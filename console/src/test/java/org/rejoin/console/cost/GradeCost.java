package org.rejoin.console.cost;

import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.function.LongSupplier;
import java.util.stream.Stream;

import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.feed.AircraftChoice;
import org.rejoin.bridge.feed.AircraftKey;
import org.rejoin.bridge.feed.AircraftSink;
import org.rejoin.bridge.feed.AircraftSorter;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.console.flight.Debrief;
import org.rejoin.console.flight.Following;
import org.rejoin.console.grade.Grader;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.recording.Capture;
import org.rejoin.console.recording.Said;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.dis.DisFormat;
import org.rejoin.protocol.json.JsonFormat;
import org.rejoin.protocol.nmea.NmeaFormat;

/**
 * What a sample costs from state to events to grade, and how many recordings are graded a second, on one thread, with the
 * recordings of the repository. Run by hand from the console's directory, never a test; how, and what it gave:
 * docs/speed.md of the bridge.
 *
 * <p>{@code sample ROUNDS} or {@code debrief ROUNDS}.
 */
public final class GradeCost {

    private static final List<WireFormat> FORMATS = List.of(new DisFormat(), new NmeaFormat(), new JsonFormat());

    private static final com.sun.management.ThreadMXBean THREADS =
            (com.sun.management.ThreadMXBean) ManagementFactory.getThreadMXBean();

    private GradeCost() {}

    /**
     * Runs one of the measurements.
     *
     * @param args see the class
     * @throws Exception if a recording cannot be read
     */
    public static void main(String[] args) throws Exception {
        List<Path> recordings;
        try (Stream<Path> all = Files.list(Path.of("..", "recordings"))) {
            recordings = all.filter(Files::isDirectory).sorted().toList();
        }
        int rounds = Integer.parseInt(args[1]);
        switch (args[0]) {
            case "sample" -> sample(recordings, rounds);
            case "debrief" -> debrief(recordings, rounds);
            default -> throw new IllegalArgumentException("sample or debrief");
        }
    }

    /** A recording as the tracker sees it. */
    private record Flown(FlightSession.Setting setting, ToleranceSet set, List<AircraftState> states) {

        static Flown of(Path recording) throws Exception {
            Lesson lesson = LessonReader.readFile(recording.resolve("lesson.yaml"));
            List<AircraftState> states = new ArrayList<>();
            AircraftSorter aircraft = new AircraftSorter(FORMATS, AircraftChoice.all(), new AircraftSink() {
                @Override
                public void state(AircraftKey key, AircraftState state) {
                    states.add(state);
                }
            });
            try (Capture capture = Capture.open(recording.resolve("flight.pcap"))) {
                for (var next = capture.next(); next.isPresent(); next = capture.next()) {
                    aircraft.accept(next.get());
                }
            }
            aircraft.finish();
            ToleranceSet set = ToleranceSet.read(lesson.standard());
            FlightSession.Setting setting = new FlightSession.Setting(
                    lesson.chart(),
                    lesson.filed(),
                    lesson.amendments(),
                    LocalDate.of(2026, 6, 1),
                    lesson.wind(),
                    set.limits(),
                    12);
            return new Flown(setting, set, states);
        }

        /** The same flight as a simulator sends it, in straight lines between the samples. */
        Flown atHz(double hz) {
            List<AircraftState> more = new ArrayList<>();
            for (int i = 1; i < states.size(); i++) {
                AircraftState a = states.get(i - 1);
                AircraftState b = states.get(i);
                int pieces = Math.max(1, (int) Math.round((b.timeS() - a.timeS()) * hz));
                for (int piece = 0; piece < pieces; piece++) {
                    double share = (double) piece / pieces;
                    more.add(new AircraftState(
                            mix(a.timeS(), b.timeS(), share),
                            mix(a.latitudeDeg(), b.latitudeDeg(), share),
                            mix(a.longitudeDeg(), b.longitudeDeg(), share),
                            a.altitudeMslFt(),
                            direction(a.headingTrueDeg(), b.headingTrueDeg(), share),
                            direction(a.headingMagneticDeg(), b.headingMagneticDeg(), share),
                            direction(a.trackTrueDeg(), b.trackTrueDeg(), share),
                            a.groundSpeedKt(),
                            a.verticalSpeedFpm(),
                            a.pitchDeg(),
                            a.rollDeg(),
                            a.indicatedAirspeedKt(),
                            a.paused()));
                }
            }
            return new Flown(setting, set, more);
        }

        private static double mix(double a, double b, double share) {
            return a + (b - a) * share;
        }

        private static OptionalDouble direction(OptionalDouble a, OptionalDouble b, double share) {
            return a.isPresent() && b.isPresent()
                    ? OptionalDouble.of(
                            Angles.circle(a.getAsDouble() + Angles.turn(b.getAsDouble() - a.getAsDouble()) * share))
                    : a;
        }

        /** From the first state to the grade; a sample in which something happened is not counted. */
        double fly(LongSupplier gauge) {
            FlightRecord record = FlightRecord.withoutPoints();
            Grader grader = new Grader(set);
            boolean[] happened = new boolean[1];
            record.tell(entry -> {
                entry.readBy(grader);
                happened[0] |= !(entry instanceof Point);
            });
            FlightSession session = new FlightSession(setting, record);
            grader.measuredBy(session.quality());
            long sum = 0;
            long counted = 0;
            for (AircraftState state : states) {
                happened[0] = false;
                long before = gauge.getAsLong();
                session.accept(state);
                long after = gauge.getAsLong();
                if (!happened[0]) {
                    sum += after - before;
                    counted++;
                }
            }
            return (double) sum / counted;
        }
    }

    private static void sample(List<Path> recordings, int rounds) throws Exception {
        for (double hz : new double[] {1, 20}) {
            List<Flown> flights = new ArrayList<>();
            for (Path recording : recordings) {
                flights.add(Flown.of(recording).atHz(hz));
            }
            double[] ns = new double[rounds];
            double overheadNs = overhead(System::nanoTime);
            for (int round = 0; round < rounds; round++) {
                for (Flown flight : flights) {
                    ns[round] += (flight.fly(System::nanoTime) - overheadNs) / flights.size();
                }
            }
            Arrays.sort(ns);
            long thread = Thread.currentThread().getId();
            LongSupplier allocated = () -> THREADS.getThreadAllocatedBytes(thread);
            double octets = 0;
            for (Flown flight : flights) {
                octets += (flight.fly(allocated) - overhead(allocated)) / flights.size();
            }
            System.out.printf(
                    Locale.ROOT,
                    "%2.0f Hz, state to events to grade: fastest round %.0f ns, median %.0f ns a sample; %.0f octets%n",
                    hz,
                    ns[0],
                    ns[rounds / 2],
                    octets);
        }
    }

    /** What the gauge itself adds. */
    private static double overhead(LongSupplier gauge) {
        long least = Long.MAX_VALUE;
        for (int i = 0; i < 100_000; i++) {
            long began = gauge.getAsLong();
            least = Math.min(least, gauge.getAsLong() - began);
        }
        return least;
    }

    private static void debrief(List<Path> recordings, int rounds) throws Exception {
        double[] seconds = new double[rounds];
        long samples = 0;
        for (int round = 0; round < rounds; round++) {
            long cpu = THREADS.getCurrentThreadCpuTime();
            samples = 0;
            for (Path recording : recordings) {
                Debrief debrief = Debrief.of(
                                recording.resolve("flight.pcap"),
                                LessonReader.readFile(recording.resolve("lesson.yaml")),
                                FORMATS,
                                Following.FIRST,
                                Said.NOTHING)
                        .get(0);
                samples += debrief.record().points().count();
            }
            seconds[round] = (THREADS.getCurrentThreadCpuTime() - cpu) * 1e-9;
            if (round < 3) {
                System.out.printf(Locale.ROOT, "round %d: %.3f s%n", round + 1, seconds[round]);
            }
        }
        Arrays.sort(seconds);
        System.out.printf(
                Locale.ROOT,
                "%d recordings, %d points: fastest round %.1f, median %.1f recordings a second; of 820 samples %.1f%n",
                recordings.size(),
                samples,
                recordings.size() / seconds[0],
                recordings.size() / seconds[rounds / 2],
                samples / 820.0 / seconds[rounds / 2]);
    }
}
