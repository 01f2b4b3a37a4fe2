package org.rejoin.console.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A file is put in place of another, though a system refuses for a moment. */
@Timeout(value = 10, unit = TimeUnit.SECONDS)
class DurableTest {

    @TempDir
    private Path folder;

    private int tries;

    private Durable.Work refused(int times, IOException by) {
        return () -> {
            tries++;
            if (tries <= times) {
                throw by;
            }
        };
    }

    /** As Windows refuses while something that looks for viruses has the file open. */
    @Test
    void aFileThatAnotherProgramHasOpenForAMomentIsReplacedAfterIt() throws Exception {
        Durable.again(refused(3, new AccessDeniedException("room.json")));
        assertThat(tries).isEqualTo(4);
        tries = 0;
        Durable.again(refused(2, new FileSystemException("room.json", "x", "used by another process")));
        assertThat(tries).isEqualTo(3);
    }

    @Test
    void aFileThatStaysOpenIsSaidWithinASecond() {
        long startNs = System.nanoTime();
        AccessDeniedException always = new AccessDeniedException("room.json");
        assertThatThrownBy(() -> Durable.again(refused(1_000, always))).isSameAs(always);
        // 10, 20, 40, 80, 160 and 320 ms between seven tries: 630 ms
        assertThat(tries).isEqualTo(7);
        assertThat((System.nanoTime() - startNs) / 1e9).isBetween(0.6, 5.0);
    }

    @Test
    void whatTimeDoesNotMendIsSaidAtOnce() {
        assertThatThrownBy(() -> Durable.again(refused(1, new NoSuchFileException("room.json"))))
                .isInstanceOf(NoSuchFileException.class);
        assertThat(tries).isEqualTo(1);
    }

    @Test
    void theEarlierFileGivesWay() throws Exception {
        Path file = Files.writeString(folder.resolve("kept"), "old");
        Path beside = Files.writeString(folder.resolve("beside"), "new");
        Durable.replace(beside, file);
        assertThat(file).content().isEqualTo("new");
        assertThat(beside).doesNotExist();
    }
}
