package org.rejoin.console.flight;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

import org.rejoin.bridge.feed.AircraftSorter;
import org.rejoin.console.words.Words;

/** What came from the senders of a feed and could not be taken, live and from a recording alike. */
public final class NotTaken {

    private NotTaken() {}

    /** Told once a feed is over: a line each, none where everything could be taken. */
    public static List<String> of(AircraftSorter sorter) {
        List<AircraftSorter.SenderReport> senders = sorter.senders();
        long malformed = senders.stream()
                .mapToLong(AircraftSorter.SenderReport::malformed)
                .sum();
        long unrecognised = senders.stream()
                .mapToLong(AircraftSorter.SenderReport::unrecognised)
                .sum();
        List<String> lines = new ArrayList<>();
        if (malformed > 0) {
            lines.add(count(malformed, "part", "parts") + " of datagrams could not be read and " + were(malformed)
                    + " left out; the first of each kind: "
                    + senders.stream()
                            .flatMap(each -> each.faults().stream())
                            .distinct()
                            .collect(Collectors.joining("; ")));
        }
        if (unrecognised > 0) {
            lines.add(count(unrecognised, "datagram was", "datagrams were") + " in no known format and left out");
        }
        if (sorter.leftOut() > 0) {
            lines.add(count(sorter.leftOut(), "datagram or sample was", "datagrams and samples were")
                    + " left out: more than " + AircraftSorter.MOST + " senders or aircraft");
        }
        return lines;
    }

    /** Why something could not be taken: the first fault, and what would be right; empty where all was well formed. */
    static Optional<String> firstFault(AircraftSorter sorter) {
        return sorter.senders().stream()
                .flatMap(each -> each.firstFault().stream())
                .findFirst();
    }

    private static String count(long count, String one, String many) {
        return Words.say("%,d %s", count, count == 1 ? one : many);
    }

    private static String were(long count) {
        return count == 1 ? "was" : "were";
    }
}
