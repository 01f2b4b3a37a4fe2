package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
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

    @Test
    @EnabledOnOs(OS.LINUX)
    void aDiskThatIsFullAndThenHasRoomIsGoneOnWith() throws Exception {
        try (SmallDisk disk = SmallDisk.in(folder, "1m")) {
            Path recording = disk.place().resolve("flight");
            List<byte[]> flight = RealProgram.flight();
            try (RealProgram program =
                    RealProgram.listen(folder, "heading-to-airway", "--out", recording.toString(), "--idle", "4")) {
                disk.fill();
                int sent = 0;
                while (!program.said().contains("recording stopped: No space left on device")) {
                    program.send(flight.get(sent++));
                    Thread.sleep(2);
                }
                program.send(flight.subList(sent, sent + 50));
                sent += 50;
                disk.makeRoom();
                program.awaitSaid("recording goes on");
                program.send(flight.subList(sent, flight.size()));
                assertThat(program.awaitEnd()).as(program.said()).isZero();
                assertThat(program.said())
                        .contains("nothing is missing", "SCORE")
                        .doesNotContain("Exception");
            }
            Captured contents = Captured.in(recording.resolve("flight.pcap"));
            assertThat(contents.tear()).isEmpty();
            assertThat(contents.datagrams()).hasSize(flight.size());
        }
    }

    /** A script that flies and packs must not take half a recording for a whole one. */
    @Test
    @EnabledOnOs(OS.LINUX)
    void aFlightThatIsNotAllRecordedDoesNotEndAsIfItWere() throws Exception {
        try (SmallDisk disk = SmallDisk.in(folder, "200k")) {
            Path recording = disk.place().resolve("flight");
            Ran ran = Ran.run("fly", "heading-to-airway", "--out", recording.toString());
            assertThat(ran.err()).contains("datagrams are missing from the recording");
            assertThat(ran.out()).as("the grade is shown all the same").contains("SCORE");
            assertThat(ran.exit()).isEqualTo(Rejoin.FAILED);
        }
    }

    @Test
    @EnabledOnOs(OS.LINUX)
    void aDebriefThatTheDiskHasNoRoomForSaysWhichFileAndWhatWouldBeRight() throws Exception {
        try (SmallDisk disk = SmallDisk.in(folder, "64k")) {
            Path again = disk.place().resolve("again");
            Ran ran = Ran.run("debrief", KeptFlight.PLACE.toString(), "--out", again.toString());
            assertThat(ran.exit()).isEqualTo(Rejoin.FAILED);
            assertThat(ran.err()).contains(again.toString(), "cannot be written: the disk is full", "make room");
            try (var left = Files.list(again)) {
                assertThat(left).isEmpty();
            }
        }
    }

    @Test
    @EnabledOnOs({OS.LINUX, OS.MAC})
    void aRecordingThatIsDeletedInFlightIsMadeAgain() throws Exception {
        Path recording = folder.resolve("flight");
        List<byte[]> flight = RealProgram.flight();
        try (RealProgram program =
                RealProgram.listen(folder, "heading-to-airway", "--out", recording.toString(), "--idle", "3")) {
            program.send(flight.subList(0, 150));
            Files.delete(recording.resolve("flight.pcap"));
            program.send(flight.subList(150, flight.size()));
            assertThat(program.awaitEnd()).as(program.said()).isZero();
            assertThat(program.said()).contains("it is made again, with all that was recorded");
        }
        assertThat(Captured.in(recording.resolve("flight.pcap")).datagrams()).hasSize(flight.size());
    }
}
