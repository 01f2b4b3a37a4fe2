package org.rejoin.console.recording;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;

/** A small file of a recording, old or new and never half: written beside, forced to the disk, then renamed. */
final class WholeFile {

    private final Path target;
    private final Path beside;

    WholeFile(Path directory, String name) {
        this.target = directory.resolve(name);
        this.beside = directory.resolve("." + name + ".part");
    }

    void write(byte[] octets) throws IOException {
        try {
            try (FileChannel channel = FileChannel.open(
                    beside,
                    StandardOpenOption.CREATE,
                    StandardOpenOption.TRUNCATE_EXISTING,
                    StandardOpenOption.WRITE,
                    LinkOption.NOFOLLOW_LINKS)) {
                ByteBuffer buffer = ByteBuffer.wrap(octets);
                while (buffer.hasRemaining()) {
                    channel.write(buffer);
                }
                channel.force(true);
            }
            Files.move(beside, target, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
        } catch (IOException e) {
            throw new IOException(target + " cannot be written: " + RecordingFolder.why(e), e);
        }
    }

    /** For what is too large to hold in memory. */
    void copyOf(Path file) throws IOException {
        if (Files.exists(target) && Files.isSameFile(file, target)) {
            return;
        }
        try {
            Files.copy(file, beside, StandardCopyOption.REPLACE_EXISTING);
            Files.move(beside, target, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
        } catch (IOException e) {
            throw new IOException(target + " cannot be copied from " + file + ": " + RecordingFolder.why(e), e);
        }
    }
}
