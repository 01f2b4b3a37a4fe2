package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

import org.rejoin.console.recording.Capture;
import org.rejoin.console.recording.FolderLock;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Nobody's recording and nobody's own files are touched. */
@Timeout(value = 120, unit = TimeUnit.SECONDS)
class NobodysFilesTest {

    @TempDir
    private Path folder;

    private final StringWriter said = new StringWriter();

    private int run(String... args) {
        return Rejoin.run(new PrintWriter(said, true), new PrintWriter(said, true), args);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "lesson.yaml",
                "chart",
                "log.jsonl",
                "grade.json",
                "standard.yaml",
                "feed.yaml",
                "flight.pcap",
                "spoken.jsonl",
                "remarks.jsonl"
            })
    void aFlightIsNotRecordedOverTheUsersOwnFile(String name) throws Exception {
        Path own = Files.writeString(folder.resolve(name), "mine");
        assertThat(run("fly", "heading-to-airway", "--hz", "1", "--out", folder.toString()))
                .isEqualTo(2);
        assertThat(said.toString()).startsWith("rejoin: ").contains(name).hasLineCount(1);
        assertThat(own).hasContent("mine");
        try (Stream<Path> files = Files.list(folder)) {
            assertThat(files).containsExactly(own);
        }
    }

    @Test
    void aSecondProgramDoesNotWriteTheRecordingOfTheFirst() throws Exception {
        Path recording = folder.resolve("flight");
        try (RealProgram first = RealProgram.listen(
                        folder,
                        List.of(),
                        Map.of(),
                        "heading-to-airway",
                        "--out",
                        recording.toString(),
                        "--idle",
                        "3");
                DatagramSocket socket = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            List<byte[]> flight = RealProgram.flight();
            for (byte[] payload : flight.subList(0, 100)) {
                first.send(socket, payload);
                Thread.sleep(1);
            }
            String port = String.valueOf(RealProgram.freePort());
            assertThat(run("listen", "--resume", recording.toString(), "--port", port, "--idle", "1"))
                    .isNotZero();
            assertThat(said.toString())
                    .startsWith("rejoin: ")
                    .contains("is in use")
                    .hasLineCount(1);
            for (byte[] payload : flight.subList(100, 200)) {
                first.send(socket, payload);
                Thread.sleep(1);
            }
            assertThat(first.awaitEnd()).as(first.said()).isZero();
        }
        Capture.Contents contents = Capture.readAll(recording.resolve("flight.pcap"));
        assertThat(contents.tear()).isEmpty();
        assertThat(contents.datagrams()).hasSize(200);
        // Afterwards it is free again, and nothing of the lock is left.
        assertThat(recording.resolve("in-use.lock")).doesNotExist();
        FolderLock.take(recording).close();
    }

    @Test
    void aProgramThatWasKilledLocksNothing() throws Exception {
        Path recording = folder.resolve("flight");
        try (RealProgram killed =
                RealProgram.listen(folder, List.of(), Map.of(), "heading-to-airway", "--out", recording.toString())) {
            killed.process().destroyForcibly();
            assertThat(killed.process().waitFor(30, TimeUnit.SECONDS)).isTrue();
        }
        assertThat(recording.resolve("in-use.lock")).exists();
        String port = String.valueOf(RealProgram.freePort());
        run("listen", "--resume", recording.toString(), "--port", port, "--idle", "0.5");
        assertThat(said.toString()).contains("listening on").doesNotContain("is in use");
    }

    @Test
    @EnabledOnOs({OS.LINUX, OS.MAC})
    void nothingIsWrittenThroughASymbolicLink() throws Exception {
        Path own = Files.writeString(folder.resolve("own"), "mine");
        for (String name : List.of("lesson.yaml", "chart", "log.jsonl", "flight.pcap", "spoken.jsonl")) {
            Path recording = Files.createDirectories(folder.resolve("to-" + name));
            Files.createSymbolicLink(recording.resolve(name), own);
            assertThat(run("fly", "heading-to-airway", "--hz", "1", "--out", recording.toString()))
                    .isNotZero();
        }
        for (String name : List.of(".lesson.yaml.part", "in-use.lock")) {
            Path recording = Files.createDirectories(folder.resolve("through" + name));
            Files.createSymbolicLink(recording.resolve(name), own);
            run("fly", "heading-to-airway", "--hz", "1", "--out", recording.toString());
        }
        assertThat(own).hasContent("mine");
    }
}
