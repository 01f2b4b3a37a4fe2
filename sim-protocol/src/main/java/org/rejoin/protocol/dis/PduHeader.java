package org.rejoin.protocol.dis;

import java.nio.ByteBuffer;
import java.util.Optional;

import org.rejoin.protocol.Decoded.Malformed;
import org.rejoin.protocol.SourceTime;

/**
 * The 12 octets in front of every PDU, IEEE 1278.1-2012, 6.2.66.
 *
 * @param version protocol version, [1, 7]
 * @param type PDU type, [0, 255]
 * @param family protocol family, [0, 255]
 * @param timestamp past the hour, 31 bits and the absolute bit, [0, 2^32)
 * @param length octets, this header included
 */
record PduHeader(int version, int type, int family, long timestamp, int length) {

    /** Octets of a header, and so of the shortest PDU. */
    static final int LENGTH = 12;

    /** Newest protocol version. */
    static final int NEWEST_VERSION = 7;

    private static final double SECONDS_PER_HOUR = 3600;
    private static final double UNITS_PER_HOUR = 1L << 31;

    /** What keeps the octets from {@code offset} on from being a PDU; empty if nothing does. */
    static Optional<Malformed> fault(ByteBuffer octets, int offset) {
        int left = octets.capacity() - offset;
        if (left < LENGTH) {
            return Optional.of(new Malformed(offset, Math.max(0, left) + " octets", "a PDU header of 12 octets"));
        }
        int version = octets.get(offset) & 0xFF;
        if (version < 1 || version > NEWEST_VERSION) {
            return Optional.of(new Malformed(offset, "protocol version " + version, "protocol version 4 to 7"));
        }
        int length = octets.getShort(offset + 8) & 0xFFFF;
        if (length < LENGTH || length > left) {
            return Optional.of(new Malformed(
                    offset + 8, "PDU length " + length, "a length from 12 to the " + left + " octets that are left"));
        }
        return Optional.empty();
    }

    /** Reads a header that {@link #fault} found nothing wrong with. */
    static PduHeader at(ByteBuffer octets, int offset) {
        return new PduHeader(
                octets.get(offset) & 0xFF,
                octets.get(offset + 2) & 0xFF,
                octets.get(offset + 3) & 0xFF,
                octets.getInt(offset + 4) & 0xFFFF_FFFFL,
                octets.getShort(offset + 8) & 0xFFFF);
    }

    /** The sender's clock; unsigned, for a signed reading turns negative at half past. */
    SourceTime time() {
        return new SourceTime((timestamp >>> 1) * SECONDS_PER_HOUR / UNITS_PER_HOUR, SECONDS_PER_HOUR);
    }

    /** A relative timestamp for seconds of any sign and size. */
    static int relativeTimestamp(double seconds) {
        double pastHour = seconds - Math.floor(seconds / SECONDS_PER_HOUR) * SECONDS_PER_HOUR;
        long units = (long) Math.floor(pastHour * UNITS_PER_HOUR / SECONDS_PER_HOUR);
        return (int) ((units & 0x7FFF_FFFFL) << 1);
    }
}
