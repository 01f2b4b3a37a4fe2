package org.rejoin.console.recording;

import java.io.Closeable;
import java.io.IOException;
import java.net.InetSocketAddress;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.OpenOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.Arrays;
import java.util.Objects;
import java.util.Optional;

import org.rejoin.protocol.Datagram;

import org.jspecify.annotations.Nullable;

/**
 * Appends datagrams to a classic capture that any packet tool opens: microseconds, little-endian, link type 101 (raw
 * IP), with the IP and UDP headers a datagram from its sender would have had. Confined to one thread.
 *
 * <p>What {@link #flush} handed to the system survives the end of this program at any instant; what {@link #force}
 * handed to the disk survives the end of the system.
 */
public final class CaptureWriter implements Closeable {

    private static final int BUFFER = 1 << 18;

    private final Path file;
    private final Object disk = new Object();
    private FileChannel channel;
    private @Nullable Object key;
    private final PacketHeaders headers;
    private final ByteBuffer buffer = ByteBuffer.allocateDirect(BUFFER).order(ByteOrder.LITTLE_ENDIAN);
    /** End of the last record known to be whole in the file. */
    private long whole;

    private boolean torn;

    private CaptureWriter(Path file, FileChannel channel, InetSocketAddress destination, long whole) {
        this.file = file;
        this.channel = channel;
        this.headers = new PacketHeaders(destination);
        this.whole = whole;
        this.key = key(file);
    }

    /**
     * Begins a new capture.
     *
     * @param file must not exist yet: a recording is never overwritten
     * @param destination address and port that the datagrams came to; only shown in packet tools
     * @throws IOException if the file exists or cannot be written; one line
     */
    public static CaptureWriter create(Path file, InetSocketAddress destination) throws IOException {
        if (Files.exists(file)) {
            throw new IOException(file + " exists already; a recording is never overwritten");
        }
        return start(
                file,
                destination,
                channel(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.READ, StandardOpenOption.WRITE));
    }

    /**
     * Goes on with a capture of ours. A torn tail is cut off first, so that what follows can be read.
     *
     * @param file written by this class, or empty
     * @throws IOException if the file is missing, was written by another program, or cannot be written; one line
     */
    public static CaptureWriter append(Path file, InetSocketAddress destination) throws IOException {
        long end = 0;
        if (!beginsOurHeader(file)) {
            try (Capture capture = Capture.open(file)) {
                if (!startsAsOurs(file)) {
                    throw new IOException(
                            file + " was captured by another program; only a recording made here goes on");
                }
                Optional<Datagram> next = capture.next();
                while (next.isPresent()) {
                    next = capture.next();
                }
                end = capture.offset();
            }
        }
        FileChannel channel =
                channel(file, StandardOpenOption.READ, StandardOpenOption.WRITE, LinkOption.NOFOLLOW_LINKS);
        if (end == 0) {
            channel.truncate(0);
            return start(file, destination, channel);
        }
        try {
            channel.truncate(end);
            channel.position(end);
        } catch (IOException e) {
            channel.close();
            throw e;
        }
        return new CaptureWriter(file, channel, destination, end);
    }

    /**
     * Adds a datagram; it may stay in memory until {@link #flush}.
     *
     * @param datagram at most 65,507 octets from an IPv4 sender, 65,527 from an IPv6 one
     * @throws IllegalArgumentException if it is longer
     * @throws IOException if the disk fails; the file then ends with the last whole datagram that could be written
     */
    public void write(Datagram datagram) throws IOException {
        int length = headers.length(datagram);
        if (buffer.remaining() < CaptureHeader.RECORD_LENGTH + length) {
            flush();
        }
        record(datagram.receivedMicros(), length);
        headers.put(buffer, datagram);
    }

    /** Marks, as {@link #write} does, that so many datagrams came and were not recorded before one received then. */
    void gap(long missing, long nowMicros) throws IOException {
        byte[] packet = new UdpPacket.Missing(missing).packet();
        if (buffer.remaining() < CaptureHeader.RECORD_LENGTH + packet.length) {
            flush();
        }
        record(nowMicros, packet.length);
        buffer.put(packet);
    }

    private void record(long receivedMicros, int length) {
        long micros = Math.max(0, receivedMicros);
        buffer.putInt((int) (micros / 1_000_000))
                .putInt((int) (micros % 1_000_000))
                .putInt(length)
                .putInt(length);
    }

    /**
     * Hands everything to the system. What it does not take stays in memory for the next try.
     *
     * @throws IOException if the disk fails; as in {@link #write}
     */
    public void flush() throws IOException {
        int end = buffer.position();
        try {
            if (torn) {
                channel.truncate(whole);
                torn = false;
            }
            buffer.flip();
            while (buffer.hasRemaining()) {
                channel.write(buffer);
            }
            whole = channel.position();
            buffer.clear();
        } catch (IOException e) {
            cutBack(e);
            buffer.limit(buffer.capacity()).position(end); // kept for the next try
            throw e;
        }
    }

    /** Flushes, and waits until it is on the disk. */
    void force() throws IOException {
        flush();
        sync();
    }

    /**
     * Waits until what was flushed is on the disk. This and {@link #isGone} are the only things here that another thread
     * may do, so that a slow disk does not hold up what the system takes at once.
     *
     * @throws IOException if the disk fails
     */
    void sync() throws IOException {
        synchronized (disk) {
            channel.force(false);
        }
    }

    /** Whether the file was deleted, moved away or replaced: some systems let it be, and go on writing into nothing. */
    boolean isGone() {
        return !Objects.equals(key, key(file)) || !Files.exists(file, LinkOption.NOFOLLOW_LINKS);
    }

    /**
     * Makes a file again that is gone, with all that was handed to the system, which still has it.
     *
     * @throws IOException if something else is in its place, or the disk fails; the file is as gone as before
     */
    void restore() throws IOException {
        synchronized (disk) {
            FileChannel again = channel(
                    file,
                    StandardOpenOption.CREATE_NEW,
                    StandardOpenOption.READ,
                    StandardOpenOption.WRITE,
                    LinkOption.NOFOLLOW_LINKS);
            try {
                long copied = 0;
                while (copied < whole) {
                    long more = channel.transferTo(copied, whole - copied, again);
                    if (more <= 0) {
                        throw new IOException("what was recorded before cannot be read any more");
                    }
                    copied += more;
                }
                again.position(whole);
                again.force(true);
            } catch (IOException e) {
                again.close();
                Files.deleteIfExists(file);
                throw e;
            }
            channel.close();
            channel = again;
            key = key(file);
        }
    }

    private static @Nullable Object key(Path file) {
        try {
            return Files.readAttributes(file, BasicFileAttributes.class, LinkOption.NOFOLLOW_LINKS)
                    .fileKey();
        } catch (IOException e) {
            return null;
        }
    }

    /** {@return the file being written, as given} */
    public Path file() {
        return file;
    }

    @Override
    public void close() throws IOException {
        try (FileChannel closed = channel) {
            if (closed.isOpen()) {
                flush();
                closed.force(true);
            }
        }
    }

    /** Begins a file; closes the channel if that fails. */
    static CaptureWriter start(Path file, InetSocketAddress destination, FileChannel channel) throws IOException {
        CaptureWriter writer = new CaptureWriter(file, channel, destination, 0);
        try {
            writer.buffer.put(CaptureHeader.ours());
            writer.force();
            return writer;
        } catch (IOException e) {
            channel.close();
            throw e;
        }
    }

    private static FileChannel channel(Path file, OpenOption... options) throws IOException {
        try {
            return FileChannel.open(file, options);
        } catch (IOException e) {
            throw new IOException(file + " cannot be written: " + Durable.why(e), e);
        }
    }

    /** {@return whether a file ends inside our own header: the program ended as it began to record} */
    public static boolean beginsOurHeader(Path file) throws IOException {
        return Files.isRegularFile(file) && Files.size(file) < CaptureHeader.LENGTH && startsAsOurs(file);
    }

    private static boolean startsAsOurs(Path file) throws IOException {
        try (var in = Files.newInputStream(file)) {
            byte[] start = in.readNBytes(CaptureHeader.LENGTH);
            return Arrays.equals(start, 0, start.length, CaptureHeader.ours().array(), 0, start.length);
        }
    }

    /** A full disk takes part of a record; without this the recording would not end cleanly. */
    private void cutBack(IOException cause) {
        torn = true;
        try {
            channel.truncate(whole);
            torn = false;
        } catch (IOException e) {
            cause.addSuppressed(e);
        }
    }
}
