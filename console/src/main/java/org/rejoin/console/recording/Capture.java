package org.rejoin.console.recording;

import java.io.BufferedInputStream;
import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.protocol.Datagram;

/**
 * Reads the UDP datagrams of a classic capture, in the order of the file, whoever wrote it: both byte orders,
 * microseconds and nanoseconds, the link layers of the package's documentation, IPv4 and IPv6. Other traffic and
 * fragments are skipped and counted. Holds one packet at a time, so a capture may be of any size.
 */
public final class Capture implements Closeable {

    private final InputStream in;
    private final CaptureHeader header;
    private final byte[] recordHeader = new byte[CaptureHeader.RECORD_LENGTH];
    private byte[] packet = new byte[2048];
    private long offset = CaptureHeader.LENGTH;
    private boolean ended;
    private Optional<String> tear = Optional.empty();
    private long datagrams;
    private long fragments;
    private long cut;
    private long others;
    private long gaps;
    private long missing;

    private Capture(InputStream in, CaptureHeader header) {
        this.in = in;
        this.header = header;
    }

    /**
     * Opens a capture file.
     *
     * @param file classic pcap
     * @throws IOException if the file is missing, empty or not a capture that can be read; the message is one line that
     *     names the file, what was found and what would be right
     */
    public static Capture open(Path file) throws IOException {
        if (Files.isDirectory(file)) {
            throw new IOException(file + " is a directory; a capture file (classic pcap) is wanted");
        }
        InputStream in;
        try {
            in = Files.newInputStream(file);
        } catch (NoSuchFileException e) {
            throw new IOException("there is no file " + file, e);
        } catch (IOException e) {
            throw new IOException(file + " cannot be read: " + e.getMessage(), e);
        }
        try {
            return read(new BufferedInputStream(in, 1 << 16), file.toString());
        } catch (IOException e) {
            in.close();
            throw e;
        }
    }

    /**
     * Reads a capture from a stream.
     *
     * @param in at its first octet; closed by {@link #close}
     * @param name what to call it in messages
     * @throws IOException as in {@link #open}
     */
    public static Capture read(InputStream in, String name) throws IOException {
        return new Capture(in, CaptureHeader.read(in.readNBytes(CaptureHeader.LENGTH), name));
    }

    /**
     * The next datagram.
     *
     * @return empty at the end of the file or at a tear, and ever after
     * @throws IOException if the disk fails; never because of what is in the file
     */
    public Optional<Datagram> next() throws IOException {
        while (!ended) {
            int length = nextLength();
            if (length < 0) {
                ended = true;
                break;
            }
            offset += CaptureHeader.RECORD_LENGTH + length;
            if (length == 0) {
                cut++;
                continue;
            }
            ByteBuffer frame = ByteBuffer.wrap(packet, 0, length).order(ByteOrder.BIG_ENDIAN);
            UdpPacket found = UdpPacket.of(frame, header.link());
            if (found instanceof UdpPacket.Whole whole) {
                datagrams++;
                return Optional.of(new Datagram(receivedMicros(), whole.sender(), whole.payload()));
            }
            if (found instanceof UdpPacket.Missing gap) {
                gaps++;
                missing += gap.datagrams();
            } else {
                switch ((UdpPacket.Skipped) found) {
                    case FRAGMENT -> fragments++;
                    case CUT -> cut++;
                    case OTHER -> others++;
                }
            }
        }
        return Optional.empty();
    }

    /** {@return where reading had to stop before the end of the file, what stands there and what became of the rest; one line, empty as long as no tear was met} */
    public Optional<String> tear() {
        return tear;
    }

    /** {@return packets that were not given out so far, in one line; empty if every packet was a datagram} */
    public Optional<String> skipped() {
        List<String> parts = new ArrayList<>();
        if (fragments > 0) {
            parts.add(fragments + " fragments of larger datagrams");
        }
        if (cut > 0) {
            parts.add(cut + " cut short by the capturing program (let it keep whole packets)");
        }
        if (others > 0) {
            parts.add(others + " that are not UDP");
        }
        return parts.isEmpty()
                ? Optional.empty()
                : Optional.of("skipped beside " + datagrams + " datagrams: " + String.join(", ", parts));
    }

    /**
     * {@return what the disk could not take while this was recorded, as far as it was read; one line; empty if nothing is
     * marked as missing}
     */
    public Optional<String> missing() {
        return gaps == 0
                ? Optional.empty()
                : Optional.of(missing + " datagrams are missing in " + gaps + (gaps == 1 ? " place" : " places")
                        + ": the disk could not take them as they came");
    }

    /** {@return octets of the file that were read and found whole; 24 or more} */
    public long offset() {
        return offset;
    }

    @Override
    public void close() throws IOException {
        in.close();
    }

    /** Reads a record into the two buffers; its length, or -1 at the end or at a tear. */
    private int nextLength() throws IOException {
        int read = in.readNBytes(recordHeader, 0, recordHeader.length);
        if (read == 0) {
            return -1;
        }
        if (read < recordHeader.length) {
            torn("a packet header has " + read + " of its " + recordHeader.length + " octets");
            return -1;
        }
        ByteBuffer fields = ByteBuffer.wrap(recordHeader).order(header.order());
        int length = fields.getInt(8);
        int original = fields.getInt(12);
        // There are no empty packets, though some keep nothing of one; a file system that lost power leaves zeros.
        if (length < 0
                || original == 0
                || length > CaptureHeader.MAX_PACKET
                || Integer.compareUnsigned(length, original) > 0) {
            torn("a packet is said to have " + Integer.toUnsignedString(length) + " octets of "
                    + Integer.toUnsignedString(original));
            return -1;
        }
        if (length > packet.length) {
            packet = new byte[length];
        }
        int got = in.readNBytes(packet, 0, length);
        if (got < length) {
            torn("a packet has " + got + " of its " + length + " octets");
            return -1;
        }
        return length;
    }

    private void torn(String what) {
        tear = Optional.of("torn at octet " + offset + ": " + what + "; what stands before it was read");
    }

    private long receivedMicros() {
        ByteBuffer fields = ByteBuffer.wrap(recordHeader).order(header.order());
        long seconds = Integer.toUnsignedLong(fields.getInt(0));
        long fraction = Integer.toUnsignedLong(fields.getInt(4));
        return seconds * 1_000_000 + (header.nanoseconds() ? fraction / 1000 : fraction);
    }
}
