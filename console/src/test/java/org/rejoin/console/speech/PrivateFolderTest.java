package org.rejoin.console.speech;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;

import org.junit.jupiter.api.Test;

/** Where the sound of a pilot lies while it is heard. */
class PrivateFolderTest {

    private static final Path TEMP = Path.of(System.getProperty("java.io.tmpdir"));

    /** A process that is over, as of a run that was killed. */
    private static long ended() throws Exception {
        Process process = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(), "--version")
                .redirectErrorStream(true)
                .start();
        process.getInputStream().readAllBytes();
        process.waitFor();
        return process.pid();
    }

    @Test
    void whatAKilledRunLeftBehindIsDeletedAtTheNextStartAndNothingElse() throws Exception {
        Path left = Files.createDirectory(TEMP.resolve("rejoin-sound-" + ended() + "-1"));
        Files.writeString(left.resolve("sound.wav"), "a pilot");
        Path others = Files.createTempDirectory("rejoin-sounds-of-mine-");
        try (PrivateFolder inUse = new PrivateFolder()) {
            Path file = inUse.file("sound.wav", new byte[10]);
            new Speech(
                    Optional.of(new Speaker(new Voice(Voice.Kind.FLITE, TEMP, "slt"))), Optional.empty(), 130, false);
            assertThat(left).doesNotExist();
            assertThat(file).exists();
            assertThat(others).exists();
        } finally {
            Files.deleteIfExists(others);
        }
    }
}
