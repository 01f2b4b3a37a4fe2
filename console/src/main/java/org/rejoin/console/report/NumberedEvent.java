package org.rejoin.console.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

import org.rejoin.bridge.flight.EventKind;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.console.grade.Fault;

/** An event with the number, from 1, that it carries in the log and on every drawing. */
record NumberedEvent(int number, FlightEvent event, Kind kind, String line) {

    /** How an event is marked; each kind has a shape of its own. */
    enum Kind {
        /** A circle. */
        FLIGHT("event"),
        /** A triangle. */
        FAULT("event that is a fault"),
        /** A square. */
        FEED("feed or simulator, not the pilot");

        private final String words;

        Kind(String words) {
            this.words = words;
        }

        String words() {
            return words;
        }

        String style() {
            return "mark-" + name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    double timeS() {
        return event.timeS();
    }

    /** Where its line of the log can be linked to. */
    String anchor() {
        return "event-" + number;
    }

    static List<NumberedEvent> of(List<FlightEvent> events, List<Fault> faults, Function<FlightEvent, String> line) {
        List<NumberedEvent> numbered = new ArrayList<>();
        for (FlightEvent event : events) {
            numbered.add(new NumberedEvent(numbered.size() + 1, event, kind(event, faults), line.apply(event)));
        }
        return numbered;
    }

    /** The event a fault was found in. */
    static Optional<NumberedEvent> of(Fault fault, List<NumberedEvent> events) {
        return events.stream()
                .filter(event -> isOf(event.event(), fault))
                .findFirst()
                .or(() -> events.stream()
                        .filter(event -> event.timeS() == fault.atS())
                        .findFirst());
    }

    private static Kind kind(FlightEvent event, List<Fault> faults) {
        if (event.kind().nature() != EventKind.Nature.FLIGHT) {
            return Kind.FEED;
        }
        return faults.stream().anyMatch(fault -> isOf(event, fault)) ? Kind.FAULT : Kind.FLIGHT;
    }

    private static boolean isOf(FlightEvent event, Fault fault) {
        return event.timeS() == fault.atS() && event.kind().fault().equals(Optional.of(fault.code()));
    }
}
