package org.rejoin.console.recording;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.Objects;

import org.jspecify.annotations.Nullable;

/**
 * A folder that one program alone writes to: a recording that is being made, the data of a practice room. The system keeps
 * the lock and gives it back when the program ends, however it ends; a lock file that is left behind locks nothing.
 *
 * <p>A file system without locks (some network shares) cannot keep a second program out; the folder is used all the same.
 */
public final class FolderLock implements AutoCloseable {

    private static final String NAME = "in-use.lock";
    private static final int TRIES = 5;

    private final Path file;
    private final FileChannel channel;
    private final @Nullable FileLock lock;

    private FolderLock(Path file, FileChannel channel, @Nullable FileLock lock) {
        this.file = file;
        this.channel = channel;
        this.lock = lock;
    }

    /**
     * Takes a folder.
     *
     * @param directory that exists and can be written to
     * @return the lock; close it when nothing is written any more
     * @throws PlaceTakenException if another program, or another part of this one, has it; one line
     * @throws IOException if the lock file cannot be made; one line
     */
    public static FolderLock take(Path directory) throws IOException {
        Path file = directory.resolve(NAME);
        for (int i = 0; i < TRIES; i++) {
            FileChannel channel = open(file);
            try {
                FileLock lock = locked(channel, directory);
                if (isStill(file, channel)) {
                    return new FolderLock(file, channel, lock);
                }
                // Whoever had it took the file away between the two steps: the lock is of a file that is gone.
                channel.close();
            } catch (IOException e) {
                channel.close();
                throw e;
            }
        }
        throw inUse(directory);
    }

    private static FileChannel open(Path file) throws IOException {
        try {
            return FileChannel.open(
                    file, StandardOpenOption.CREATE, StandardOpenOption.WRITE, LinkOption.NOFOLLOW_LINKS);
        } catch (IOException e) {
            throw new IOException(file + " cannot be made: " + Durable.why(e), e);
        }
    }

    private static @Nullable FileLock locked(FileChannel channel, Path directory) throws IOException {
        FileLock lock;
        try {
            lock = channel.tryLock();
        } catch (OverlappingFileLockException e) {
            throw inUse(directory);
        } catch (IOException e) {
            return null; // no locks here
        }
        if (lock == null) {
            throw inUse(directory);
        }
        return lock;
    }

    private static IOException inUse(Path directory) {
        return new PlaceTakenException(directory
                + " is in use: another Rejoin writes to it; end that one first, or choose" + " another directory");
    }

    /** Whether the file of that name is the one that was opened: written through the one, seen through the other. */
    private static boolean isStill(Path file, FileChannel channel) throws IOException {
        try {
            BasicFileAttributes before =
                    Files.readAttributes(file, BasicFileAttributes.class, LinkOption.NOFOLLOW_LINKS);
            if (before.fileKey() == null) {
                return true; // such systems do not let an open file be taken away
            }
            long length = before.size();
            channel.truncate(0);
            channel.write(ByteBuffer.wrap(new byte[(int) (length % 2) + 1]), 0);
            BasicFileAttributes after =
                    Files.readAttributes(file, BasicFileAttributes.class, LinkOption.NOFOLLOW_LINKS);
            return after.size() == length % 2 + 1 && Objects.equals(before.fileKey(), after.fileKey());
        } catch (NoSuchFileException e) {
            return false;
        }
    }

    /** Gives the folder back. May be called again. */
    @Override
    public void close() throws IOException {
        if (!channel.isOpen()) {
            return;
        }
        if (lock != null) {
            try {
                Files.deleteIfExists(file); // while it is locked: nobody else's is taken away
            } catch (IOException e) {
                // Some systems keep a file that is open; it locks nothing once it is closed.
            }
        }
        channel.close();
    }
}
