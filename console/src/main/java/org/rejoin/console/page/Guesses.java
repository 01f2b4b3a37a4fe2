package org.rejoin.console.page;

import java.net.Inet6Address;
import java.net.InetAddress;
import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.function.LongSupplier;

/**
 * Wrong tokens shown at the door. Who shows too many waits, with the right one too; other addresses do not wait for him.
 * Whoever is in already is not asked again. Confined to the page's thread.
 */
final class Guesses {

    /** Nobody mistypes a token so often in a minute; common practice, no source. */
    static final int MOST = 10;

    private static final long WINDOW_NS = TimeUnit.SECONDS.toNanos(60);
    /** Addresses remembered; beyond it all who are not remembered wait. */
    private static final int MOST_ADDRESSES = 1_024;
    /** A host has a network of its own of IPv6 addresses to send from (RFC 4291, 64 bits of interface identifier). */
    private static final int NETWORK_OCTETS = 8;

    private static final class Tries {
        private final long sinceNs;
        private int wrong;

        Tries(long sinceNs) {
            this.sinceNs = sinceNs;
        }
    }

    private final LongSupplier nanos;
    private final Map<ByteBuffer, Tries> wrong = new HashMap<>();

    Guesses(LongSupplier nanos) {
        this.nanos = nanos;
    }

    /** How long this address waits before it may show a token, seconds; 0 if it need not. */
    long waitS(InetAddress from) {
        long now = nanos.getAsLong();
        wrong.values().removeIf(tries -> now - tries.sinceNs >= WINDOW_NS);
        Tries tries = wrong.get(network(from));
        if (tries == null) {
            return wrong.size() < MOST_ADDRESSES ? 0 : TimeUnit.NANOSECONDS.toSeconds(WINDOW_NS);
        }
        return tries.wrong < MOST ? 0 : 1 + TimeUnit.NANOSECONDS.toSeconds(tries.sinceNs + WINDOW_NS - now);
    }

    /** It showed a wrong one; whether it waits from now on. */
    boolean wrong(InetAddress from) {
        return ++wrong.computeIfAbsent(network(from), address -> new Tries(nanos.getAsLong())).wrong == MOST;
    }

    private static ByteBuffer network(InetAddress address) {
        byte[] octets = address.getAddress();
        return ByteBuffer.wrap(address instanceof Inet6Address ? Arrays.copyOf(octets, NETWORK_OCTETS) : octets);
    }
}
