package org.rejoin.bridge.tracker;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Instruction.Until;
import org.rejoin.bridge.clearance.When;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.SlantRange;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.ChangeOvers;

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
    private final When when;
    private final String words;
    private final @Nullable AmendedRoute route;
    private final double dueS;
    private final SignChange passing = new SignChange();
    private @Nullable FlightInstant last;
    private State state = State.AHEAD;
    private boolean overFix;
    private double passedS = Double.NaN;

    /**
     * Watches from now on.
     *
     * @param when it gives way
     * @param route on which it is flown; null for the filed one
     * @param issuedS when it was said, flown seconds
     * @param rule in force
     */
    ChangeOverWatch(When when, @Nullable AmendedRoute route, double issuedS, Rule.ChangeOver rule) {
        this.rule = rule;
        this.when = when;
        this.words = when.passed();
        this.route = route;
        this.dueS = when instanceof When.AtTime at && route != null
                ? issuedS + route.situation().secondsUntil(at.time()).orElse(Double.NaN)
                : Double.NaN;
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
        return when instanceof When.Established
                || when instanceof When.Near
                || (when instanceof When.AtLine at
                        && at.line().<Boolean>fold(radial -> false, distance -> false, fix -> true, airway -> true));
    }

    /**
     * Takes a step.
     *
     * @param now its end
     * @param legs of the route; null where none is flown
     * @param events of this step so far
     * @return how it stands now; once passed or lost it stays so
     */
    State step(FlightInstant now, @Nullable LegSequence legs, List<FlightEvent> events) {
        if (state == State.PASSED || state == State.LOST) {
            return state;
        }
        if (when instanceof When.Established established) {
            onLine(established.line(), now, legs, events);
        } else if (when instanceof When.AtLine at) {
            at.line()
                    .<Runnable>fold(
                            radial -> () -> crossing(now, this::offRadialNm),
                            distance -> () -> crossing(now, each -> outsideNm(distance, each)),
                            fix -> () -> overFix(fix.fix(), now, legs, events),
                            airway -> () -> onLine(Optional.of(airway), now, legs, events))
                    .run();
        } else if (when instanceof When.Near near) {
            near(near, now, legs, events);
        } else if (when instanceof When.AtTime) {
            mayBe(now.flownS() >= dueS - rule.aroundS());
            passed(now.flownS() >= dueS, dueS);
        } else if (when instanceof When.AtLevel level) {
            FlightInstant before = last;
            double above = now.altitudeFt() - level.feet();
            mayBe(Math.abs(above) <= rule.aroundFt());
            crossed(passing.step(
                    before == null ? now.flownS() : before.flownS(),
                    before == null ? above : before.altitudeFt() - level.feet(),
                    now.flownS(),
                    above));
        }
        last = now;
        return state;
    }

    /** Across a gap or a pause nothing is interpolated. */
    void breakOff() {
        last = null;
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

    private void crossed(OptionalDouble atS) {
        passed(atS.isPresent(), atS.orElse(Double.NaN));
    }

    private double nearNm(FlightInstant now) {
        return Math.max(rule.aroundNm(), now.groundSpeedKt() / 3600 * rule.aroundS());
    }

    /** Established on a leg of the line, or beyond it. */
    private void onLine(Optional<Until> line, FlightInstant now, @Nullable LegSequence legs, List<FlightEvent> events) {
        AmendedRoute flown = route;
        if (flown == null || legs == null) {
            return;
        }
        List<Integer> on = ChangeOvers.onLegs(line, flown.legs(), flown.courseLeg());
        if (on.isEmpty()) {
            state = State.LOST;
            return;
        }
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

    private void overFix(Waypoint fix, FlightInstant now, @Nullable LegSequence legs, List<FlightEvent> events) {
        for (FlightEvent event : events) {
            if (event instanceof FlightEvent.FixSequenced sequenced
                    && sequenced.ident().equals(fix.ident())) {
                passed(true, sequenced.timeS() - (now.timeS() - now.flownS()));
                return;
            }
        }
        AmendedRoute flown = route;
        if (last == null && flown != null && legs != null) {
            int leg = ChangeOvers.legTo(fix, flown.legs());
            if (leg >= 0 && legs.active() > leg) {
                state = State.LOST;
                return;
            }
        }
        double distanceNm = fix.position().distanceNm(now.position());
        mayBe(distanceNm <= nearNm(now));
        double ahead = Math.cos(Math.toRadians(Angles.turn(bearingDeg(now, fix) - now.trackDeg())));
        FlightInstant before = last;
        double aheadBefore = before == null
                ? ahead
                : Math.cos(Math.toRadians(Angles.turn(bearingDeg(before, fix) - before.trackDeg())));
        OptionalDouble abeam =
                passing.step(before == null ? now.flownS() : before.flownS(), aheadBefore, now.flownS(), ahead);
        if (abeam.isPresent() && ahead < 0) {
            mayBe(distanceNm <= rule.besideNm());
            if (distanceNm <= rule.aroundNm()) {
                crossed(abeam);
            }
        }
    }

    private static double bearingDeg(FlightInstant now, Waypoint fix) {
        return now.position().to(fix.position()).initial().deg();
    }

    private void near(When.Near near, FlightInstant now, @Nullable LegSequence legs, List<FlightEvent> events) {
        double rangeNm = near.fix().position().distanceNm(now.position());
        if (near.before()) {
            mayBe(rangeNm - near.distanceNm() <= nearNm(now));
            passed(rangeNm <= near.distanceNm(), atRange(near, now, rangeNm));
            return;
        }
        AmendedRoute flown = route;
        overFix |= last == null
                && flown != null
                && legs != null
                && legs.active() > ChangeOvers.legTo(near.fix(), flown.legs());
        if (!overFix) {
            overFix(near.fix(), now, legs, events);
            overFix = state == State.PASSED;
            state = state == State.LOST ? State.LOST : State.AHEAD;
            return;
        }
        mayBe(near.distanceNm() - rangeNm <= nearNm(now));
        passed(rangeNm >= near.distanceNm(), atRange(near, now, rangeNm));
    }

    private double atRange(When.Near near, FlightInstant now, double rangeNm) {
        FlightInstant before = last;
        double beforeNm = before == null ? rangeNm : near.fix().position().distanceNm(before.position());
        boolean between = before != null && (beforeNm - near.distanceNm()) * (rangeNm - near.distanceNm()) < 0;
        return before == null || !between
                ? now.flownS()
                : Dwell.root(before.flownS(), beforeNm - near.distanceNm(), now.flownS(), rangeNm - near.distanceNm());
    }

    /** A line that is crossed, by the distance from it. */
    private void crossing(FlightInstant now, ToDoubleFunction<FlightInstant> offNm) {
        double off = offNm.applyAsDouble(now);
        FlightInstant before = last;
        if (Double.isNaN(off)) {
            return;
        }
        double offBefore = before == null ? off : offNm.applyAsDouble(before);
        mayBe(Math.abs(off) <= nearNm(now));
        crossed(passing.step(
                before == null ? now.flownS() : before.flownS(),
                Double.isNaN(offBefore) ? off : offBefore,
                now.flownS(),
                off));
    }

    /** Right of a radial positive; not a number on the other side of its station. */
    private double offRadialNm(FlightInstant now) {
        Until.AtRadial radial = (Until.AtRadial) ((When.AtLine) when).line();
        TrueDirection line =
                radial.radial().toTrue(radial.station().declination().orElseThrow());
        var way = radial.station().position().to(now.position());
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
