package org.rejoin.console.book;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;

import org.rejoin.console.recording.Durable;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/** The data folder, and what may be wrong with it. */
@SuppressWarnings("try") // a lock is held, not used
class HomeFolderTest {

    @TempDir
    private Path folder;

    /** XDG Base Directory Specification 0.8; a relative path there is to be ignored. */
    @Test
    void theUsualPlaceIsThePlatforms() {
        Path user = Path.of("/home/pilot");
        assertThat(HomeFolder.usualPlace("Linux", Map.of(), user)).isEqualTo(user.resolve(".local/share/rejoin"));
        assertThat(HomeFolder.usualPlace("Linux", Map.of("XDG_DATA_HOME", "/data"), user))
                .isEqualTo(Path.of("/data/rejoin"));
        assertThat(HomeFolder.usualPlace("Linux", Map.of("XDG_DATA_HOME", "data"), user))
                .isEqualTo(user.resolve(".local/share/rejoin"));
        assertThat(HomeFolder.usualPlace("Mac OS X", Map.of(), user))
                .isEqualTo(user.resolve("Library/Application Support/Rejoin"));
        assertThat(HomeFolder.usualPlace("Windows 11", Map.of("LOCALAPPDATA", "/local"), user))
                .isEqualTo(Path.of("/local/Rejoin"));
    }

    @Test
    void aFolderOfANewerVersionIsLeftAlone() throws IOException {
        HomeFolder.open(folder);
        Files.writeString(folder.resolve("folder.json"), "{\"format\": 2}");
        for (Opening opening : List.<Opening>of(HomeFolder::open, HomeFolder::existing)) {
            assertThatThrownBy(() -> opening.of(folder))
                    .hasMessageContaining("was written by a newer version (format 2; this one knows 1)")
                    .hasMessageNotContaining("\n");
        }
        Files.writeString(folder.resolve("folder.json"), "{\"format\": ");
        assertThatThrownBy(() -> HomeFolder.open(folder))
                .hasMessageContaining("it is not JSON")
                .hasMessageNotContaining("\n");
    }

    private interface Opening {
        HomeFolder of(Path place) throws IOException;
    }

    @Test
    void aFolderThatIsMissingOrAFileIsSaid() throws IOException {
        assertThatThrownBy(() -> HomeFolder.existing(folder.resolve("none")))
                .hasMessageContaining("there is no data folder");
        Path file = Files.writeString(folder.resolve("file"), "");
        assertThatThrownBy(() -> HomeFolder.open(file)).hasMessageContaining("is a file; the data folder is a folder");
        assertThatThrownBy(() -> HomeFolder.open(file.resolve("below")))
                .hasMessageContaining("cannot be made")
                .hasMessageNotContaining("\n");
    }

    @Test
    @EnabledOnOs({OS.LINUX, OS.MAC})
    void aFolderThatIsMadeIsTheOwnersAloneAndOneThatIsThereStaysAsItIs() throws IOException {
        Path made = folder.resolve("share").resolve("rejoin");
        HomeFolder.open(made);
        assertThat(Files.getPosixFilePermissions(made)).isEqualTo(PosixFilePermissions.fromString("rwx------"));
        Files.setPosixFilePermissions(made, PosixFilePermissions.fromString("rwxr-x---"));
        HomeFolder.open(made);
        assertThat(Files.getPosixFilePermissions(made)).isEqualTo(PosixFilePermissions.fromString("rwxr-x---"));
    }

    @Test
    @EnabledOnOs({OS.LINUX, OS.MAC})
    void theSecretIsTheOwnersAlone() throws IOException {
        HomeFolder home = HomeFolder.open(folder);
        byte[] secret = home.secret();
        assertThat(secret).hasSize(32);
        Path file = folder.resolve("secret");
        assertThat(Files.getPosixFilePermissions(file)).isEqualTo(PosixFilePermissions.fromString("rw-------"));
        assertThat(HomeFolder.open(folder).secret()).as("after a restart").isEqualTo(secret);
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-r--r--"));
        assertThatThrownBy(home::secret).hasMessageContaining("can be read by others");
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-------"));
        Files.writeString(file, "short");
        assertThatThrownBy(home::secret).hasMessageContaining("is damaged");
    }

    /** The device answers every write as a full disk does. */
    @Test
    @EnabledOnOs(OS.LINUX)
    void aFullDiskIsSaidAndNothingKeptIsLost() throws IOException {
        HomeFolder home = HomeFolder.open(folder);
        Path lines = Files.createSymbolicLink(folder.resolve("lines.jsonl"), Path.of("/dev/full"));
        assertThatThrownBy(() -> Durable.append(lines, "a line"))
                .hasMessageContaining("cannot be written")
                .hasMessageNotContaining("\n");
        Path kept = folder.resolve("kept.json");
        Durable.write(kept, new byte[] {1});
        assertThat(home.isWritable()).isTrue();
        assertThat(kept).hasBinaryContent(new byte[] {1});
        assertThat(Durable.why(new IOException("No space left on device"))).startsWith("the disk is full");
    }

    @Test
    void aLineThatWasNotFinishedIsCutOff() throws IOException {
        Path file = folder.resolve("lines.jsonl");
        Durable.append(file, "one");
        Files.writeString(file, "one\ntw");
        assertThat(Durable.lines(file)).containsExactly("one");
        Durable.append(file, "three");
        assertThat(Durable.lines(file)).containsExactly("one", "three");
        Files.writeString(file, "torn at once");
        Durable.append(file, "four");
        assertThat(Durable.lines(file)).containsExactly("four");
    }

    @Test
    void oneProgramAtATime() throws Exception {
        HomeFolder home = HomeFolder.open(folder);
        Path output = folder.resolve("output");
        Process other = OtherProgram.start(Holding.class, output, folder.toString());
        try {
            await().atMost(Duration.ofSeconds(60)).until(() -> Files.size(output) > 0 || !other.isAlive());
            assertThatThrownBy(() -> home.day("a room"))
                    .hasMessageContaining(
                            "is in use by another program (the practice room, process " + other.pid() + ")")
                    .hasMessageNotContaining("\n");
        } finally {
            other.destroyForcibly();
        }
        assertThat(other.waitFor(30, TimeUnit.SECONDS)).isTrue();
        home.day("a room").close();
    }

    /** Another program that has the room open. */
    static final class Holding {
        public static void main(String[] args) throws Exception {
            try (HomeLock ignored = HomeFolder.open(Path.of(args[0])).day("the practice room")) {
                System.out.print('h');
                System.out.flush();
                Thread.sleep(60_000);
            }
        }
    }
}
