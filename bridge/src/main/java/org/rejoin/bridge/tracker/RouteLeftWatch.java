package org.rejoin.bridge.tracker;

import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Rule;

import org.jspecify.annotations.Nullable;

/**
 * Leaving a leg of the cleared route before its end, once established on it. What happened in a gap is held against
 * nobody: only who is seen inside full scale can be seen to leave it.
 */
final class RouteLeftWatch {

    private final Rule.RouteLeft rule;
    private final Dwell turnedOff;
    private final Once told = new Once();
    /** NaN where it was not seen. */
    private double lastOutside = Double.NaN;

    private boolean seenInside;

    RouteLeftWatch(Rule.RouteLeft rule) {
        this.rule = rule;
        this.turnedOff = new Dwell(rule.turnedS());
    }

    /**
     * Takes a step.
     *
     * @param before start of the step, measured from the leg; null where it was not, and across a break
     * @param toGoNm along it to its end
     * @param leadNm of the turn at its end
     * @param established whether the aircraft has been established on it
     */
    void step(
            @Nullable CourseMeasure before,
            CourseMeasure now,
            double toGoNm,
            double leadNm,
            double fullScaleNm,
            boolean established,
            String ident,
            List<FlightEvent> events) {
        double limitNm = rule.ofScale() * fullScaleNm;
        double outside = Math.abs(now.crossTrackNm()) - limitNm;
        double outsideBefore = lastOutside;
        lastOutside = outside;
        boolean turnDue = toGoNm <= leadNm + rule.marginNm();
        // Still along it nobody turns: who passes its end farther off than the scale was not on it there.
        boolean along = toGoNm > 0 && Math.abs(now.meanTrackErrorDeg()) <= rule.alongDeg();
        if (!established || (turnDue && !along)) {
            turnedOff.reset();
            seenInside = false;
            return;
        }
        seenInside |= outside <= 0;
        if (before == null || Double.isNaN(outsideBefore) || told.done()) {
            return;
        }
        OptionalDouble turned = turnDue
                ? OptionalDouble.empty()
                : turnedOff.step(before.flownS(), offBy(before), now.flownS(), offBy(now));
        double atS = Double.NaN;
        if (seenInside && outside > 0) {
            atS = Dwell.root(before.flownS(), outsideBefore, now.flownS(), outside);
        } else if (turned.isPresent()) {
            atS = turned.getAsDouble();
        }
        if (told.when(!Double.isNaN(atS))) {
            double cross = now.crossTrackAt(before, now.shareAt(before, atS));
            events.add(new FlightEvent.RouteLeft(now.timeAt(atS), ident, cross, toGoNm));
        }
    }

    /** The turn at its end was made in this step, and no line follows: too far short of it, it was made off the route. */
    void turnedAtItsEnd(
            CourseMeasure before,
            CourseMeasure now,
            double turnedS,
            double lengthNm,
            String ident,
            List<FlightEvent> events) {
        double share = now.shareAt(before, turnedS);
        double toGoNm = lengthNm - now.alongAt(before, share);
        if (told.when(toGoNm > rule.marginNm())) {
            events.add(new FlightEvent.RouteLeft(now.timeAt(turnedS), ident, now.crossTrackAt(before, share), toGoNm));
        }
    }

    /** Zero or less while turned off the leg and away from it: back toward it is a correction. */
    private double offBy(CourseMeasure m) {
        double towardNm = -m.crossTrackNm() * Math.signum(m.meanTrackErrorDeg());
        return Math.max(1 - Math.abs(m.meanTrackErrorDeg()) / rule.turnedDeg(), towardNm / rule.backNm() - 1);
    }

    void breakOff() {
        seenInside = false;
        turnedOff.reset();
    }
}
