package org.rejoin.console.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

import org.rejoin.bridge.tracker.TrackerEvent;
import org.rejoin.console.grade.Fault;

/**
 * An event with the number it carries in the log and on every drawing.
 *
 * @param number from 1
 * @param event itself
 * @param kind how it is marked
 * @param line of the log, for people
 */
record NumberedEvent(int number, TrackerEvent event, Kind kind, String line) {

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

    static List<NumberedEvent> of(List<TrackerEvent> events, List<Fault> faults, Function<TrackerEvent, String> line) {
        List<NumberedEvent> numbered = new ArrayList<>();
        for (TrackerEvent event : events) {
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

    private static Kind kind(TrackerEvent event, List<Fault> faults) {
        if (event instanceof TrackerEvent.FeedLost
                || event instanceof TrackerEvent.FeedResumed
                || event instanceof TrackerEvent.SimPaused
                || event instanceof TrackerEvent.SimResumed
                || event instanceof TrackerEvent.Repositioned) {
            return Kind.FEED;
        }
        return faults.stream().anyMatch(fault -> isOf(event, fault)) ? Kind.FAULT : Kind.FLIGHT;
    }

    private static boolean isOf(TrackerEvent event, Fault fault) {
        return event.timeS() == fault.atS() && kindOf(fault.code()).isInstance(event);
    }

    private static Class<? extends TrackerEvent> kindOf(Fault.Code code) {
        return switch (code) {
            case FLOWN_THROUGH -> TrackerEvent.FlownThrough.class;
            case WRONG_DIRECTION -> TrackerEvent.WrongDirection.class;
            case TURNED_EARLY -> TrackerEvent.TurnedEarly.class;
            case WRONG_TURN -> TrackerEvent.WrongTurn.class;
            case WEAVING -> TrackerEvent.Weaving.class;
            case HEADING_NOT_HELD -> TrackerEvent.HeadingDeviationBegan.class;
            case ALTITUDE_NOT_HELD -> TrackerEvent.AltitudeDeviationBegan.class;
            case SPEED_NOT_HELD -> TrackerEvent.SpeedDeviationBegan.class;
            case OVERSHOOT -> TrackerEvent.Overshoot.class;
            case NOT_ACHIEVED -> TrackerEvent.AmendmentNotAchieved.class;
            case SEQUENCE_MISSED -> TrackerEvent.SequenceMissed.class;
        };
    }
}
