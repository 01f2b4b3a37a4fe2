package org.rejoin.protocol.json;

import java.nio.ByteBuffer;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded.Malformed;
import org.rejoin.protocol.StateSink;

/** Cuts datagrams into lines; half a line waits up to a second for the rest. One per sender. */
final class JsonLines {

    /** Largest datagram, and largest line, that is read. */
    static final int LONGEST = 8192;

    private static final long CARRY_MICROS = 1_000_000;

    /** What was carried over, then the datagram. */
    private final byte[] octets = new byte[LONGEST];

    private int length;
    private int from;
    private int to;
    private int carried;
    private long carryMicros;
    private long receivedMicros;

    /** Length of a UTF-8 byte-order mark in front. */
    static int markLength(ByteBuffer octets) {
        boolean mark = octets.capacity() >= 3
                && octets.get(0) == (byte) 0xEF
                && octets.get(1) == (byte) 0xBB
                && octets.get(2) == (byte) 0xBF;
        return mark ? 3 : 0;
    }

    void advanceTo(long nowMicros, StateSink sink) {
        if (carried > 0 && nowMicros - carryMicros > CARRY_MICROS) {
            drop(sink);
        }
    }

    private void drop(StateSink sink) {
        sink.other(new Malformed(0, "half a line of " + carried + " octets", "the rest of it within a second"));
        carried = 0;
    }

    /** Takes a datagram; {@link #next} then goes from line to line. */
    void begin(Datagram datagram, StateSink sink) {
        advanceTo(datagram.receivedMicros(), sink);
        receivedMicros = datagram.receivedMicros();
        ByteBuffer payload = datagram.payload();
        int start = markLength(payload);
        int added = payload.capacity() - start;
        from = 0;
        to = -1;
        length = -1;
        if (added + carried > LONGEST) {
            sink.other(new Malformed(0, datagram.length() + " octets", "at most " + LONGEST + " octets"));
            carried = 0;
            return;
        }
        if (carried > 0 && added > 0 && payload.get(start) == '{') {
            drop(sink);
        }
        payload.get(start, octets, carried, added);
        length = carried + added;
        carried = 0;
    }

    /** Goes on to the next line, whose end is as yet unknown; false if there is none. */
    boolean next() {
        if (to >= length) {
            return false;
        }
        from = to + 1;
        return true;
    }

    /** Whether a line can end here. */
    boolean isEnd(int at) {
        return at == length || octets[at] == '\n' || octets[at] == '\r' || octets[at] == 0;
    }

    /** Says where the line ends, for a reader that came to its end. */
    void endsAt(int end) {
        to = end;
    }

    /** Looks for the end of the line. */
    void findEnd() {
        to = from;
        while (!isEnd(to)) {
            to++;
        }
    }

    byte[] octets() {
        return octets;
    }

    /** First octet of the line. */
    int from() {
        return from;
    }

    /** Octet behind the last of the line, once its end is known. */
    int to() {
        return to;
    }

    /** Octet behind the last of all lines. */
    int length() {
        return length;
    }

    /** Whether the line has no end, so that the rest of it may come in the next datagram. */
    boolean mayGoOn() {
        return to == length;
    }

    /** Keeps the end of the line, from an octet on, for the next datagram. */
    void carry(int first) {
        carried = to - first;
        System.arraycopy(octets, first, octets, 0, carried);
        carryMicros = receivedMicros;
    }
}
