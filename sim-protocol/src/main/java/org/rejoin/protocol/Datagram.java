package org.rejoin.protocol;

import java.net.InetSocketAddress;
import java.nio.ByteBuffer;

/**
 * One UDP datagram as it arrived, live or read back from a capture.
 *
 * @param receivedMicros time of receipt, microseconds since 1970-01-01 UTC
 * @param sender where it came from
 * @param payload the octets of the datagram, from index 0; read-only view, never modified after construction
 */
public record Datagram(long receivedMicros, InetSocketAddress sender, ByteBuffer payload) {

    /** Largest payload a UDP datagram over IPv4 can name in its length field, octets. */
    public static final int MAX_LENGTH = 65_535;

    /** Keeps a read-only view of the octets between position and limit. */
    public Datagram {
        payload = payload.slice().asReadOnlyBuffer();
    }

    /** A datagram around an array, for senders and tests; the octets are not copied, so leave them alone afterwards. */
    public static Datagram of(long receivedMicros, InetSocketAddress sender, byte[] octets) {
        return new Datagram(receivedMicros, sender, ByteBuffer.wrap(octets));
    }

    /** {@return time of receipt in seconds, seconds since 1970-01-01 UTC} */
    public double receivedS() {
        return receivedMicros * 1e-6;
    }

    /** The first octet from an index on that is no blank, tab or line end; a blank where there is none. */
    public byte firstVisible(int from) {
        for (int i = from; i < payload.capacity(); i++) {
            byte octet = payload.get(i);
            if (octet != ' ' && octet != '\t' && octet != '\r' && octet != '\n') {
                return octet;
            }
        }
        return ' ';
    }

    /** Number of octets; 0 to {@link #MAX_LENGTH}. */
    public int length() {
        return payload.capacity();
    }
}
