package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;

import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.console.recording.Captured;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.json.JsonFormat;

import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The real program, ended from outside. {@code -Drejoin.kills=N} kills it so often (default 10). */
@Timeout(value = 15, unit = TimeUnit.MINUTES)
class KilledTest {

    /**
     * What may be lost of the end, nanoseconds. The recorder promises 250 ms from receipt; the rest is for a busy machine
     * that does not let the program receive. {@code -Drejoin.kills-quiet=true} on a quiet one asks for the promise.
     */
    private static final long LOST_NS = Boolean.getBoolean("rejoin.kills-quiet") ? 250_000_000L : 1_250_000_000L;

    private static final long STEP_NS = 1_000_000;

    private static final List<byte[]> SENT = new ArrayList<>();

    @TempDir
    private Path folder;

    @BeforeAll
    static void fly() throws Exception {
        WireFormat.Encoder encoder = new JsonFormat().newEncoder();
        new PracticeFlight(LessonReader.read("heading-to-airway"), LocalDate.of(2026, 6, 1), Habit.GOOD)
                .fly(1, state -> SENT.addAll(encoder.encode(state)));
    }

    private record Listening(Process process, int port, Path recording, Path out) {}

    private Listening start(String name, String... more) throws Exception {
        int port;
        try (DatagramSocket free = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            port = free.getLocalPort();
        }
        Path recording = folder.resolve(name);
        Path out = folder.resolve(name + "-" + port + ".out");
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                Rejoin.class.getName(),
                "listen",
                "--port",
                String.valueOf(port)));
        command.addAll(
                List.of(more.length > 0 ? more : new String[] {"heading-to-airway", "--out", recording.toString()}));
        Process process = new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(out.toFile())
                .start();
        while (!Files.readString(out).contains("listening on")) {
            assertThat(process.isAlive()).as(Files.readString(out)).isTrue();
            Thread.sleep(10);
        }
        return new Listening(process, port, recording, out);
    }

    /** Sends from a datagram on, one a millisecond, until told; how many were on the way long enough before. */
    private static int send(DatagramSocket socket, int port, int from, long forNs) throws Exception {
        long startNs = System.nanoTime();
        int count = 0;
        List<Long> sentNs = new ArrayList<>();
        while (System.nanoTime() - startNs < forNs && from + count < SENT.size()) {
            byte[] payload = SENT.get(from + count);
            socket.send(new DatagramPacket(payload, payload.length, InetAddress.getLoopbackAddress(), port));
            sentNs.add(System.nanoTime());
            count++;
            LockSupport.parkNanos(STEP_NS);
        }
        long endNs = System.nanoTime();
        return (int) sentNs.stream().filter(atNs -> endNs - atNs > LOST_NS).count();
    }

    private static String debrief(Path recording) {
        StringWriter out = new StringWriter();
        int exit = Rejoin.run(new PrintWriter(out, true), new PrintWriter(out, true), "debrief", recording.toString());
        assertThat(exit).as(out.toString()).isZero();
        return out.toString();
    }

    @Test
    void whateverTheInstantTheRecordingIsReadUpToTheTear() throws Exception {
        int kills = Integer.getInteger("rejoin.kills", 10);
        SplittableRandom random = new SplittableRandom(20260601);
        for (int i = 0; i < kills; i++) {
            Listening listening = start("killed" + i);
            int due;
            try (DatagramSocket socket = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
                due = send(socket, listening.port(), 0, 50_000_000L + random.nextLong(2_000_000_000L));
            } finally {
                listening.process().destroyForcibly();
            }
            assertThat(listening.process().waitFor(30, TimeUnit.SECONDS)).isTrue();
            Captured contents = Captured.in(listening.recording().resolve("flight.pcap"));
            assertThat(contents.datagrams().size()).as("kill %d", i).isGreaterThanOrEqualTo(due);
            for (int d = 0; d < contents.datagrams().size(); d++) {
                byte[] octets = new byte[contents.datagrams().get(d).length()];
                contents.datagrams().get(d).payload().get(0, octets);
                assertThat(octets).isEqualTo(SENT.get(d));
            }
            if (!contents.datagrams().isEmpty()) {
                debrief(listening.recording());
            }
        }
    }

    @Test
    void aFlightThatBrokeOffGoesOnAndIsOneRecording() throws Exception {
        Listening first = start("resumed");
        Path recording = first.recording();
        try (DatagramSocket socket = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            send(socket, first.port(), 0, 600_000_000L);
            first.process().destroyForcibly();
            assertThat(first.process().waitFor(30, TimeUnit.SECONDS)).isTrue();
            int recorded =
                    Captured.in(recording.resolve("flight.pcap")).datagrams().size();
            // A torn tail, as a power failure leaves it.
            Files.write(
                    recording.resolve("flight.pcap"), new byte[] {1, 2, 3}, java.nio.file.StandardOpenOption.APPEND);

            Listening second = start("resumed", "--resume", recording.toString(), "--idle", "2");
            send(socket, second.port(), recorded, 60_000_000_000L);
            assertThat(second.process().waitFor(60, TimeUnit.SECONDS)).isTrue();
            assertThat(second.process().exitValue())
                    .as(Files.readString(second.out()))
                    .isZero();
            assertThat(Files.readString(second.out()))
                    .contains(recorded + " datagrams of the recording were flown again")
                    .contains("SCORE");
        }
        assertThat(Captured.in(recording.resolve("flight.pcap")).datagrams()).hasSize(SENT.size());
        List<String> log = Files.readAllLines(recording.resolve("log.jsonl"));
        assertThat(log.stream().filter(line -> line.contains("\"flight_began\"")))
                .hasSize(1);
        assertThat(log.stream().filter(line -> line.contains("\"clearance_issued\"")))
                .hasSize(1);
        Path again = folder.resolve("again");
        Rejoin.run(
                new PrintWriter(new StringWriter()),
                new PrintWriter(new StringWriter()),
                "debrief",
                recording.toString(),
                "--out",
                again.toString());
        assertThat(again.resolve("log.jsonl")).hasSameTextualContentAs(recording.resolve("log.jsonl"));
        assertThat(again.resolve("grade.json")).hasSameTextualContentAs(recording.resolve("grade.json"));
    }

    @Test
    void termEndsTheFlightInOrder() throws Exception {
        Listening listening = start("ended");
        try (DatagramSocket socket = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            send(socket, listening.port(), 0, 300_000_000L);
        }
        listening.process().destroy(); // SIGTERM
        assertThat(listening.process().waitFor(30, TimeUnit.SECONDS)).isTrue();
        assertThat(listening.process().exitValue()).isZero();
        assertThat(Files.readString(listening.out())).contains("flight ended").contains(Rejoin.CAUTION);
        assertThat(listening.recording().resolve("grade.json")).isRegularFile();
        debrief(listening.recording());
    }
}
