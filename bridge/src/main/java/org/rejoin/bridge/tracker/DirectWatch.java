package org.rejoin.bridge.tracker;

import java.util.List;

import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Rule;

import org.jspecify.annotations.Nullable;

/** A direct that is not taken up: long after it was due the aircraft is still beside the course to the fix. */
final class DirectWatch {

    private final Rule.Direct rule;
    private final Once told = new Once();
    private double dueS = Double.NaN;
    private double lastOff;

    DirectWatch(Rule.Direct rule) {
        this.rule = rule;
    }

    /**
     * Takes a step while the direct is not taken up.
     *
     * @param before start of the step, measured from the course to the fix; null across a break
     * @param now its end; the first is where the course begins
     * @param limitNm within which it is taken up
     */
    void step(
            @Nullable CourseMeasure before, CourseMeasure now, double limitNm, String ident, List<FlightEvent> events) {
        dueS = Double.isNaN(dueS) ? now.flownS() : dueS;
        double offBefore = lastOff;
        // Above zero once both time and distance are passed.
        double off = Math.min((now.flownS() - dueS) / rule.ignoredS(), Math.abs(now.crossTrackNm()) / limitNm) - 1;
        lastOff = off;
        if (before != null && told.when(off > 0)) {
            double atS = Dwell.root(before.flownS(), offBefore, now.flownS(), off);
            double cross = now.crossTrackAt(before, now.shareAt(before, atS));
            events.add(new FlightEvent.DirectNotTakenUp(now.timeAt(atS), ident, cross));
        }
    }
}
