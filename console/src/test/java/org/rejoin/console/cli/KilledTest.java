package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.DatagramSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;

import org.rejoin.console.recording.Captured;
import org.rejoin.protocol.Datagram;

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
        SENT.addAll(RealProgram.flight());
    }

    private RealProgram listen(Path recording) throws Exception {
        return RealProgram.listen(folder, "heading-to-airway", "--out", recording.toString());
    }

    private static List<Datagram> recorded(Path recording) throws Exception {
        return Captured.in(recording.resolve("flight.pcap")).datagrams();
    }

    /** Sends from a datagram on, one a millisecond, until told; how many were on the way long enough before. */
    private static int send(RealProgram to, DatagramSocket simulator, int from, long forNs) throws Exception {
        long startNs = System.nanoTime();
        int count = 0;
        List<Long> sentNs = new ArrayList<>();
        while (System.nanoTime() - startNs < forNs && from + count < SENT.size()) {
            to.send(simulator, SENT.get(from + count));
            sentNs.add(System.nanoTime());
            count++;
            LockSupport.parkNanos(STEP_NS);
        }
        long endNs = System.nanoTime();
        return (int) sentNs.stream().filter(atNs -> endNs - atNs > LOST_NS).count();
    }

    @Test
    void whateverTheInstantTheRecordingIsReadUpToTheTear() throws Exception {
        int kills = Integer.getInteger("rejoin.kills", 10);
        SplittableRandom random = new SplittableRandom(20260601);
        for (int i = 0; i < kills; i++) {
            Path recording = folder.resolve("killed" + i);
            int due;
            try (RealProgram program = listen(recording)) {
                due = send(program, program.simulator(), 0, 50_000_000L + random.nextLong(2_000_000_000L));
                program.kill();
            }
            List<Datagram> recorded = recorded(recording);
            assertThat(recorded.size()).as("kill %d", i).isGreaterThanOrEqualTo(due);
            for (int d = 0; d < recorded.size(); d++) {
                byte[] octets = new byte[recorded.get(d).length()];
                recorded.get(d).payload().get(0, octets);
                assertThat(octets).isEqualTo(SENT.get(d));
            }
            if (!recorded.isEmpty()) {
                Ran.well("debrief", recording.toString());
            }
        }
    }

    @Test
    void aFlightThatBrokeOffGoesOnAndIsOneRecording() throws Exception {
        Path recording = folder.resolve("resumed");
        try (RealProgram first = listen(recording)) {
            send(first, first.simulator(), 0, 600_000_000L);
            first.kill();
            int before = recorded(recording).size();
            // A torn tail, as a power failure leaves it.
            Files.write(recording.resolve("flight.pcap"), new byte[] {1, 2, 3}, StandardOpenOption.APPEND);
            try (RealProgram second = RealProgram.listen(folder, "--resume", recording.toString(), "--idle", "2")) {
                send(second, first.simulator(), before, 60_000_000_000L);
                assertThat(second.awaitEnd()).as(second.said()).isZero();
                assertThat(second.said())
                        .contains(before + " datagrams of the recording were flown again")
                        .contains("SCORE");
            }
        }
        assertThat(recorded(recording)).hasSize(SENT.size());
        List<String> log = Files.readAllLines(recording.resolve("log.jsonl"));
        assertThat(log.stream().filter(line -> line.contains("\"flight_began\"")))
                .hasSize(1);
        assertThat(log.stream().filter(line -> line.contains("\"clearance_issued\"")))
                .hasSize(1);
        Path again = folder.resolve("again");
        Ran.run("debrief", recording.toString(), "--out", again.toString());
        assertThat(again.resolve("log.jsonl")).hasSameTextualContentAs(recording.resolve("log.jsonl"));
        assertThat(again.resolve("grade.json")).hasSameTextualContentAs(recording.resolve("grade.json"));
    }

    @Test
    void termEndsTheFlightInOrder() throws Exception {
        Path recording = folder.resolve("ended");
        try (RealProgram program = listen(recording)) {
            send(program, program.simulator(), 0, 300_000_000L);
            program.process().destroy(); // SIGTERM
            assertThat(program.awaitEnd()).isZero();
            assertThat(program.said()).contains("flight ended").contains(Rejoin.CAUTION);
        }
        assertThat(recording.resolve("grade.json")).isRegularFile();
        Ran.well("debrief", recording.toString());
    }
}
