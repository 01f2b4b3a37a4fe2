package org.rejoin.console.room;

import java.net.InetAddress;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Iterator;
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

    private final Map<AircraftKey, Once> once = new LinkedHashMap<>();
    private final Set<InetAddress> told = new HashSet<>();
    private List<String> standing = List.of();

    private static final class Once {
        private final String marking;
        private final long atMicros;
        private boolean spoke;

        Once(String marking, long atMicros) {
            this.marking = marking;
            this.atMicros = atMicros;
        }
    }

    void heard(AircraftKey key, String marking, long nowMicros) {
        if (once.size() < MOST) {
            once.put(key, new Once(marking, nowMicros));
        }
    }

    /** It speaks from another port now, from which it was not heard before. */
    void goesOn(AircraftKey key) {
        Once heard = once.get(key);
        if (heard != null) {
            heard.spoke = false;
        }
    }

    /** A state of it; its marking where it is the second from one port, and it is to have a seat. */
    Optional<String> spoke(AircraftKey key) {
        Once heard = once.get(key);
        if (heard == null) {
            return Optional.empty();
        }
        if (!heard.spoke) {
            heard.spoke = true;
            return Optional.empty();
        }
        once.remove(key);
        return Optional.of(heard.marking);
    }

    /** Forgets those of long ago; a line for each address that sends from ever other ports, the first time. */
    List<String> look(long nowMicros) {
        Map<InetAddress, Integer> ports = new HashMap<>();
        for (Iterator<Map.Entry<AircraftKey, Once>> each = once.entrySet().iterator(); each.hasNext(); ) {
            Map.Entry<AircraftKey, Once> heard = each.next();
            if (nowMicros - heard.getValue().atMicros > FORGOTTEN_MICROS) {
                each.remove();
            } else {
                ports.merge(heard.getKey().sender().getAddress(), 1, Integer::sum);
            }
        }
        ports.values().removeIf(count -> count < MANY);
        standing = ports.keySet().stream().map(FirstHeard::line).toList();
        return ports.keySet().stream().filter(told::add).map(FirstHeard::line).toList();
    }

    /** {@return a line for each address that does so now} */
    List<String> standing() {
        return standing;
    }

    private static String line(InetAddress address) {
        return address.getHostAddress() + " sends each datagram from another port, so that no seat can be told by it: set it"
                + " to send all from one port (one socket, kept open)";
    }
}
