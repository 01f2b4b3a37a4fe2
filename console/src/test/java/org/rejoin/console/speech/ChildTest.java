package org.rejoin.console.speech;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A program that hangs, as a recogniser or a voice may: a script of the shell that waits for a program of its own. */
@Timeout(value = 30, unit = TimeUnit.SECONDS)
class ChildTest {

    private static final String SHELL = "/bin/sh";

    @TempDir
    private Path folder;

    @BeforeEach
    void shell() {
        assumeTrue(Files.isExecutable(Path.of(SHELL)), "no shell on this machine");
    }

    /** It writes its own number and that of the program it waits for. */
    private List<String> hangs() throws IOException {
        Path script = folder.resolve("hangs.sh");
        Files.writeString(script, "sleep 300 &\necho $$ $! > \"$1.part\"\nmv \"$1.part\" \"$1\"\nwait\n");
        return List.of(SHELL, script.toString(), numbers().toString());
    }

    private Path numbers() {
        return folder.resolve("numbers");
    }

    private List<ProcessHandle> running() throws IOException {
        return List.of(Files.readString(numbers()).strip().split(" ", -1)).stream()
                .flatMap(number -> ProcessHandle.of(Long.parseLong(number)).stream())
                .toList();
    }

    private static void assertEnd(List<ProcessHandle> programs) throws Exception {
        for (ProcessHandle each : programs) {
            each.onExit().get(10, TimeUnit.SECONDS);
        }
    }

    @Test
    void aProgramThatHangsIsEndedWithTheProgramsThatItStarted() throws Exception {
        List<String> command = hangs();
        assertThatThrownBy(() -> Child.run(command, new byte[0], 0.1, 100))
                .isInstanceOf(IOException.class)
                .hasMessageContaining("did not answer")
                .hasMessageNotContaining("\n");
        assertEnd(running());
    }

    /** As the page's thread is when the program is closed during a hearing. */
    @Test
    void itIsEndedWhenTheThreadThatWaitsForItIsInterrupted() throws Exception {
        List<String> command = hangs();
        FutureTask<byte[]> run = new FutureTask<>(() -> {
            try (PrivateFolder kept = new PrivateFolder()) {
                kept.file("sound.wav", new byte[10]);
                Files.writeString(
                        folder.resolve("place"), kept.file("sound.wav").toString());
                return Child.run(command, new byte[0], 300, 100);
            }
        });
        Thread waits = new Thread(run, "waits");
        waits.start();
        while (!Files.exists(numbers())) {
            Thread.sleep(10);
        }
        List<ProcessHandle> programs = running();
        assertThat(programs).hasSize(2);
        waits.interrupt();
        assertThatThrownBy(() -> run.get(20, TimeUnit.SECONDS)).hasMessageContaining("because this program ends");
        assertEnd(programs);
        assertThat(Path.of(Files.readString(folder.resolve("place")))).doesNotExist();
    }

    @Test
    void noneIsBegunOnAThreadThatIsInterrupted() throws Exception {
        List<String> command = hangs();
        Thread.currentThread().interrupt();
        try {
            assertThatThrownBy(() -> Child.run(command, new byte[0], 300, 100))
                    .hasMessageContaining("because this program ends");
        } finally {
            assertThat(Thread.interrupted()).isTrue();
        }
        assertThat(numbers()).doesNotExist();
    }
}
