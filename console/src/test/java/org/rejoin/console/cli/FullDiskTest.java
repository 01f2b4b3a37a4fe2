package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;

import org.rejoin.console.recording.Captured;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/** A real file system that is full and then is not, and a recording deleted under the program that makes it. */
@Timeout(value = 120, unit = TimeUnit.SECONDS)
class FullDiskTest {

    @TempDir
    private Path folder;

    private static boolean done(String... command) throws Exception {
        return new ProcessBuilder(command).start().waitFor() == 0;
    }

    @Test
    @EnabledOnOs(OS.LINUX)
    void aDiskThatIsFullAndThenHasRoomIsGoneOnWith() throws Exception {
        Path disk = Files.createDirectories(folder.resolve("disk"));
        assumeTrue(
                "root".equals(System.getProperty("user.name"))
                        && done("mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", disk.toString()),
                "no small file system can be made here");
        try {
            Path recording = disk.resolve("flight");
            List<byte[]> flight = RealProgram.flight();
            try (RealProgram program = RealProgram.listen(
                            folder,
                            List.of(),
                            Map.of(),
                            "heading-to-airway",
                            "--out",
                            recording.toString(),
                            "--idle",
                            "4");
                    DatagramSocket socket = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
                Path ballast = disk.resolve("ballast");
                fill(ballast);
                int sent = 0;
                while (!program.said().contains("recording stopped: No space left on device")) {
                    program.send(socket, flight.get(sent++));
                    Thread.sleep(2);
                }
                for (int more = 0; more < 50; more++) {
                    program.send(socket, flight.get(sent++));
                    Thread.sleep(1);
                }
                Files.delete(ballast);
                program.awaitSaid("recording goes on");
                while (sent < flight.size()) {
                    program.send(socket, flight.get(sent++));
                    Thread.sleep(1);
                }
                assertThat(program.awaitEnd()).as(program.said()).isZero();
                assertThat(program.said())
                        .contains("nothing is missing", "SCORE")
                        .doesNotContain("Exception");
            }
            Captured contents = Captured.in(recording.resolve("flight.pcap"));
            assertThat(contents.tear()).isEmpty();
            assertThat(contents.datagrams()).hasSize(flight.size());
        } finally {
            assertThat(done("umount", "-l", disk.toString())).isTrue();
        }
    }

    @Test
    @EnabledOnOs(OS.LINUX)
    void aDebriefThatTheDiskHasNoRoomForSaysWhichFileAndWhatWouldBeRight() throws Exception {
        Path disk = Files.createDirectories(folder.resolve("disk"));
        assumeTrue(
                "root".equals(System.getProperty("user.name"))
                        && done("mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", disk.toString()),
                "no small file system can be made here");
        try {
            StringWriter err = new StringWriter();
            int exit = Rejoin.run(
                    new PrintWriter(new StringWriter()),
                    new PrintWriter(err, true),
                    "debrief",
                    Path.of("..", "recordings", "airway-good").toString(),
                    "--out",
                    disk.resolve("again").toString());
            assertThat(exit).isEqualTo(Rejoin.FAILED);
            assertThat(err.toString())
                    .contains(disk.resolve("again").toString(), "cannot be written: the disk is full", "make room");
            try (var left = Files.list(disk.resolve("again"))) {
                assertThat(left).isEmpty();
            }
        } finally {
            assertThat(done("umount", "-l", disk.toString())).isTrue();
        }
    }

    private static void fill(Path ballast) throws Exception {
        try (var out = Files.newOutputStream(ballast)) {
            while (true) {
                out.write(new byte[1024]);
            }
        } catch (IOException full) {
            assertThat(full).hasMessageContaining("No space left");
        }
    }

    @Test
    @EnabledOnOs({OS.LINUX, OS.MAC})
    void aRecordingThatIsDeletedInFlightIsMadeAgain() throws Exception {
        Path recording = folder.resolve("flight");
        List<byte[]> flight = RealProgram.flight();
        try (RealProgram program = RealProgram.listen(
                        folder,
                        List.of(),
                        Map.of(),
                        "heading-to-airway",
                        "--out",
                        recording.toString(),
                        "--idle",
                        "3");
                DatagramSocket socket = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            for (int i = 0; i < flight.size(); i++) {
                program.send(socket, flight.get(i));
                Thread.sleep(1);
                if (i == 150) {
                    Files.delete(recording.resolve("flight.pcap"));
                }
            }
            assertThat(program.awaitEnd()).as(program.said()).isZero();
            assertThat(program.said()).contains("it is made again, with all that was recorded");
        }
        assertThat(Captured.in(recording.resolve("flight.pcap")).datagrams()).hasSize(flight.size());
    }
}
