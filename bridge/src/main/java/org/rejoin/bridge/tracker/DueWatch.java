package org.rejoin.bridge.tracker;

import java.util.List;

import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Leg;

import org.jspecify.annotations.Nullable;

/** Whether what an amendment asks for should have been done by now: an end that comes sooner is nobody's fault. */
final class DueWatch {

    /** Slower than this no time is predicted from a distance, knots; common practice, no source. */
    private static final double LEAST_KT = 30;

    private final AmendedRoute route;
    private final Rule.Due rule;
    private final Rule.Established joined;
    private final double reactionS;
    private double issuedS = Double.NaN;
    private double toTurnDeg = Double.NaN;

    private final @Nullable OrderedTurn ordered;

    DueWatch(AmendedRoute route, Rules rules, double reactionS, @Nullable OrderedTurn ordered) {
        this.ordered = ordered;
        this.route = route;
        this.rule = rules.of(Rule.Due.class);
        this.joined = rules.of(Rule.Established.class);
        this.reactionS = reactionS;
    }

    void step(FlightInstant now) {
        if (Double.isNaN(issuedS)) {
            issuedS = now.flownS();
            toTurnDeg = ordered != null
                    ? ordered.roundDeg()
                    : route.heading()
                            .map(plan -> Math.abs(plan.ground().track().turnTo(new TrueDirection(now.trackDeg()))))
                            .orElse(0.0);
        }
    }

    /**
     * Whether what is open is due; {@code otherCourse} tells whether another course was tracked in place of the cleared
     * one.
     */
    boolean due(
            Achievement.Open open,
            FlightInstant now,
            LegSequence legs,
            @Nullable HeadingWatch heading,
            @Nullable AssignedWatch awaited,
            boolean otherCourse,
            RouteEndWatch end) {
        return switch (open) {
            case NOTHING, CROSSING -> false;
            case ALTITUDE, IN_TURN -> awaited != null && awaited.due(now);
            case HEADING -> heading != null && heading.due(now);
            case INTERCEPT ->
                otherCourse
                        || now.flownS() > legs.crossedS() + rule.afterS()
                        || now.flownS() > legs.passedS(legs.interceptLeg()) + rule.afterS()
                        || legs.passedOutside()
                        || late(now, interceptS(now));
            case AIRWAY ->
                (passed(now, legs, route.joinLegs().get(0)) && !joins(now, legs))
                        || late(now, toLegS(now, route.joinLegs().get(0), end));
            case FILED_ROUTE ->
                (passed(now, legs, route.resumesAt()) && !joins(now, legs))
                        || late(now, toLegS(now, route.resumesAt(), end));
            case ONWARD -> {
                int last = route.legs().size() - 1;
                yield (passed(now, legs, last) && !joins(now, legs)) || late(now, toLegS(now, last, end));
            }
            case DEPART ->
                end.departDue(now, legs, rule)
                        || late(now, toLegS(now, route.legs().size() - 1, end));
            case HOLD ->
                end.holdDue(now, rule) || late(now, toLegS(now, route.legs().size() - 1, end));
        };
    }

    private boolean passed(FlightInstant now, LegSequence legs, int leg) {
        return now.flownS() > legs.passedS(leg - 1) + rule.afterS();
    }

    /** Whether he is on the line and only not long enough, or would be on it before as much time has gone by again. */
    private boolean joins(FlightInstant now, LegSequence legs) {
        CourseMeasure here = legs.measure();
        if (here == null) {
            return false;
        }
        double towardDeg = here.towardDeg();
        double offNm = Math.abs(here.crossTrackNm());
        double inTimeNm = now.groundSpeedKt() / 3600 * rule.afterS() * Math.sin(Math.toRadians(towardDeg));
        boolean closing = towardDeg > joined.alongDeg() && towardDeg <= 90 && offNm <= inTimeNm;
        boolean on = offNm <= joined.ofScale() * legs.fullScaleNm(now)
                && Math.abs(here.trackErrorDeg()) <= joined.alongDeg();
        return closing || on;
    }

    private boolean late(FlightInstant now, double predictedS) {
        return now.flownS() > issuedS + rule.times() * predictedS + rule.plusS();
    }

    private double interceptS(FlightInstant now) {
        double turnS = reactionS + Turn.standardTurnS(now.groundSpeedKt(), toTurnDeg);
        double nm = route.intercept()
                .map(met -> met.distanceNm())
                .orElseGet(() -> route.courseLeg() < 0
                        ? 0
                        : route.legs()
                                .get(route.courseLeg())
                                .groundPath()
                                .map(line -> route.situation().position().distanceNm(line.start()))
                                .orElse(0.0));
        return turnS + nm / Math.max(LEAST_KT, now.groundSpeedKt()) * 3600;
    }

    /** Along the legs before it, from the intercept on; through a hold that is flown once on the way. */
    private double toLegS(FlightInstant now, int leg, RouteEndWatch end) {
        List<Leg> legs = route.legs();
        double nm = 0;
        for (int i = Math.max(0, route.courseLeg()); i < leg; i++) {
            nm += legs.get(i).groundPath().map(line -> line.lengthNm()).orElse(0.0);
        }
        HoldWatch hold = end.hold();
        double holdS = hold != null && route.holdLeg() >= 0 && route.holdLeg() < leg ? hold.circuitS(now) : 0;
        return interceptS(now) + holdS + nm / Math.max(LEAST_KT, now.groundSpeedKt()) * 3600;
    }
}
