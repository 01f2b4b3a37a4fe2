package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.Stream;

import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.console.recording.Capture;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.dis.DisFormat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/**
 * Seats at 20 Hz with a tablet open for each: the real program. A share in the build; twelve for as long as one likes by
 * hand: {@code -Drejoin.room-seats=12 -Drejoin.room-seconds=120}.
 */
@Timeout(value = 30, unit = TimeUnit.MINUTES)
@SuppressWarnings("try") // a program is held, not used
class RoomScaleTest extends RealRoom {

    private static final int HZ = 20;
    private static final int SEATS = Integer.getInteger("rejoin.room-seats", 3);
    private static final int SECONDS = Integer.getInteger("rejoin.room-seconds", 3);

    private final AtomicBoolean over = new AtomicBoolean();

    /** One simulator in real time. */
    private final class Sender extends Thread {
        private final List<AircraftState> flight;
        private final int port;
        private final AtomicInteger sent = new AtomicInteger();

        Sender(List<AircraftState> flight, int port) {
            this.flight = flight;
            this.port = port;
            setDaemon(true);
        }

        @Override
        public void run() {
            WireFormat.Encoder encoder = new DisFormat().newEncoder();
            try (DatagramSocket socket = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
                long startNs = System.nanoTime();
                for (int i = 0; i < flight.size() && !over.get(); i++) {
                    LockSupport.parkNanos(startNs + i * 1_000_000_000L / HZ - System.nanoTime());
                    for (byte[] payload : encoder.encode(flight.get(i))) {
                        socket.send(
                                new DatagramPacket(payload, payload.length, InetAddress.getLoopbackAddress(), port));
                        sent.incrementAndGet();
                    }
                }
                while (!over.get()) {
                    LockSupport.parkNanos(10_000_000);
                }
            } catch (Exception e) {
                throw new AssertionError(e);
            }
        }

        double sentS() {
            return sent.get() / (double) HZ;
        }
    }

    /** One tablet: the stream of a seat, and how far it is behind what was sent. */
    private final class Tablet extends Thread {
        private final String address;
        private final Sender sender;
        private final AtomicLong octets = new AtomicLong();
        private final CountDownLatch heard = new CountDownLatch(1);
        private final List<Double> behindS = new ArrayList<>();

        Tablet(String address, Sender sender) {
            this.address = address;
            this.sender = sender;
            setDaemon(true);
        }

        @Override
        public void run() {
            try {
                HttpResponse<InputStream> stream = HttpClient.newHttpClient()
                        .send(
                                HttpRequest.newBuilder(URI.create(address)).build(),
                                HttpResponse.BodyHandlers.ofInputStream());
                try (BufferedReader lines =
                        new BufferedReader(new InputStreamReader(stream.body(), StandardCharsets.UTF_8))) {
                    for (String line = lines.readLine(); line != null && !over.get(); line = lines.readLine()) {
                        octets.addAndGet(line.length() + 1L);
                        int now = line.indexOf("\"now\":[");
                        if (now >= 0) {
                            double timeS = Double.parseDouble(line.substring(now + 7, line.indexOf(',', now + 7)));
                            synchronized (behindS) {
                                behindS.add(sender.sentS() - timeS);
                            }
                            heard.countDown();
                        }
                    }
                }
            } catch (Exception e) {
                if (!over.get()) {
                    throw new AssertionError(e);
                }
            }
        }
    }

    @Test
    void everySeatIsRecordedWholeAndItsTabletIsNotBehind() throws Exception {
        List<AircraftState> flight = new ArrayList<>();
        new PracticeFlight(LessonReader.read("radial-outbound"), LocalDate.of(2026, 6, 1), Habit.GOOD)
                .fly(HZ, flight::add);
        List<Sender> senders = new ArrayList<>();
        List<Tablet> tablets = new ArrayList<>();
        try (RealProgram program = room("--lesson", "radial-outbound")) {
            for (int i = 0; i < SEATS; i++) {
                Sender sender = new Sender(flight, feed);
                senders.add(sender);
                sender.start();
                Thread.sleep(200);
                Tablet tablet = new Tablet(address() + "/stream/s" + (i + 1), sender);
                tablets.add(tablet);
                tablet.start();
            }
            for (Tablet tablet : tablets) {
                assertThat(tablet.heard.await(30, TimeUnit.SECONDS)).isTrue();
            }
            long cpuNs = cpuNs(program);
            long octets = tablets.stream().mapToLong(each -> each.octets.get()).sum();
            long startNs = System.nanoTime();
            Thread.sleep(SECONDS * 1000L);
            double seconds = (System.nanoTime() - startNs) / 1e9;
            double cores = (cpuNs(program) - cpuNs) / 1e9 / seconds;
            double kib = (tablets.stream().mapToLong(each -> each.octets.get()).sum() - octets) / 1024.0 / seconds;
            List<Double> behind = new ArrayList<>();
            for (Tablet tablet : tablets) {
                synchronized (tablet.behindS) {
                    behind.addAll(tablet.behindS);
                }
            }
            over.set(true);
            for (Sender sender : senders) {
                sender.join(5_000);
            }
            behind.sort(null);
            System.out.printf(
                    "%d seats, %d tablets, %.0f s: %.2f cores, %.0f KiB/s to the tablets, a tablet behind by %.2f s (half of"
                            + " the time), %.2f s (95 of 100), %.2f s at most%n",
                    SEATS,
                    SEATS,
                    seconds,
                    cores,
                    kib,
                    behind.get(behind.size() / 2),
                    behind.get(behind.size() * 95 / 100),
                    behind.get(behind.size() - 1));
            int sent = senders.stream().mapToInt(each -> each.sent.get()).sum();
            // All have one callsign: until one is told from the next its first datagram belongs to no attempt yet.
            for (int i = 0; i < 100 && recorded(home) < sent - SEATS; i++) {
                Thread.sleep(100);
            }
            assertThat(recorded(home)).isBetween(sent - SEATS, sent);
            assertThat(program.said()).doesNotContain("lost").doesNotContain("Exception");
        }
    }

    private static long cpuNs(RealProgram program) {
        return program.process()
                .toHandle()
                .info()
                .totalCpuDuration()
                .orElseThrow()
                .toNanos();
    }

    /** Each once: what comes from a port that nobody has may be another's who went on there, and is kept with both. */
    private static int recorded(Path home) throws Exception {
        Set<String> all = new HashSet<>();
        try (Stream<Path> found = Files.walk(home.resolve("attempts"))) {
            for (Path file : found.filter(each -> each.endsWith("flight.pcap")).toList()) {
                try (Capture capture = Capture.open(file)) {
                    for (var next = capture.next(); next.isPresent(); next = capture.next()) {
                        all.add(next.get().sender() + " " + next.get().receivedMicros());
                    }
                }
            }
        }
        return all.size();
    }
}
