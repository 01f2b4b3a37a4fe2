package org.rejoin.console.book;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Duration;
import java.util.concurrent.locks.LockSupport;

import org.rejoin.console.recording.Durable;

/** One program at a time: a lock that the system takes back when its holder ends, however it ends. */
public final class HomeLock implements AutoCloseable {

    private static final int OTHER = 64;
    /** The locked octet lies behind the text, so that others may read who holds it. */
    private static final long AT = 1 << 20;

    private final FileChannel channel;

    private HomeLock(FileChannel channel) {
        this.channel = channel;
    }

    /**
     * Takes a lock.
     *
     * @param file of the lock, made if it is missing, never removed
     * @param what the holder does, for whoever finds it held
     * @throws IOException if it is held by another program, or the file cannot be written; one line
     */
    public static HomeLock hold(Path file, String what, Duration patience) throws IOException {
        FileChannel channel;
        try {
            channel = FileChannel.open(
                    file, StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE);
        } catch (IOException e) {
            throw new IOException(file + " cannot be written: " + Durable.why(e), e);
        }
        try {
            long end = System.nanoTime() + patience.toNanos();
            while (!taken(channel)) {
                if (System.nanoTime() - end >= 0 || Thread.currentThread().isInterrupted()) {
                    throw new IOException(file.toAbsolutePath().getParent() + " is in use by another program ("
                            + holder(channel) + "); do it there, or end that program first");
                }
                LockSupport.parkNanos(20_000_000);
            }
            byte[] text = (what + ", process " + ProcessHandle.current().pid() + "\n").getBytes(StandardCharsets.UTF_8);
            channel.truncate(0);
            channel.write(ByteBuffer.wrap(text), 0);
            return new HomeLock(channel);
        } catch (IOException | RuntimeException e) {
            channel.close();
            throw e;
        }
    }

    /** The lock is given back with its channel. */
    private static boolean taken(FileChannel channel) throws IOException {
        try {
            return channel.tryLock(AT, 1, false) != null;
        } catch (OverlappingFileLockException e) {
            return false; // held in this very program
        }
    }

    private static String holder(FileChannel channel) throws IOException {
        ByteBuffer text = ByteBuffer.allocate(OTHER);
        channel.read(text, 0);
        String said = new String(text.array(), 0, text.position(), StandardCharsets.UTF_8);
        return said.lines().findFirst().orElse("which does not say what it does");
    }

    @Override
    public void close() throws IOException {
        channel.close();
    }
}
