package org.rejoin.console.cost;

import java.lang.management.ManagementFactory;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.Stream;

import org.rejoin.bridge.feed.AircraftChoice;
import org.rejoin.bridge.feed.AircraftSorter;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.console.flight.Following;
import org.rejoin.console.flight.LessonFlights;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.console.recording.CaptureWriter;
import org.rejoin.console.recording.Recorder;
import org.rejoin.console.recording.Said;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.dis.DisFormat;

import com.sun.management.UnixOperatingSystemMXBean;

/**
 * Hours of twelve seats at 20 Hz through recorder, decoder, tracker and grader, three hundred times as fast as they are
 * flown: the disk keeps up with that. After each hour of flight it says the heap after a collection and the open files: both must stay where they were after the first. Run by
 * hand with the number of hours; what it gave stands in bridge/docs/speed.md.
 */
public final class Soak {

    private static final int SEATS = 12;
    private static final int HZ = 20;
    private static final int TIMES_REAL = 300;
    private static final int ENTITY_OFFSET = 16;

    private Soak() {}

    /**
     * Runs it.
     *
     * @param args hours of flight
     * @throws Exception if the disk fails
     */
    public static void main(String[] args) throws Exception {
        int hours = Integer.parseInt(args[0]);
        Path folder = Files.createTempDirectory("soak");
        try {
            soak(hours, folder);
        } finally {
            try (Stream<Path> all = Files.walk(folder)) {
                for (Path each : all.sorted(Comparator.reverseOrder()).toList()) {
                    Files.delete(each);
                }
            }
        }
    }

    private static void soak(int hours, Path folder) throws Exception {
        Lesson lesson = LessonReader.read("radial-outbound");
        LocalDate date = LocalDate.of(2026, 6, 1);
        List<AircraftState> once = new ArrayList<>();
        new PracticeFlight(lesson, date, Habit.WEAVING).fly(HZ, once::add);
        List<String> warnings = new ArrayList<>();
        InetSocketAddress here = new InetSocketAddress(InetAddress.getLoopbackAddress(), 3000);
        InetSocketAddress sender = new InetSocketAddress(InetAddress.getLoopbackAddress(), 40_000);
        try (Recorder recorder =
                new Recorder(CaptureWriter.create(folder.resolve("flight.pcap"), here), warnings::add)) {
            LessonFlights flights = new LessonFlights(
                    lesson,
                    ToleranceSet.read(lesson.standard()),
                    () -> date,
                    Following.EVERY,
                    FlightRecord::whole,
                    aircraft -> List.of(),
                    Said.NOTHING);
            AircraftSorter seats = new AircraftSorter(List.of(new DisFormat()), AircraftChoice.all(), flights);
            WireFormat.Encoder encoder = new DisFormat().newEncoder();
            long startMicros = 1_780_000_000_000_000L;
            long perHour = 3600L * HZ;
            long began = System.nanoTime();
            for (long step = 0; step < hours * perHour; step++) {
                // The flight again and again: each new start is a reposition.
                AircraftState state = once.get((int) (step % once.size())).withTimeS((double) step / HZ);
                byte[] octets = encoder.encode(state).get(0);
                for (int seat = 0; seat < SEATS; seat++) {
                    byte[] own = octets.clone();
                    ByteBuffer.wrap(own).putShort(ENTITY_OFFSET, (short) (seat + 1));
                    Datagram datagram = Datagram.of(startMicros + step * 1_000_000 / HZ + seat * 1000L, sender, own);
                    recorder.record(datagram);
                    seats.accept(datagram);
                }
                long ahead = began + step * 1_000_000_000L / HZ / TIMES_REAL - System.nanoTime();
                if (ahead > 0) {
                    LockSupport.parkNanos(ahead);
                }
                if ((step + 1) % perHour == 0) {
                    say((step + 1) / perHour, began, flights, recorder);
                }
            }
            seats.finish();
            flights.finish();
            flights.flown().stream()
                    .map(aircraft -> aircraft.events().get(aircraft.events().size() - 1))
                    .mapToDouble(ended -> ended.timeS() - (hours * perHour - 1.0) / HZ)
                    .map(Math::abs)
                    .max()
                    .ifPresent(drift -> System.out.printf(
                            Locale.ROOT, "largest drift of a seat's clock at the end: %.4f s%n", drift));
        }
        System.out.println("warnings: " + warnings);
    }

    private static void say(long hour, long began, LessonFlights flights, Recorder recorder) {
        System.gc();
        Runtime runtime = Runtime.getRuntime();
        long files = ManagementFactory.getOperatingSystemMXBean() instanceof UnixOperatingSystemMXBean unix
                ? unix.getOpenFileDescriptorCount()
                : -1;
        System.out.printf(
                Locale.ROOT,
                "hour %d: heap %.1f MB, %d files open, %d events, %d datagrams not recorded, %.0f s of computing%n",
                hour,
                (runtime.totalMemory() - runtime.freeMemory()) / 1e6,
                files,
                flights.flown().stream()
                        .mapToInt(aircraft -> aircraft.events().size())
                        .sum(),
                recorder.missing(),
                (System.nanoTime() - began) / 1e9);
    }
}
