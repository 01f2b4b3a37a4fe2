package org.rejoin.bridge.tracker;

import java.util.List;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.TrueDirection;

import org.jspecify.annotations.Nullable;

/**
 * The clearance limit, once it was passed: whoever turns there and waits does what the book asks; whoever flies on leaves
 * the route.
 */
final class LimitWatch {

    private final Waypoint limit;
    private final TrueDirection course;
    private final Rule.ClearanceLimit rule;
    private final Once told = new Once();
    private final double earlyS;
    private double lastBeyondNm = Double.NaN;
    private double furtherS = Double.NaN;

    /** A limit that was passed. */
    LimitWatch(Waypoint limit, TrueDirection course, Rules rules) {
        this.limit = limit;
        this.course = course;
        this.rule = rules.of(Rule.ClearanceLimit.class);
        this.earlyS = rules.of(Rule.HoldLeft.class).earlyS();
    }

    /** Further clearance is expected then, flown seconds; NaN where nobody said. */
    void furtherAt(double flownS) {
        furtherS = flownS;
    }

    void step(@Nullable FlightInstant before, FlightInstant now, List<FlightEvent> events) {
        Geodesics.Inverse way = limit.position().to(now.position());
        double off = Angles.turn(way.initial().deg() - course.deg());
        double ahead = way.distanceNm() * Math.cos(Math.toRadians(off));
        double aside = way.distanceNm() * Math.sin(Math.toRadians(off));
        // Behind the limit, on the side that it is reached from, is where one waits.
        boolean waiting = ahead < -Math.abs(aside);
        double beyond = waiting ? Math.min(-1e-3, way.distanceNm() - rule.pastNm()) : way.distanceNm() - rule.pastNm();
        double beyondBefore = lastBeyondNm;
        lastBeyondNm = beyond;
        if (before == null || Double.isNaN(beyondBefore) || !told.when(beyond > 0)) {
            return;
        }
        double atS = Dwell.root(before.flownS(), beyondBefore, now.flownS(), beyond);
        double awayS = rule.pastNm() / Math.max(1, now.groundSpeedKt()) * 3600;
        if (atS - awayS >= furtherS - earlyS) {
            return;
        }
        events.add(new FlightEvent.RouteLeft(now.timeAt(atS), limit.ident(), aside, -ahead));
    }
}
