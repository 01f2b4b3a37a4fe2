package org.rejoin.bridge.feed;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

import org.rejoin.protocol.Decoded;

/** What could not be read of a feed, the first of each kind: the same field, or the same thing expected in its place. */
public final class FaultKinds {

    /** As many as anybody reads. */
    private static final int MOST = 12;

    private final Map<Kind, Decoded.Malformed> first = new LinkedHashMap<>();

    /** By the name before the value, so that a value that changes makes no kind of its own. */
    private record Kind(String name, String expected) {

        static Kind of(Decoded.Malformed fault) {
            int end = fault.found().indexOf(' ');
            String first = end < 0 ? fault.found() : fault.found().substring(0, end);
            // A checksum that is wrong should each time be another one.
            String expected = fault.expected();
            int star = expected.indexOf('*');
            return new Kind(
                    first.matches("[A-Za-z_]+") ? first : "", star < 0 ? expected : expected.substring(0, star));
        }
    }

    /** Takes one more. */
    public void add(Decoded.Malformed fault) {
        if (first.size() < MOST) {
            first.putIfAbsent(Kind.of(fault), fault);
        }
    }

    /** The first of each kind in the order heard, what was found and what would be right: "found ..., expected ...". */
    public List<String> said() {
        return first.values().stream().map(FaultKinds::said).toList();
    }

    private static String said(Decoded.Malformed fault) {
        return "found " + fault.found() + ", expected " + fault.expected();
    }
}
