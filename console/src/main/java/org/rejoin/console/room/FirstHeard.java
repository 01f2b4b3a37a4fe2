package org.rejoin.console.room;

import java.net.InetAddress;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

import org.rejoin.bridge.feed.AircraftKey;

/**
 * Aircraft heard once from a port. It takes a second state from the same port to be a seat: a sender that opens another
 * socket for each datagram would be a seat of each, and the others would drown. On the feed's thread.
 */
final class FirstHeard {

    /** After so long a port that spoke once is heard for the first time again, microseconds. */
    private static final long FORGOTTEN_MICROS = 60_000_000;

    /** So many ports of one address that spoke once are no accident. */
    private static final int MANY = 10;

    private static final int MOST = 4096;

    private final Map<AircraftKey, Once> once = new LinkedHashMap<>() {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<AircraftKey, Once> eldest) {
            return size() > MOST;
        }
    };
    private final Set<InetAddress> told = new HashSet<>();
    private List<String> standing = List.of();

    private static final class Once {
        private final String marking;
        private long atMicros;
        private boolean spoke;

        Once(String marking) {
            this.marking = marking;
        }

        /** The system gives a port again to others. */
        boolean isOld(long nowMicros) {
            return nowMicros - atMicros > FORGOTTEN_MICROS;
        }
    }

    void heard(AircraftKey key, String marking) {
        once.put(key, new Once(marking));
    }

    /** It speaks from another port now, from which it was not heard before. */
    void goesOn(AircraftKey key) {
        Once heard = once.get(key);
        if (heard != null) {
            heard.spoke = false;
        }
    }

    /** A state of it; its marking where it is the second from one port, and it is to have a seat. */
    Optional<String> spoke(AircraftKey key, long nowMicros) {
        Once heard = once.get(key);
        if (heard == null) {
            return Optional.empty();
        }
        if (!heard.spoke || heard.isOld(nowMicros)) {
            heard.spoke = true;
            heard.atMicros = nowMicros;
            return Optional.empty();
        }
        once.remove(key);
        return Optional.of(heard.marking);
    }

    /** A line for each address that sends from ever other ports, the first time. */
    List<String> look(long nowMicros) {
        Map<InetAddress, Integer> ports = new HashMap<>();
        once.forEach((key, heard) -> {
            if (!heard.isOld(nowMicros)) {
                ports.merge(key.sender().getAddress(), 1, Integer::sum);
            }
        });
        ports.values().removeIf(count -> count < MANY);
        standing = ports.keySet().stream().map(FirstHeard::line).toList();
        return ports.keySet().stream().filter(told::add).map(FirstHeard::line).toList();
    }

    /** {@return a line for each address that does so now} */
    List<String> standing() {
        return standing;
    }

    private static String line(InetAddress address) {
        return address.getHostAddress()
                + " sends each datagram from another port, so that no seat can be told by it: set it"
                + " to send all from one port (one socket, kept open)";
    }
}
