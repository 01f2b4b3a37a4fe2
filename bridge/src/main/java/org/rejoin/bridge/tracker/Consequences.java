package org.rejoin.bridge.tracker;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

import org.rejoin.bridge.flight.EventKind;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;

/**
 * One mistake, one fault: from a mistake that takes the aircraft off its route until it is established again, what it
 * does to the line and the route is the way back, and not a second mistake.
 */
final class Consequences {

    /** What takes the aircraft off its route. */
    private static final Set<EventKind> ASTRAY = EnumSet.of(
            EventKind.FLOWN_THROUGH,
            EventKind.WRONG_DIRECTION,
            EventKind.WRONG_TURN,
            EventKind.SEQUENCE_MISSED,
            EventKind.ROUTE_LEFT,
            EventKind.HOLD_WRONG_SIDE,
            EventKind.HOLD_NOT_ENTERED);

    /** What may be a part of the way back. */
    private static final Set<FaultCode> WAY_BACK = EnumSet.of(
            FaultCode.FLOWN_THROUGH,
            FaultCode.WRONG_DIRECTION,
            FaultCode.WRONG_TURN,
            FaultCode.SEQUENCE_MISSED,
            FaultCode.ROUTE_LEFT,
            FaultCode.TURNED_EARLY,
            FaultCode.OVERSHOOT,
            FaultCode.COURSE_NOT_HELD,
            FaultCode.WEAVING,
            FaultCode.HEADING_NOT_HELD,
            FaultCode.NOT_ACHIEVED,
            FaultCode.HOLD_WRONG_SIDE,
            FaultCode.HOLD_NOT_ENTERED);

    private final List<FlightEvent> following = new ArrayList<>();
    private boolean astray;
    /** Whether the aircraft, since it went astray, has been off its line: only then is it back when it is on one. */
    private boolean off;

    /** Takes the events of a step. */
    void step(List<FlightEvent> events, boolean holding) {
        following.clear();
        // Most steps have none, and are not to make anything.
        boolean told = !events.isEmpty() && told(events);
        off = astray && (off || !holding);
        if (off && holding && !told) {
            astray = false;
            off = false;
        }
    }

    /** Notes which follow; whether one of them leads astray. */
    private boolean told(List<FlightEvent> events) {
        boolean told = false;
        for (FlightEvent event : events) {
            boolean wayBack = event.kind().fault().filter(WAY_BACK::contains).isPresent();
            if (astray && wayBack) {
                following.add(event);
            }
            if (ASTRAY.contains(event.kind())) {
                astray = true;
                told = true;
            }
        }
        return told;
    }

    /** The next clearance: it asks for something else. */
    void reset() {
        astray = false;
        off = false;
    }

    /** Whether an event of the last step follows from a mistake told before. */
    boolean follows(FlightEvent event) {
        return following.stream().anyMatch(each -> each == event);
    }
}
