package org.rejoin.console.recording;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.HexFormat;

/**
 * The 24 octets at the start of a classic capture; layout from the Internet-Draft draft-ietf-opsawg-pcap.
 *
 * @param order byte order of this file's headers
 * @param nanoseconds whether fractions of a second are in nanoseconds, else microseconds
 * @param link the link layer of every packet
 */
record CaptureHeader(ByteOrder order, boolean nanoseconds, LinkType link) {

    static final int LENGTH = 24;
    static final int RECORD_LENGTH = 16;
    /** More than any packet can have; a longer one is damage. */
    static final int MAX_PACKET = 262_144;

    private static final int MICROSECONDS = 0xA1B2C3D4;
    private static final int NANOSECONDS = 0xA1B23C4D;
    private static final int RAW_IP = 101;

    /** What {@link CaptureWriter} writes. */
    static final CaptureHeader OURS = new CaptureHeader(ByteOrder.LITTLE_ENDIAN, false, LinkType.RAW);

    /**
     * Reads a header.
     *
     * @param start the first octets of the file, as many as there are up to 24
     * @param name of the file, for the message
     * @throws IOException if it is not the start of a capture that can be read; one line, what was found and what would
     *     be right
     */
    static CaptureHeader read(byte[] start, String name) throws IOException {
        if (start.length == 0) {
            throw new IOException(name + " is empty; a capture (classic pcap) begins with a header of 24 octets");
        }
        if (start.length < 4) {
            throw notACapture(start, name);
        }
        ByteBuffer header = ByteBuffer.wrap(start).order(ByteOrder.BIG_ENDIAN);
        int magic = header.getInt(0);
        if (magic == 0x0A0D0D0A) {
            throw new IOException(name + " is a pcapng capture; save it as classic pcap and try again");
        }
        if (magic >>> 16 == 0x1F8B) {
            throw new IOException(name + " is compressed with gzip; unpack it and try again");
        }
        if (magic != MICROSECONDS && magic != NANOSECONDS) {
            header.order(ByteOrder.LITTLE_ENDIAN);
            magic = header.getInt(0);
        }
        if (magic != MICROSECONDS && magic != NANOSECONDS) {
            throw notACapture(start, name);
        }
        if (start.length < LENGTH) {
            throw new IOException(name + " ends after " + start.length
                    + " octets, inside the header of 24 that a capture begins with; nothing was recorded in it");
        }
        int version = header.getShort(4);
        if (version != 2) {
            throw new IOException(
                    name + " is a capture of version " + version + "; only version 2 (classic pcap) is read");
        }
        int number = header.getInt(20) & 0xFFFF; // the upper half tells of frame check sequences
        LinkType link = LinkType.of(number)
                .orElseThrow(() ->
                        new IOException(name + " has link type " + number + "; these are read: " + LinkType.known()));
        return new CaptureHeader(header.order(), magic == NANOSECONDS, link);
    }

    /** The header of a file of ours, ready to be written. */
    static ByteBuffer ours() {
        return ByteBuffer.allocate(LENGTH)
                .order(OURS.order())
                .putInt(MICROSECONDS)
                .putShort((short) 2)
                .putShort((short) 4)
                .putInt(0)
                .putInt(0)
                .putInt(MAX_PACKET)
                .putInt(RAW_IP)
                .flip();
    }

    private static IOException notACapture(byte[] start, String name) {
        String found = HexFormat.ofDelimiter(" ").formatHex(start, 0, Math.min(4, start.length));
        return new IOException(name + " is not a capture: it begins with " + found
                + " where classic pcap has d4 c3 b2 a1 or a1 b2 c3 d4 (or 4d 3c b2 a1, a1 b2 3c 4d)");
    }
}
