package org.rejoin.bridge.tracker;

import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Instruction.Until;
import org.rejoin.bridge.clearance.When;
import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.SlantRange;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.ChangeOvers;
import org.rejoin.bridge.route.CrossingPlan;

import org.jspecify.annotations.Nullable;

/**
 * Where or when one assigned altitude or speed gives way to the next. A pilot may find himself there a little before or
 * after it is seen from outside: while it is near, neither is judged.
 */
final class ChangeOverWatch {

    /** How it stands. */
    enum State {
        /** Still to come. */
        AHEAD,
        /** So near that the pilot may take it for passed. */
        NEAR,
        /** Passed. */
        PASSED,
        /** Behind, and never passed: it cannot be told any more. */
        LOST
    }

    private final Rule.ChangeOver rule;
    private final String words;
    private final @Nullable AmendedRoute route;
    private final boolean ofRoute;
    private final Step step;
    private final SignChange passing = new SignChange();
    /** Whether it was looked at since it began, or since a break. */
    private boolean begun;

    private State state = State.AHEAD;
    private @Nullable LegSequence numbered;
    private List<Integer> on = List.of();
    private boolean overFix;
    private boolean seenAhead;
    private double passedS = Double.NaN;

    /** What is done with a step while it is watched for. */
    private interface Step {
        void take(
                @Nullable FlightInstant before,
                FlightInstant now,
                @Nullable LegSequence legs,
                List<FlightEvent> events);
    }

    /** Knows how far an altitude or a speed is that is said before "then". */
    interface Before {
        /**
         * When it was reached or should have been, flown seconds; infinite while it is to come; NaN where nobody can
         * tell.
         */
        double reachedS(When.Reached said, FlightInstant now);
    }

    /**
     * Watches from now on, on a route or, without one, on the filed one; {@code first} is asked for what is said before
     * "then".
     */
    ChangeOverWatch(When when, @Nullable AmendedRoute route, double issuedS, Rule.ChangeOver rule, Before first) {
        this.rule = rule;
        this.words = when.passed();
        this.route = route;
        this.ofRoute = when.fold(new When.Cases<Boolean>(
                at -> at.line().<Boolean>fold(radial -> false, distance -> false, fix -> true, airway -> true),
                near -> true,
                time -> false,
                level -> false,
                established -> true,
                advised -> false,
                beside -> true,
                reached -> true));
        this.step = when.fold(new When.Cases<Step>(
                at -> at.line()
                        .<Step>fold(
                                radial -> crossing(each -> offRadialNm(radial, each), this::nearNm),
                                distance -> crossing(each -> outsideNm(distance, each), this::nearNm),
                                fix -> (before, now, legs, events) -> overFix(fix.fix(), before, now, legs, events),
                                airway -> onLine(Optional.of(airway))),
                near -> (before, now, legs, events) -> near(near, before, now, legs, events),
                at -> atTime(
                        route == null
                                ? Double.NaN
                                : issuedS
                                        + route.situation()
                                                .secondsUntil(at.time())
                                                .orElse(Double.NaN)),
                level -> crossing(each -> each.altitudeFt() - level.feet(), each -> rule.aroundFt()),
                established -> onLine(established.line()),
                advised -> (before, now, legs, events) -> {},
                this::beside,
                reached -> (before, now, legs, events) -> reached(first.reachedS(reached, now), now)));
    }

    private void reached(double atS, FlightInstant now) {
        if (Double.isNaN(atS)) {
            state = State.LOST;
        } else {
            passed(atS <= now.flownS(), atS);
        }
    }

    /** Abeam the place of the crossing. */
    private Step beside(When.Beside beside) {
        Optional<CrossingPlan> plan = Optional.ofNullable(route)
                .flatMap(flown -> flown.crossings().stream()
                        .filter(each -> each.said().fix().equals(beside.fix())
                                && each.said().before().equals(Optional.of(beside.away())))
                        .findFirst());
        return (before, now, legs, events) -> {
            if (plan.isPresent()) {
                abeam(plan.get().position(), before, now);
            } else {
                state = State.LOST;
            }
        };
    }

    /** What is passed there, in words. */
    String words() {
        return words;
    }

    /** When it was passed, flown seconds. */
    double passedS() {
        return passedS;
    }

    /** Whether the clearance is not flown to its end before: a place of its route. */
    boolean isOfRoute() {
        return ofRoute;
    }

    /**
     * Takes a step, and says how it stands now; once passed or lost it stays so. The first says where the aircraft is,
     * and no more: nothing is interpolated across it.
     */
    State step(
            @Nullable FlightInstant before, FlightInstant now, @Nullable LegSequence legs, List<FlightEvent> events) {
        if (state != State.PASSED && state != State.LOST) {
            step.take(begun ? before : null, now, legs, events);
            begun = true;
        }
        return state;
    }

    /** Across a gap or a pause nothing is interpolated. */
    void breakOff() {
        begun = false;
    }

    private void mayBe(boolean near) {
        if (near && state == State.AHEAD) {
            state = State.NEAR;
        }
    }

    private void passed(boolean past, double atS) {
        if (past) {
            state = State.PASSED;
            passedS = atS;
        }
    }

    private Step atTime(double dueS) {
        return (before, now, legs, events) -> {
            mayBe(now.flownS() >= dueS - rule.aroundS());
            passed(now.flownS() >= dueS, dueS);
        };
    }

    private double nearNm(FlightInstant now) {
        return Math.max(rule.aroundNm(), now.groundSpeedKt() / 3600 * rule.aroundS());
    }

    /** Established on a leg of the line, or beyond it. */
    private Step onLine(Optional<Until> line) {
        return (before, now, legs, events) -> {
            if (legs == null) {
                return;
            }
            if (legs != numbered) {
                // A later clearance may have changed the route, and with it the numbers of its legs.
                numbered = legs;
                on = ChangeOvers.onLegs(line, legs.route().legs(), legs.route().courseLeg());
            }
            if (on.isEmpty()) {
                state = State.LOST;
            } else {
                onLine(on, now, legs, events);
            }
        };
    }

    private void onLine(List<Integer> on, FlightInstant now, LegSequence legs, List<FlightEvent> events) {
        boolean here = on.contains(legs.active());
        CourseMeasure measure = legs.measure();
        mayBe(here
                && measure != null
                && Math.abs(measure.crossTrackNm()) <= legs.fullScaleNm(now) * rule.scaleShare()
                && Math.abs(measure.trackErrorDeg()) <= rule.alongDeg());
        boolean beyond = legs.active() > on.get(on.size() - 1);
        passed(beyond || (here && legs.onCourse()), now.flownS());
        if (state == State.PASSED) {
            double shiftS = now.timeS() - now.flownS();
            events.stream()
                    .filter(event ->
                            event instanceof FlightEvent.InterceptAchieved || event instanceof FlightEvent.AirwayJoined)
                    .mapToDouble(event -> event.timeS() - shiftS)
                    .max()
                    .ifPresent(atS -> passedS = atS);
        }
    }

    private void overFix(
            Waypoint fix,
            @Nullable FlightInstant before,
            FlightInstant now,
            @Nullable LegSequence legs,
            List<FlightEvent> events) {
        for (FlightEvent event : events) {
            if (event instanceof FlightEvent.FixSequenced sequenced
                    && sequenced.ident().equals(fix.ident())) {
                passed(true, sequenced.timeS() - (now.timeS() - now.flownS()));
                return;
            }
        }
        if (legs != null) {
            int leg = ChangeOvers.legTo(fix, legs.route().legs());
            boolean behind = leg >= 0 && legs.active() > leg;
            if (!begun && behind) {
                // Seen before it and now beyond it: it was passed meanwhile.
                state = seenAhead ? State.PASSED : State.LOST;
                passedS = now.flownS();
                return;
            }
            seenAhead |= !behind;
        }
        abeam(fix.position(), before, now);
    }

    private void abeam(Position place, @Nullable FlightInstant before, FlightInstant now) {
        Geodesics.Inverse way = now.position().to(place);
        mayBe(way.distanceNm() <= nearNm(now));
        double ahead = aheadOf(now, way.initial());
        if (passing.begin(ahead) && ahead < 0) {
            mayBe(way.distanceNm() <= rule.besideNm());
            if (way.distanceNm() <= rule.aroundNm()) {
                FlightInstant from = before == null ? now : before;
                double aheadBefore = aheadOf(from, from.position().to(place).initial());
                passed(true, Dwell.root(from.flownS(), aheadBefore, now.flownS(), ahead));
            }
        }
    }

    /** Above zero while a place lies ahead of the aircraft. */
    private static double aheadOf(FlightInstant here, TrueDirection bearing) {
        return Math.cos(Math.toRadians(Angles.turn(bearing.deg() - here.trackDeg())));
    }

    private void near(
            When.Near near,
            @Nullable FlightInstant before,
            FlightInstant now,
            @Nullable LegSequence legs,
            List<FlightEvent> events) {
        if (near.before()) {
            double rangeNm = near.fix().position().distanceNm(now.position());
            mayBe(rangeNm - near.distanceNm() <= nearNm(now));
            atRange(near, before, now, rangeNm, rangeNm <= near.distanceNm());
            return;
        }
        overFix |= !begun
                && legs != null
                && legs.active() > ChangeOvers.legTo(near.fix(), legs.route().legs());
        if (!overFix) {
            overFix(near.fix(), before, now, legs, events);
            overFix = state == State.PASSED;
            state = state == State.LOST ? State.LOST : State.AHEAD;
            return;
        }
        double rangeNm = near.fix().position().distanceNm(now.position());
        mayBe(near.distanceNm() - rangeNm <= nearNm(now));
        atRange(near, before, now, rangeNm, rangeNm >= near.distanceNm());
    }

    private void atRange(
            When.Near near, @Nullable FlightInstant before, FlightInstant now, double rangeNm, boolean past) {
        if (!past) {
            return;
        }
        double beforeNm = before == null ? rangeNm : near.fix().position().distanceNm(before.position());
        boolean between = before != null && (beforeNm - near.distanceNm()) * (rangeNm - near.distanceNm()) < 0;
        passed(
                true,
                before == null || !between
                        ? now.flownS()
                        : Dwell.root(
                                before.flownS(),
                                beforeNm - near.distanceNm(),
                                now.flownS(),
                                rangeNm - near.distanceNm()));
    }

    /** A line or an altitude that is crossed, by how far off it the aircraft is. */
    private Step crossing(ToDoubleFunction<FlightInstant> off, ToDoubleFunction<FlightInstant> near) {
        return (before, now, legs, events) -> crossing(before, now, off, near.applyAsDouble(now));
    }

    private void crossing(
            @Nullable FlightInstant before, FlightInstant now, ToDoubleFunction<FlightInstant> off, double near) {
        double here = off.applyAsDouble(now);
        if (Double.isNaN(here)) {
            return;
        }
        mayBe(Math.abs(here) <= near);
        if (passing.begin(here)) {
            FlightInstant from = before == null ? now : before;
            double there = off.applyAsDouble(from);
            passed(true, Dwell.root(from.flownS(), Double.isNaN(there) ? here : there, now.flownS(), here));
        }
    }

    /** Right of a radial positive; not a number on the other side of its station. */
    private static double offRadialNm(Until.AtRadial radial, FlightInstant now) {
        TrueDirection line =
                radial.radial().toTrue(radial.station().declination().orElseThrow());
        Geodesics.Inverse way = radial.station().position().to(now.position());
        double angle = Angles.turn(way.initial().deg() - line.deg());
        return Math.abs(angle) > 90 ? Double.NaN : way.distanceNm() * Math.sin(Math.toRadians(angle));
    }

    /** By the DME: the straight line, where the altitude is known. */
    private static double outsideNm(Until.AtDistance distance, FlightInstant now) {
        Station station = distance.station();
        double groundNm = station.position().distanceNm(now.position());
        double shownNm = Double.isNaN(now.altitudeFt())
                ? groundNm
                : SlantRange.slantNm(groundNm, now.altitudeFt() - station.elevationFt());
        return shownNm - distance.distanceNm();
    }
}
