package org.rejoin.protocol.json;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Decoded.Malformed;

/** Cuts datagrams into lines; half a line waits up to a second for the rest. One per sender. */
final class JsonLines {

    /** Largest datagram, and largest line, that is read. */
    static final int LONGEST = 8192;

    private static final long CARRY_MICROS = 1_000_000;
    private static final int NOTHING = 0;

    private byte[] carry = new byte[NOTHING];
    private long carryMicros;

    /** Length of a UTF-8 byte-order mark in front. */
    static int markLength(ByteBuffer octets) {
        boolean mark = octets.capacity() >= 3
                && octets.get(0) == (byte) 0xEF
                && octets.get(1) == (byte) 0xBB
                && octets.get(2) == (byte) 0xBF;
        return mark ? 3 : 0;
    }

    void advanceTo(long nowMicros, List<Decoded> out) {
        if (carry.length > 0 && nowMicros - carryMicros > CARRY_MICROS) {
            drop(out);
        }
    }

    private void drop(List<Decoded> out) {
        out.add(new Malformed(0, "half a line of " + carry.length + " octets", "the rest of it within a second"));
        carry = new byte[NOTHING];
    }

    /** Keeps half a line for the next datagram. */
    void carry(byte[] half, long nowMicros) {
        carry = half;
        carryMicros = nowMicros;
    }

    /** Lines in order, without their ends; the last may be half a line. */
    List<byte[]> split(Datagram datagram, List<Decoded> out) {
        advanceTo(datagram.receivedMicros(), out);
        ByteBuffer octets = datagram.payload();
        int start = markLength(octets);
        int length = octets.capacity() - start;
        if (length + carry.length > LONGEST) {
            out.add(new Malformed(0, datagram.length() + " octets", "at most " + LONGEST + " octets"));
            carry = new byte[NOTHING];
            return List.of();
        }
        if (carry.length > 0 && length > 0 && octets.get(start) == '{') {
            drop(out);
        }
        byte[] all = new byte[carry.length + length];
        System.arraycopy(carry, 0, all, 0, carry.length);
        octets.get(start, all, carry.length, length);
        carry = new byte[NOTHING];
        List<byte[]> lines = new ArrayList<>();
        int from = 0;
        for (int i = 0; i <= all.length; i++) {
            if (i == all.length || all[i] == '\n' || all[i] == '\r' || all[i] == 0) {
                lines.add(Arrays.copyOfRange(all, from, i));
                from = i + 1;
            }
        }
        return lines;
    }
}
