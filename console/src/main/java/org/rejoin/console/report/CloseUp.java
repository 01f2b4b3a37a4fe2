package org.rejoin.console.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Point;
import org.rejoin.console.draw.Markup;
import org.rejoin.console.grade.Fault;

/**
 * The ground around a fault, drawn larger, over these seconds since the first sample: what a plan of the whole flight
 * is too small to show.
 */
record CloseUp(String id, String title, double fromS, double toS) {

    /** Shown before a fault is logged; an overshoot is logged only when it is over. */
    private static final double BEFORE_S = 90;

    private static final double AFTER_S = 60;

    /** A crossing longer ago belongs to another turn, seconds (common practice, no source). */
    private static final double LONGEST_S = 600;

    /** More would bury the rest; the log has them all. */
    private static final int MOST = 4;

    static List<CloseUp> of(DebriefedFlight flight, List<NumberedEvent> events) {
        List<CloseUp> all = new ArrayList<>();
        for (Fault fault : flight.debrief().grade().faults()) {
            boolean seenFromAbove = switch (fault.code()) {
                case HEADING_NOT_HELD, ALTITUDE_NOT_HELD, SPEED_NOT_HELD, NOT_ACHIEVED -> false;
                default -> true;
            };
            String event = NumberedEvent.of(fault, events)
                    .map(found -> ", event " + found.number())
                    .orElse("");
            String title = GradeSheet.words(fault.code()) + event;
            double from = beganS(flight, fault) - BEFORE_S;
            double to = fault.atS() + AFTER_S;
            int last = all.size() - 1;
            if (seenFromAbove && last >= 0 && all.get(last).toS > fault.atS()) {
                CloseUp before = all.get(last);
                all.set(last, new CloseUp(before.id, before.title + "; " + title, before.fromS, to));
            } else if (seenFromAbove && all.size() < MOST) {
                all.add(new CloseUp("near-" + (all.size() + 1), "Seen closer: " + title, from, to));
            }
        }
        return all;
    }

    /** An overshoot may be logged long after the line was crossed: the crossing belongs into the picture. */
    private static double beganS(DebriefedFlight flight, Fault fault) {
        if (fault.code() != FaultCode.OVERSHOOT) {
            return fault.atS();
        }
        // The first one: whoever is carried far may cross the line again on the way back.
        return flight.debrief().events().stream()
                .filter(FlightEvent.Overshoot.class::isInstance)
                .map(FlightEvent.Overshoot.class::cast)
                .filter(over -> over.timeS() == fault.atS()
                        && over.settledAfterS().isPresent()
                        && over.settledAfterS().getAsDouble() < LONGEST_S)
                .mapToDouble(over -> over.timeS() - over.settledAfterS().getAsDouble())
                .findFirst()
                .orElseGet(() -> lastCrossedS(flight, fault));
    }

    private static double lastCrossedS(DebriefedFlight flight, Fault fault) {
        return flight.debrief().events().stream()
                .filter(FlightEvent.CourseCrossed.class::isInstance)
                .mapToDouble(FlightEvent::timeS)
                .filter(atS -> atS <= fault.atS() && fault.atS() - atS < LONGEST_S)
                .max()
                .orElse(fault.atS());
    }

    void write(Markup out, DebriefedFlight flight, List<NumberedEvent> events) {
        List<Point> shown = flight.samples().stream()
                .filter(sample -> sample.timeS() >= fromS && sample.timeS() <= toS)
                .toList();
        if (shown.isEmpty()) {
            return;
        }
        new PlanView(flight, id, Optional.ofNullable(new StripValues(flight).route(toS)), shown, true)
                .write(
                        out,
                        events.stream()
                                .filter(event -> event.timeS() >= shown.get(0).timeS()
                                        && event.timeS()
                                                <= shown.get(shown.size() - 1).timeS())
                                .toList());
    }
}
