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
 * Aircraft heard once from a port. Where several of one address were, it takes a second state from the same port to be a
 * seat: a sender that opens another socket for each datagram would be a seat of each, and the others would drown. On the
 * feed's thread.
 */
final class FirstHeard {

    /** After so long a port that spoke once is heard for the first time again, microseconds. */
    private static final long FORGOTTEN_MICROS = 60_000_000;

    /** So many ports of one address that spoke once are no accident. */
    private static final int MANY = 10;

    /** So many have a seat at once: nothing of what simulators send that begin together is lost. */
    private static final int FEW = 3;

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
        private final boolean seated;
        private long atMicros;
        private boolean spoke;

        Once(String marking, boolean seated, long atMicros) {
            this.marking = marking;
            this.seated = seated;
            this.atMicros = atMicros;
        }

        /** The system gives a port again to others. */
        boolean isOld(long nowMicros) {
            return nowMicros - atMicros > FORGOTTEN_MICROS;
        }
    }

    /** Whether it is to have a seat at once. */
    boolean heard(AircraftKey key, String marking, long nowMicros) {
        InetAddress address = key.sender().getAddress();
        long waiting = once.entrySet().stream()
                .filter(each -> each.getKey().sender().getAddress().equals(address))
                .filter(each -> !each.getValue().isOld(nowMicros))
                .count();
        boolean seated = waiting < FEW;
        once.put(key, new Once(marking, seated, nowMicros));
        return seated;
    }

    /** It speaks from another port now, from which it was not heard before. */
    void goesOn(AircraftKey key) {
        Once heard = once.get(key);
        if (heard != null) {
            heard.spoke = false;
        }
    }

    /** A state of it; its marking where it is the second from one port, and it is to have a seat that it has not. */
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
        return heard.seated ? Optional.empty() : Optional.of(heard.marking);
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
