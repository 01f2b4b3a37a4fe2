package org.rejoin.console.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;

import org.rejoin.protocol.Datagram;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

@Timeout(30)
class RecorderTest {

    private static final InetSocketAddress HERE = Packets.address("7f000001", 3000);
    private static final InetSocketAddress SENDER = Packets.address("7f000001", 40_000);

    @TempDir
    private Path folder;

    private final List<String> warnings = new CopyOnWriteArrayList<>();

    @Test
    void recordsAllAndSaysNothing() throws IOException {
        Path directory = folder.resolve("a/b");
        RecordingFolder recording = RecordingFolder.create(directory);
        Recorder recorder = new Recorder(CaptureWriter.create(recording.capture(), HERE), warnings::add);
        for (int i = 0; i < 5000; i++) {
            recorder.record(numbered(i));
        }
        recorder.close();
        recorder.close();
        List<Datagram> read =
                Captured.in(RecordingFolder.open(directory).capture()).datagrams();
        assertThat(read).hasSize(5000);
        assertThat(read.get(4999)).isEqualTo(numbered(4999));
        assertThat(recorder.recorded()).isEqualTo(5000);
        assertThat(recorder.missing()).isZero();
        assertThat(recorder.whyMissing()).isEmpty();
        assertThat(warnings).isEmpty();
    }

    @Test
    void aDatagramIsInTheFileWithinAQuarterOfASecond() throws IOException {
        Path file = folder.resolve("flight.pcap");
        try (Recorder recorder = new Recorder(CaptureWriter.create(file, HERE), warnings::add)) {
            recorder.record(numbered(1));
            // The promise is 250 ms; the rest is for a busy machine.
            await().atMost(Duration.ofSeconds(2)).until(() -> Files.size(file) == 24 + 16 + 28 + 4);
            assertThat(Captured.in(file).datagrams()).containsExactly(numbered(1));
        }
    }

    @Test
    void aFullQueueIsCountedAndSaid() throws Exception {
        CountDownLatch busy = new CountDownLatch(1);
        CountDownLatch slow = new CountDownLatch(1);
        Path file = folder.resolve("flight.pcap");
        // The disk cannot be slowed down, so the thread is held in the first warning instead.
        Recorder recorder = new Recorder(
                CaptureWriter.create(file, HERE),
                line -> {
                    warnings.add(line);
                    busy.countDown();
                    try {
                        slow.await();
                    } catch (InterruptedException e) {
                        Thread.currentThread().interrupt();
                    }
                },
                2);
        int sent = 0;
        while (busy.getCount() > 0) {
            recorder.record(numbered(sent++));
        }
        for (int i = 0; i < 100; i++) {
            recorder.record(numbered(sent++));
        }
        slow.countDown();
        recorder.close();
        assertThat(recorder.missing()).isPositive();
        assertThat(recorder.recorded() + recorder.missing()).isEqualTo(sent);
        assertThat(warnings).hasSize(2);
        assertThat(warnings.get(0)).contains("too slow");
        assertThat(recorder.whyMissing()).isEqualTo("the disk was too slow");
        assertThat(warnings.get(1)).contains(recorder.missing() + " datagrams are missing");
        assertThat(Captured.in(file).datagrams()).hasSize((int) recorder.recorded());
    }

    @Test
    void aRecordingDeletedUnderUsIsMadeAgainWithAllThatWasRecorded() throws IOException {
        Path file = folder.resolve("flight.pcap");
        Recorder recorder = new Recorder(CaptureWriter.create(file, HERE), warnings::add);
        for (int i = 0; i < 100; i++) {
            recorder.record(numbered(i));
        }
        await().atMost(Duration.ofSeconds(5)).until(() -> recorder.recorded() == 100);
        Files.delete(file);
        recorder.record(numbered(100));
        await().atMost(Duration.ofSeconds(5)).until(() -> !warnings.isEmpty());
        for (int i = 101; i < 200; i++) {
            recorder.record(numbered(i));
        }
        recorder.close();
        assertThat(warnings).singleElement().asString().contains("deleted", "made again");
        Captured contents = Captured.in(file);
        assertThat(contents.tear()).isEmpty();
        assertThat(contents.datagrams()).hasSize(200).last().isEqualTo(numbered(199));
        assertThat(recorder.missing()).isZero();
    }

    @Test
    void whoPutSomethingInItsPlaceKeepsThat() throws IOException {
        Path file = folder.resolve("flight.pcap");
        Recorder recorder = new Recorder(CaptureWriter.create(file, HERE), warnings::add);
        Files.delete(file);
        Files.writeString(file, "mine");
        recorder.record(numbered(0));
        await().atMost(Duration.ofSeconds(5)).until(() -> !warnings.isEmpty());
        assertThat(warnings).singleElement().asString().contains("cannot be made again", "in the way");
        // Taken away again, its place is the recording's.
        Files.delete(file);
        await().atMost(Duration.ofSeconds(5)).until(() -> warnings.size() == 2);
        recorder.close();
        assertThat(Captured.in(file).datagrams()).containsExactly(numbered(0));
    }

    @Test
    void aFullDiskIsSaidOnceAndWhatWasWrittenStaysReadable() throws IOException {
        Path file = folder.resolve("flight.pcap");
        int record = 16 + 28 + 4;
        long room = 24 + 10L * record + 7; // the eleventh is torn
        FileChannel disk =
                new LimitedDisk(FileChannel.open(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE), room);
        Recorder recorder = new Recorder(CaptureWriter.start(file, HERE, disk), warnings::add);
        for (int i = 0; i < 10; i++) {
            recorder.record(numbered(i));
        }
        await().atMost(Duration.ofSeconds(5)).until(() -> Files.size(file) == 24 + 10 * record);
        await().atMost(Duration.ofSeconds(5)).until(() -> {
            recorder.record(numbered(10));
            return !warnings.isEmpty();
        });
        recorder.record(numbered(11));
        recorder.close();
        assertThat(warnings).hasSize(1);
        assertThat(warnings.get(0)).startsWith("recording stopped: No space left on device (");
        // The disk was full, not slow.
        assertThat(recorder.whyMissing()).isEqualTo("recording had stopped (No space left on device)");
        Captured contents = Captured.in(file);
        assertThat(contents.datagrams()).hasSize(10);
        assertThat(contents.tear()).isEmpty();
    }

    /** Room again after a while: what memory held follows, what it could not hold is marked where it is missing. */
    @Test
    void aDiskWithRoomAgainIsGoneOnWithAndTheGapIsMarked() throws Exception {
        Path file = folder.resolve("flight.pcap");
        int record = 16 + 28 + 4;
        LimitedDisk disk = new LimitedDisk(
                FileChannel.open(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE), 24 + 10L * record + 7);
        Recorder recorder = new Recorder(CaptureWriter.start(file, HERE, disk), warnings::add, 50);
        int sent = 0;
        while (warnings.isEmpty()) {
            recorder.record(numbered(sent++));
            Thread.sleep(1);
        }
        while (recorder.missing() < 30) {
            recorder.record(numbered(sent++));
        }
        long missing = recorder.missing();
        disk.room(1 << 24);
        await().atMost(Duration.ofSeconds(5)).until(() -> warnings.size() == 2);
        int after = sent;
        await().atMost(Duration.ofSeconds(5)).until(() -> {
            recorder.record(numbered(after));
            return recorder.recorded() > 61;
        });
        recorder.close();
        assertThat(warnings.get(0)).startsWith("recording stopped: No space left on device (");
        assertThat(warnings.get(1))
                .startsWith("recording goes on")
                .contains(missing + " datagrams are missing, and it is marked where");
        try (Capture capture = Capture.open(file)) {
            long count = 0;
            for (Optional<Datagram> next = capture.next(); next.isPresent(); next = capture.next()) {
                count++;
            }
            assertThat(capture.tear()).isEmpty();
            assertThat(capture.skipped()).isEmpty();
            assertThat(count).isEqualTo(recorder.recorded());
            assertThat(capture.missing()).get().asString().startsWith(missing + " datagrams are missing in 1 place:");
        }
    }

    @Test
    void foldersSayWhatIsWrong() throws IOException {
        Path file = Files.createFile(folder.resolve("file"));
        assertThatThrownBy(() -> RecordingFolder.create(file)).hasMessageContaining("is a file");
        assertThatThrownBy(() -> RecordingFolder.open(folder)).hasMessageContaining("there is no flight.pcap in it");
        assertThatThrownBy(() -> RecordingFolder.open(folder.resolve("none"))).hasMessageContaining("no recording");
        RecordingFolder bare = RecordingFolder.open(file);
        assertThat(bare.capture()).isEqualTo(file);
        assertThat(bare.kept(RecordingFolder.Part.LESSON)).isEmpty();
    }

    @Test
    void foldersKeepWhatStandsBesideTheCapture() throws IOException {
        RecordingFolder recording = RecordingFolder.create(folder.resolve("r"));
        CaptureWriter.create(recording.capture(), HERE).close();
        recording.write(RecordingFolder.Part.LESSON, "title: invented\n");
        recording.write(RecordingFolder.Part.CHART, new byte[] {1});
        recording.write(RecordingFolder.Part.GRADE, "{}");
        recording.write(RecordingFolder.Part.GRADE, "{\"score\":1}");
        RecordingFolder read = RecordingFolder.open(folder.resolve("r"));
        assertThat(read.kept(RecordingFolder.Part.LESSON).orElseThrow()).hasContent("title: invented\n");
        assertThat(folder.resolve("r/chart")).hasBinaryContent(new byte[] {1});
        assertThat(folder.resolve("r/grade.json")).hasContent("{\"score\":1}");
        assertThat(read.kept(RecordingFolder.Part.FEED)).isEmpty();
        try (var files = Files.list(folder.resolve("r"))) {
            assertThat(files).hasSize(4);
        }
        assertThatThrownBy(() -> RecordingFolder.create(folder.resolve("r"))).hasMessageContaining("already holds");
    }

    private static Datagram numbered(int number) {
        return Datagram.of(
                1_780_348_474_000_000L + number, SENDER, new byte[] {1, 2, (byte) (number >>> 8), (byte) number});
    }
}
