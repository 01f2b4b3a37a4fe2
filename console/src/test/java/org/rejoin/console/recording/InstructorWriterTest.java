package org.rejoin.console.recording;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A slow disk holds up neither the flight nor the truth: nothing is called kept that is not. */
@Timeout(value = 30, unit = TimeUnit.SECONDS)
class InstructorWriterTest {

    @TempDir
    private Path folder;

    private static InstructorFile.Spoken spoken(int number) {
        return new InstructorFile.Spoken(number, "seat", "direct FUL", OptionalDouble.empty());
    }

    /** A disk that does what it is told; what has become of it is on the list. */
    private static final class SlowDisk implements InstructorWriter.Disk {
        private final CountDownLatch quick = new CountDownLatch(1);
        private final CountDownLatch asked = new CountDownLatch(1);
        private final List<Double> written = new CopyOnWriteArrayList<>();

        @Override
        public void keep(InstructorFile.Note note) throws IOException {
            if (note instanceof InstructorFile.Remark remark) {
                written.add(-remark.elapsedS());
                return;
            }
            double elapsedS = ((InstructorFile.Spoken) note).elapsedS();
            asked.countDown();
            try {
                quick.await();
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
            if (elapsedS == 3) {
                throw new IllegalArgumentException("a mistake");
            }
            if (elapsedS == 4) {
                throw new IllegalStateException("a mistake");
            }
            written.add(elapsedS);
        }
    }

    @Test
    void nobodyWaitsForASlowDiskAndNothingIsKeptBeforeItIs() throws Exception {
        SlowDisk disk = new SlowDisk();
        InstructorWriter writer = new InstructorWriter(disk);
        List<String> told = new CopyOnWriteArrayList<>();
        for (int i = 1; i <= 6; i++) {
            int number = i;
            writer.keep(spoken(i), why -> told.add(number + " " + why.orElse("kept")), () -> {});
        }
        writer.keep(new InstructorFile.Remark(7, "seat", "slow"), why -> told.add("7 " + why.orElse("kept")), () -> {});
        assertThat(disk.asked.await(10, TimeUnit.SECONDS)).isTrue();
        // The disk has been asked and has not answered: this thread is here all the same.
        assertThat(told).isEmpty();
        assertThat(disk.written).isEmpty();
        disk.quick.countDown();
        writer.close();
        assertThat(told)
                .containsExactly(
                        "1 kept",
                        "2 kept",
                        "3 a mistake",
                        "4 java.lang.IllegalStateException: a mistake",
                        "5 kept",
                        "6 kept",
                        "7 kept");
        assertThat(disk.written).containsExactly(1.0, 2.0, 5.0, 6.0, -7.0);
        writer.keep(spoken(8), why -> told.add("8 " + why.orElse("kept")), () -> {});
        assertThat(told).last().isEqualTo("8 the recording is closed");
        writer.close();
    }

    /** A disk that is full until somebody makes room. */
    private static final class FullDisk implements InstructorWriter.Disk {
        private final List<String> written = new CopyOnWriteArrayList<>();
        private volatile boolean full = true;

        @Override
        public void keep(InstructorFile.Note note) throws IOException {
            if (full) {
                throw new IOException("No space left on device");
            }
            written.add(
                    note instanceof InstructorFile.Spoken spoken
                            ? "spoken " + (int) spoken.elapsedS()
                            : "remark " + (int) ((InstructorFile.Remark) note).elapsedS());
        }
    }

    @Test
    void whatAFullDiskRefusedIsKeptInItsOrderOnceThereIsRoom() throws Exception {
        FullDisk disk = new FullDisk();
        InstructorWriter writer = new InstructorWriter(disk);
        List<Optional<String>> told = new CopyOnWriteArrayList<>();
        CountDownLatch later = new CountDownLatch(3);
        writer.keep(spoken(1), told::add, later::countDown);
        writer.keep(new InstructorFile.Remark(2, "seat", "slow"), told::add, later::countDown);
        writer.keep(spoken(3), told::add, later::countDown);
        while (told.size() < 3) {
            Thread.sleep(5);
        }
        assertThat(told).allSatisfy(why -> assertThat(why.orElse("kept")).contains("tried again"));
        assertThat(writer.waiting()).isEqualTo(3);
        disk.full = false;
        assertThat(later.await(10, TimeUnit.SECONDS)).isTrue();
        writer.keep(spoken(4), told::add, () -> {});
        writer.close();
        assertThat(disk.written).containsExactly("spoken 1", "remark 2", "spoken 3", "spoken 4");
        assertThat(writer.waiting()).isZero();
    }

    @Test
    void whatADiskRefusedIsTriedOnceMoreWhenTheRecordingIsClosed() throws Exception {
        FullDisk disk = new FullDisk();
        InstructorWriter writer = new InstructorWriter(disk);
        List<Optional<String>> told = new CopyOnWriteArrayList<>();
        writer.keep(spoken(1), told::add, () -> {});
        while (told.isEmpty()) {
            Thread.sleep(5);
        }
        disk.full = false;
        writer.close();
        assertThat(disk.written).containsExactly("spoken 1");
    }

    @Test
    void moreThanADiskCanWaitForIsRefusedNotForgotten() {
        SlowDisk disk = new SlowDisk();
        InstructorWriter writer = new InstructorWriter(disk);
        List<Optional<String>> told = new CopyOnWriteArrayList<>();
        for (int i = 0; i < 1_100; i++) {
            writer.keep(spoken(10 + i), told::add, () -> {});
        }
        assertThat(told).isNotEmpty().allMatch(Optional::isPresent);
        disk.quick.countDown();
        writer.close();
        assertThat(told).hasSize(1_100);
        assertThat(told.stream().filter(Optional::isEmpty)).hasSize(disk.written.size());
    }

    @Test
    void whatIsKeptIsInTheFile() throws Exception {
        InstructorFile file = new InstructorFile(folder);
        List<Optional<String>> told = new CopyOnWriteArrayList<>();
        try (InstructorWriter writer = new InstructorWriter(file)) {
            for (int i = 0; i < 20; i++) {
                writer.keep(spoken(i), told::add, () -> {});
            }
        }
        assertThat(told).hasSize(20).allMatch(Optional::isEmpty);
        assertThat(file.read().spoken()).hasSize(20).startsWith(spoken(0)).endsWith(spoken(19));
    }

    @Test
    void aPlaceThatCannotBeWrittenToIsSaid() throws Exception {
        Files.createDirectory(folder.resolve("spoken.jsonl"));
        List<Optional<String>> told = new CopyOnWriteArrayList<>();
        try (InstructorWriter writer = new InstructorWriter(new InstructorFile(folder))) {
            writer.keep(spoken(1), told::add, () -> {});
        }
        assertThat(told).hasSize(1).allMatch(Optional::isPresent);
    }
}
