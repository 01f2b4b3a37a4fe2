package org.rejoin.protocol.dis;

import java.nio.ByteBuffer;
import java.util.List;
import java.util.Optional;

import org.rejoin.protocol.Decoded.Malformed;

/** The 12 octets in front of every PDU, IEEE 1278.1-2012, 6.2.66, read where they stand. */
final class PduHeader {

    /** Octets of a header, and so of the shortest PDU. */
    static final int LENGTH = 12;

    /** Newest protocol version. */
    static final int NEWEST_VERSION = 7;

    /** After so many seconds the sender's clock starts again at 0. */
    static final double SECONDS_PER_HOUR = 3600;

    // Types by number, IEEE 1278.1-2012 and SISO-REF-010.
    static final int ENTITY_STATE = 1;
    static final int REMOVE_ENTITY = 12;
    static final int START_RESUME = 13;
    static final int STOP_FREEZE = 14;
    static final int ENTITY_STATE_UPDATE = 67;

    private static final List<String> NAMES =
            List.of(("Other, Entity State, Fire, Detonation, Collision, Service Request, Resupply Offer, "
                            + "Resupply Received, Resupply Cancel, Repair Complete, Repair Response, Create Entity, "
                            + "Remove Entity, Start/Resume, Stop/Freeze, Acknowledge, Action Request, Action Response, "
                            + "Data Query, Set Data, Data, Event Report, Comment, Electromagnetic Emission, Designator, "
                            + "Transmitter, Signal, Receiver, IFF")
                    .split(", ", -1));

    private static final double UNITS_PER_HOUR = 1L << 31;

    /** What keeps the octets from {@code offset} on from being a PDU; empty if nothing does. */
    static Optional<Malformed> fault(ByteBuffer octets, int offset) {
        int left = octets.capacity() - offset;
        if (left < LENGTH) {
            return Optional.of(new Malformed(offset, Math.max(0, left) + " octets", "a PDU header of 12 octets"));
        }
        int version = version(octets, offset);
        if (!isVersion(version)) {
            return Optional.of(new Malformed(offset, "protocol version " + version, "protocol version 4 to 7"));
        }
        int length = length(octets, offset);
        if (length < LENGTH || length > left) {
            return Optional.of(new Malformed(
                    offset + 8, "PDU length " + length, "a length from 12 to the " + left + " octets that are left"));
        }
        return Optional.empty();
    }

    /** Whether {@link #fault} finds nothing wrong. */
    static boolean isGood(ByteBuffer octets, int offset) {
        int left = octets.capacity() - offset;
        return left >= LENGTH
                && isVersion(version(octets, offset))
                && length(octets, offset) >= LENGTH
                && length(octets, offset) <= left;
    }

    private static boolean isVersion(int version) {
        return version >= 1 && version <= NEWEST_VERSION;
    }

    static int version(ByteBuffer octets, int offset) {
        return octets.get(offset) & 0xFF;
    }

    /** Which of the exercises on the net it belongs to; IEEE 1278.1-2012, 6.2.66. */
    static int exercise(ByteBuffer octets, int offset) {
        return octets.get(offset + 1) & 0xFF;
    }

    static int type(ByteBuffer octets, int offset) {
        return octets.get(offset + 2) & 0xFF;
    }

    static int family(ByteBuffer octets, int offset) {
        return octets.get(offset + 3) & 0xFF;
    }

    /** Octets of the PDU, this header included. */
    static int length(ByteBuffer octets, int offset) {
        return octets.getShort(offset + 8) & 0xFFFF;
    }

    /** The sender's clock, seconds past the hour; unsigned, for a signed reading turns negative at half past. */
    static double timeS(ByteBuffer octets, int offset) {
        return (octets.getInt(offset + 4) >>> 1) * SECONDS_PER_HOUR / UNITS_PER_HOUR;
    }

    /** Name of the type, or its number where the name is of no use here. */
    static String typeName(int type) {
        return type < NAMES.size() ? NAMES.get(type) : "PDU type " + type;
    }

    private PduHeader() {}

    /** A relative timestamp for seconds of any sign and size. */
    static int relativeTimestamp(double seconds) {
        double pastHour = seconds - Math.floor(seconds / SECONDS_PER_HOUR) * SECONDS_PER_HOUR;
        long units = (long) Math.floor(pastHour * UNITS_PER_HOUR / SECONDS_PER_HOUR);
        return (int) ((units & 0x7FFF_FFFFL) << 1);
    }
}
