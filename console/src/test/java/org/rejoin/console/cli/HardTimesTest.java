package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.InputStream;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;

import org.rejoin.console.recording.Captured;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/** The real program with little memory, stopped for a while, and sent more than it can take. */
@Timeout(value = 120, unit = TimeUnit.SECONDS)
class HardTimesTest {

    @TempDir
    private Path folder;

    private static void signal(RealProgram program, String name) throws Exception {
        assertThat(new ProcessBuilder(
                                "kill",
                                "-" + name,
                                String.valueOf(program.process().pid()))
                        .start()
                        .waitFor())
                .isZero();
    }

    private static void sendInBursts(RealProgram program, List<byte[]> flight) throws Exception {
        for (int i = 0; i < flight.size(); i++) {
            program.send(flight.get(i));
            if (i % 20 == 0) {
                Thread.sleep(20);
            }
        }
    }

    /** Room outside the heap for a dozen of the largest datagrams, where a look at the socket may ask for a thousand. */
    @Test
    void littleMemoryOutsideTheHeapCostsNoSocket() throws Exception {
        Path recording = folder.resolve("flight");
        List<byte[]> flight = RealProgram.flight();
        try (RealProgram program = RealProgram.listen(
                folder,
                List.of("-Xmx64m", "-XX:MaxDirectMemorySize=1m"),
                "heading-to-airway",
                "--out",
                recording.toString(),
                "--idle",
                "2")) {
            sendInBursts(program, flight);
            assertThat(program.awaitEnd()).as(program.said()).isZero();
            assertThat(program.said()).contains("SCORE").doesNotContain("lost", "Error", "could not be taken");
        }
        assertThat(Captured.in(recording.resolve("flight.pcap")).datagrams()).hasSize(flight.size());
    }

    @Test
    void aHeapOf64MegabytesIsEnough() throws Exception {
        List<byte[]> flight = RealProgram.flight();
        try (RealProgram program =
                RealProgram.listen(folder, List.of("-Xmx64m"), "heading-to-airway", "--page", "0", "--idle", "2")) {
            sendInBursts(program, flight);
            assertThat(program.awaitEnd()).as(program.said()).isZero();
            assertThat(program.said()).contains("SCORE").doesNotContain("Error", "could not be taken");
        }
    }

    /** As by a debugger, a laptop's lid or Ctrl-Z: the rest of the flight waits in the socket. */
    @Test
    @EnabledOnOs({OS.LINUX, OS.MAC})
    void aStopLongerThanTheIdleTimeDoesNotEndTheFlight() throws Exception {
        Path recording = folder.resolve("flight");
        List<byte[]> flight = RealProgram.flight();
        try (RealProgram program =
                RealProgram.listen(folder, "heading-to-airway", "--out", recording.toString(), "--idle", "1.5")) {
            int sent = 100;
            program.send(flight.subList(0, sent));
            for (int times = 0; times < 3; times++) {
                signal(program, "STOP");
                for (int i = 0; i < 20; i++) {
                    program.send(flight.get(sent++));
                    Thread.sleep(100);
                }
                signal(program, "CONT");
                for (int i = 0; i < 20; i++) {
                    program.send(flight.get(sent++));
                    Thread.sleep(20);
                }
                assertThat(program.process().isAlive()).as(program.said()).isTrue();
            }
            program.send(flight.subList(sent, flight.size()));
            assertThat(program.awaitEnd()).as(program.said()).isZero();
        }
        assertThat(Captured.in(recording.resolve("flight.pcap")).datagrams()).hasSize(flight.size());
    }

    /** Linux tells what it dropped; the program passes it on, on the terminal and on the page. */
    @Test
    @EnabledOnOs(OS.LINUX)
    void whatTheSystemDroppedIsSaid() throws Exception {
        List<byte[]> flight = RealProgram.flight();
        try (RealProgram program =
                RealProgram.listen(folder, "heading-to-airway", "--idle", "4", "--page", "0", "--page-linger", "0")) {
            program.send(flight.subList(0, 50));
            signal(program, "STOP");
            for (int round = 0; round < 20; round++) {
                for (byte[] payload : flight) {
                    program.send(payload);
                }
            }
            signal(program, "CONT");
            program.awaitSaid("datagrams were lost in the system before this program could take them: more comes");
            assertThat(stream(program.page()))
                    .containsPattern("\"not_taken\":[1-9]")
                    .contains("\"behind_s\":");
            program.awaitEnd();
            assertThat(program.said()).contains("they are missing from the recording and from this grade");
        }
    }

    private static String stream(String root) throws Exception {
        try (InputStream in = URI.create(root + "/stream").toURL().openStream()) {
            StringBuilder text = new StringBuilder();
            byte[] some = new byte[65_536];
            while (text.indexOf("\"ready\"") < 0) {
                int count = in.read(some);
                assertThat(count).isPositive();
                text.append(new String(some, 0, count, StandardCharsets.UTF_8));
            }
            return text.toString();
        }
    }
}
