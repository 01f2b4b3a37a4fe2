package org.rejoin.console.recording;

import java.io.Closeable;
import java.io.IOException;
import java.net.InetSocketAddress;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.Optional;

import org.rejoin.protocol.Datagram;

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
    private final FileChannel channel;
    private final PacketHeaders headers;
    private final ByteBuffer buffer = ByteBuffer.allocateDirect(BUFFER).order(ByteOrder.LITTLE_ENDIAN);
    /** End of the last record known to be whole in the file. */
    private long whole;

    private CaptureWriter(Path file, FileChannel channel, InetSocketAddress destination, long whole) {
        this.file = file;
        this.channel = channel;
        this.headers = new PacketHeaders(destination);
        this.whole = whole;
    }

    /**
     * Begins a new capture.
     *
     * @param file must not exist yet: a recording is never overwritten
     * @param destination address and port that the datagrams came to; only shown in packet tools
     * @return the writer; close it
     * @throws IOException if the file exists or cannot be written; one line
     */
    public static CaptureWriter create(Path file, InetSocketAddress destination) throws IOException {
        if (Files.exists(file)) {
            throw new IOException(file + " exists already; a recording is never overwritten");
        }
        return start(file, destination, channel(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE));
    }

    /**
     * Goes on with a capture of ours. A torn tail is cut off first, so that what follows can be read.
     *
     * @param file written by this class, or empty
     * @param destination as in {@link #create}
     * @return the writer; close it
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
        FileChannel channel = channel(file, StandardOpenOption.WRITE);
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
        long micros = Math.max(0, datagram.receivedMicros());
        buffer.putInt((int) (micros / 1_000_000))
                .putInt((int) (micros % 1_000_000))
                .putInt(length)
                .putInt(length);
        headers.put(buffer, datagram);
    }

    /**
     * Hands everything to the system.
     *
     * @throws IOException if the disk fails; as in {@link #write}
     */
    public void flush() throws IOException {
        buffer.flip();
        try {
            while (buffer.hasRemaining()) {
                channel.write(buffer);
            }
            whole = channel.position();
        } catch (IOException e) {
            cutBack(e);
            throw e;
        } finally {
            buffer.clear();
        }
    }

    /**
     * Flushes, and waits until it is on the disk.
     *
     * @throws IOException as in {@link #sync}
     */
    public void force() throws IOException {
        flush();
        sync();
    }

    /**
     * Waits until what was flushed is on the disk. The one thing here that another thread may do, so that a slow disk
     * does not hold up what the system takes at once.
     *
     * @throws IOException if the disk fails, or the file was deleted or replaced; one line
     */
    void sync() throws IOException {
        channel.force(false);
        // Some systems let an open file be deleted and go on writing into nothing.
        if (!Files.exists(file)) {
            throw new IOException(file + " was deleted or moved away");
        }
    }

    /**
     * The file being written.
     *
     * @return as given
     */
    public Path file() {
        return file;
    }

    @Override
    public void close() throws IOException {
        try (channel) {
            if (channel.isOpen()) {
                flush();
                channel.force(true);
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

    private static FileChannel channel(Path file, StandardOpenOption... options) throws IOException {
        try {
            return FileChannel.open(file, options);
        } catch (IOException e) {
            throw new IOException(file + " cannot be written: " + RecordingFolder.why(e), e);
        }
    }

    /** A file that ends inside our own header: the program ended as it began to record. */
    private static boolean beginsOurHeader(Path file) throws IOException {
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
        try {
            channel.truncate(whole);
        } catch (IOException e) {
            cause.addSuppressed(e);
        }
    }
}
