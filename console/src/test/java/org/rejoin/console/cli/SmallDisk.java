package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** A real file system of a size, as mount(8) writes it; a test is left out where none can be made. */
record SmallDisk(Path place) implements AutoCloseable {

    static SmallDisk in(Path folder, String size) throws Exception {
        Path place = Files.createDirectories(folder.resolve("disk"));
        assumeTrue(
                "root".equals(System.getProperty("user.name"))
                        && done("mount", "-t", "tmpfs", "-o", "size=" + size, "tmpfs", place.toString()),
                "no small file system can be made here");
        return new SmallDisk(place);
    }

    private static boolean done(String... command) throws IOException {
        return new ProcessBuilder(command).start().onExit().join().exitValue() == 0;
    }

    void fill() throws Exception {
        try (var out = Files.newOutputStream(place.resolve("ballast"))) {
            while (true) {
                out.write(new byte[1024]);
            }
        } catch (IOException full) {
            assertThat(full).hasMessageContaining("No space left");
        }
    }

    void makeRoom() throws IOException {
        Files.delete(place.resolve("ballast"));
    }

    @Override
    public void close() throws IOException {
        assertThat(done("umount", "-l", place.toString())).isTrue();
    }
}
