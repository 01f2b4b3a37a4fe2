package org.rejoin.bridge.tracker;

import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.route.AmendedRoute;

import org.jspecify.annotations.Nullable;

/**
 * How the cleared route ends: in a hold, on a heading or a radial from a fix, at a limit; or it does not end short of where
 * it was filed to. Begins where the last leg with a line is passed. A hold that is flown once on the way is watched here
 * too; from it the legs go on.
 */
final class RouteEndWatch {

    private final AmendedRoute route;
    private final Rules rules;
    private final int last;
    private final @Nullable HoldWatch hold;
    private final @Nullable OrderedTurn departTurn;
    private final @Nullable HeadingWatch departHeading;
    private @Nullable LimitWatch limit;
    private double furtherS = Double.NaN;
    private boolean departing;
    private boolean holdOver;
    private boolean ended;
    private boolean newPiece;

    RouteEndWatch(AmendedRoute route, Rules rules) {
        this.route = route;
        this.rules = rules;
        this.last = route.legs().size() - 1;
        this.hold = route.holding()
                .map(holding -> new HoldWatch(
                        holding,
                        route.situation().variationAt(holding.fix().position()).eastDeg(),
                        rules))
                .orElse(null);
        this.departTurn = OrderedTurn.atDeparture(route, rules);
        this.departHeading = route.departHeading()
                .map(heading -> new HeadingWatch(heading.deg(), departTurn, false, rules))
                .orElse(null);
    }

    /** A clearance may say when further clearance is expected, or until when to hold. */
    void further(AmendedRoute under, double issuedS) {
        OptionalDouble ahead = under.furtherClearanceS();
        if (ahead.isEmpty()) {
            return;
        }
        furtherS = issuedS + ahead.getAsDouble();
        if (hold != null) {
            hold.furtherAt(furtherS);
        }
        if (limit != null) {
            limit.furtherAt(furtherS);
        }
    }

    void step(@Nullable FlightInstant before, FlightInstant now, LegSequence legs, List<FlightEvent> events) {
        if (hold != null && !hold.begun()) {
            begin(now, legs, route.holdLeg() - 1, events);
        }
        if (!route.endsInHold() && !ended) {
            begin(now, legs, departHeading != null ? last - 1 : last, events);
        }
        if (hold != null && hold.begun()) {
            hold.step(now, events);
            if (hold.flownOnce() && !holdOver) {
                holdOver = true;
                legs.leaveHold(hold.fixS());
            }
        }
        if (departing && departHeading != null) {
            depart(before, now, departHeading, events);
        }
        if (limit != null) {
            limit.step(before, now, events);
        }
        newPiece = false;
    }

    /** Onto the heading from the fix, and along it. */
    private void depart(
            @Nullable FlightInstant before, FlightInstant now, HeadingWatch heading, List<FlightEvent> events) {
        OrderedTurn turn = departTurn;
        if (turn != null && !turn.begun()) {
            turn.beginAt(before, now, offCourseDeg(now));
        } else if (turn != null) {
            turn.step(before, now, events);
        }
        heading.step(now, null, false, Double.NaN, Double.NaN, events);
        if (turn != null && heading.established()) {
            turn.end();
        }
    }

    /** Off the course on which the fix is passed, degrees, right positive; 0 where no line led to it. */
    private double offCourseDeg(FlightInstant now) {
        return last < 1
                ? 0
                : route.legs()
                        .get(last - 1)
                        .groundPath()
                        .map(path ->
                                Angles.turn(now.trackDeg() - path.finalCourse().deg()))
                        .orElse(0.0);
    }

    /** Once a leg is passed, the one before the hold or before the end; -1 where that begins at once. */
    private void begin(FlightInstant now, LegSequence legs, int legBefore, List<FlightEvent> events) {
        boolean atOnce = legBefore < Math.max(0, route.courseLeg());
        double passedS = atOnce ? now.flownS() : legs.passedS(legBefore);
        boolean unseen = Double.isNaN(passedS)
                && newPiece
                && legs.active() == legBefore
                && legs.measure() != null
                && legs.toGoNm() < 0;
        if (Double.isNaN(passedS) && !unseen) {
            return;
        }
        if (hold != null && legBefore == route.holdLeg() - 1) {
            if (unseen) {
                hold.beginUnseen(now);
                legs.holdUnseen(now.timeS(), events);
            } else {
                hold.begin(now, passedS);
            }
            return;
        }
        ended = true;
        if (departHeading != null) {
            departing = true;
        } else {
            route.limit()
                    .ifPresent(fix -> limit = route.legs()
                            .get(last)
                            .groundPath()
                            .map(GroundPath::finalCourse)
                            .map(course -> new LimitWatch(fix, course, rules))
                            .orElse(null));
            if (limit != null) {
                limit.furtherAt(furtherS);
            }
        }
    }

    /** The hold; null where the route does not end in one. */
    @Nullable
    HoldWatch hold() {
        return hold;
    }

    /** The heading from the fix to depart, once that was passed; null before, and where there is none. */
    @Nullable
    HeadingWatch departing() {
        return departing ? departHeading : null;
    }

    /** Whether the fix to hold at was passed: from there on the heading assigned before is no more. */
    boolean holdBegun() {
        return hold != null && hold.begun();
    }

    /** Whether the aircraft is in the hold now. */
    boolean holds() {
        return hold != null && hold.holds();
    }

    /** Whether the aircraft is on the inbound course of the hold now. */
    boolean inbound() {
        return hold != null && hold.inbound();
    }

    /** Whether what is done at its end goes on until the next clearance: holding, or waiting at the limit. */
    boolean lasts() {
        return route.endsInHold() || route.limit().isPresent();
    }

    /** Whether an inbound leg of the hold should have been flown by now, or never will be. */
    boolean holdDue(FlightInstant now, Rule.Due due) {
        if (hold == null || !hold.begun()) {
            return false;
        }
        // On the way in he will be at the fix as soon as the wind lets him.
        return hold.missed()
                || (!hold.inbound()
                        && now.flownS() > hold.firstFixS() + due.times() * hold.circuitS(now) + due.plusS());
    }

    /** Whether the fix is left on its heading or radial. */
    boolean departed(LegSequence legs) {
        if (departHeading != null) {
            return departing && departHeading.established();
        }
        return route.departsOnRadial() && legs.active() == last && legs.onCourse();
    }

    /** Whether it should have been by now. */
    boolean departDue(FlightInstant now, LegSequence legs, Rule.Due due) {
        return now.flownS() > legs.passedS(last - 1) + due.afterS()
                && (departHeading == null || !departHeading.turnGoesOn(now));
    }

    /** Across a gap or a pause nothing is concluded. */
    void breakOff() {
        if (hold != null) {
            hold.breakOff();
        }
        if (departHeading != null) {
            departHeading.breakOff();
        }
        newPiece = true;
    }

    /** Over: by the next clearance or not. */
    void finish(boolean cleared, double timeS, List<FlightEvent> events) {
        if (cleared && hold != null) {
            hold.cleared(timeS, events);
        }
        if (departing && departHeading != null) {
            departHeading.finish(timeS, events);
        }
    }
}
