package org.rejoin.bridge.tracker;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.CrossingPlan;

import org.jspecify.annotations.Nullable;

/** One amendment being flown: its legs, what was assigned with it, and what of all that has been done. */
final class AmendmentWatch {

    /** How an amendment comes to its end. */
    enum End {
        /** The next clearance. */
        REPLACED,
        /** Taken back. */
        CANCELLED,
        /** The flight or the attempt is over. */
        OVER
    }

    private final AmendedRoute route;
    private final Achievement done;
    private final LegSequence legs;
    private final @Nullable OrderedTurn ordered;
    private final @Nullable HeadingWatch heading;
    private final Assignments assigned;
    private final @Nullable OtherCourseWatch otherCourse;
    private final RouteEndWatch routeEnd;
    private final List<CrossingWatch> crossings = new ArrayList<>();
    private final double reachNm;
    private final double issuedS;
    private final double reactionS;
    private final DueWatch due;
    private final Rule.GradedPart gradedPart;
    private final Once gradedPartEnded = new Once();

    /** Whether the end of the course was seen to be ahead: it may be passed too far beside it to be sequenced. */
    private boolean endAhead;

    /** Whether another amendment stands in its place, and altitudes and speeds are those of that one. */
    private boolean aside;

    AmendmentWatch(
            AmendedRoute route,
            Assignments assigned,
            List<NearStation> stations,
            List<NearAirway> airways,
            Limits limits,
            Rules rules,
            boolean asBefore,
            @Nullable HeadingWatch turnBefore,
            boolean cameHere,
            double issuedS) {
        this.route = route;
        this.issuedS = issuedS;
        this.reactionS = rules.of(Rule.Heading.class).reactionS();
        this.done = new Achievement(route, rules.of(Rule.Due.class).afterS());
        // Which way was ordered from where it was said first, not from here.
        this.ordered = asBefore ? null : OrderedTurn.of(route, turnBefore, rules);
        this.legs = new LegSequence(route, limits, rules, done, ordered, cameHere);
        this.heading = route.assignedHeading()
                .map(plan -> new HeadingWatch(plan.magnetic().deg(), ordered, turnBefore != null, rules))
                .orElse(null);
        this.assigned = assigned;
        Course course = route.trackedCourse().orElse(null);
        this.otherCourse = course == null && airways.isEmpty()
                ? null
                : new OtherCourseWatch(course, route, stations, airways, limits, rules.of(Rule.OtherCourse.class));
        this.routeEnd = new RouteEndWatch(route, rules);
        routeEnd.further(route, issuedS);
        this.reachNm = rules.of(Rule.FixSequenced.class).reachNm();
        route.crossings().forEach(this::watch);
        this.due = new DueWatch(route, rules, reactionS, ordered);
        this.gradedPart = rules.of(Rule.GradedPart.class);
    }

    boolean complete() {
        return done.over();
    }

    /** The assigned heading; null where none is. */
    @Nullable
    HeadingWatch heading() {
        return heading;
    }

    /** Whether all of it is done, or due and not done, and nothing of it goes on until ATC says more. */
    boolean flownToItsEnd() {
        return done.over() && !routeEnd.lasts() && route.resumesAt() >= 0;
    }

    /** Whether the aircraft is established now. */
    boolean holding() {
        return legs.holding() || routeEnd.inbound();
    }

    /** Takes a step. */
    void step(@Nullable FlightInstant before, FlightInstant now, List<FlightEvent> events) {
        if (ordered != null) {
            ordered.step(before, now, events);
        }
        boolean flying = heading != null && heading.flying(now);
        legs.step(before, now, flying, heading != null && heading.turningTo(now), events);
        boolean met = metOnHeading(now);
        if (heading != null && !routeEnd.holdBegun()) {
            heading.step(now, legs.measure(), met, legs.toTurnDeg(), legs.fullScaleNm(now), events);
        }
        if (ordered != null && (met || (heading != null && heading.established()))) {
            ordered.end();
        }
        int leg = legs.interceptLeg();
        endAhead |= legs.toGoNm() > 0;
        boolean endPassed = !Double.isNaN(legs.passedS(leg)) || (endAhead && legs.toGoNm() <= 0);
        boolean courseAhead = legs.active() == leg && !endPassed;
        if (otherCourse != null && courseAhead) {
            otherCourse.step(before, now, events);
        }
        routeEnd.step(before, now, legs, events);
        crossings(before, now, events);
        if (!aside) {
            assigned.changeOver(before, now, legs, events);
        }
        done.crossingAhead(crossingAhead() || assigned.goOn());
        done.step(before, now, heading, assigned, routeEnd, legs, events);
        due.step(now);
        gradedPart(before, now, events);
    }

    /** Whether the line was met; over it before he has reacted, the heading is still to be flown. */
    private boolean metOnHeading(FlightInstant now) {
        boolean tooSoon =
                legs.crossedS() <= issuedS + reactionS && !legs.onCourse() && heading != null && heading.turningTo(now);
        return legs.turnedOnto() && !tooSoon;
    }

    private void crossings(@Nullable FlightInstant before, FlightInstant now, List<FlightEvent> events) {
        // Most have none: no iterator is made for them.
        for (int i = 0; i < crossings.size(); i++) {
            CrossingWatch crossing = crossings.get(i);
            boolean passed = crossing.passed();
            crossing.step(before, now, legs.active(), events);
            if (!passed && crossing.passed() && !aside) {
                assigned.crossed(crossing.said(), now.flownS());
            }
        }
        if (!aside) {
            assigned.restrictedBy(crossings, now, events);
        }
    }

    /**
     * A further clearance that leaves the route as it is may ask for further crossings of it, or for one no more, and name
     * another time.
     */
    void further(AmendedRoute under, double issuedS) {
        routeEnd.further(under, issuedS);
        crossings.removeIf(crossing -> under.crossings().stream().noneMatch(crossing::sameAs));
        for (CrossingPlan plan : under.crossings()) {
            crossings.removeIf(crossing -> crossing.sameAs(plan));
            watch(plan);
        }
    }

    /** What was asked for further was taken back: only the crossings of what stands are to be made, passed or not. */
    void under(AmendedRoute stands, double issuedS) {
        routeEnd.further(stands, issuedS);
        crossings.removeIf(crossing -> stands.crossings().stream().noneMatch(crossing::isOf));
        for (CrossingPlan plan : stands.crossings()) {
            if (crossings.stream().noneMatch(crossing -> crossing.isOf(plan))) {
                watch(plan);
            }
        }
    }

    private void watch(CrossingPlan plan) {
        if (plan.leg() >= 0 && plan.leg() < route.legs().size()) {
            crossings.add(new CrossingWatch(plan, route.legs().get(plan.leg()), reachNm));
        }
    }

    /** Whether an altitude is still to be had somewhere ahead. */
    private boolean crossingAhead() {
        return !crossings.isEmpty() && crossings.stream().anyMatch(crossing -> !crossing.passed());
    }

    private void gradedPart(@Nullable FlightInstant before, FlightInstant now, List<FlightEvent> events) {
        double endS = done.overTimeS() + gradedPart.afterS();
        boolean over = now.timeS() >= endS
                && !routeEnd.lasts()
                && !done.awaits(assigned)
                && !assigned.justReached(now, gradedPart.judgedS())
                && (route.courseLeg() < 0 || legs.courseLegOver());
        if (gradedPartEnded.when(over)) {
            boolean here = before == null || endS > before.timeS();
            events.add(new FlightEvent.GradedPartEnded(here ? endS : now.timeS()));
        }
    }

    private String missing() {
        return done.missing(heading, assigned, otherCourse == null ? Optional.empty() : otherCourse.instead());
    }

    Point point(FlightInstant now, boolean newPiece) {
        CourseMeasure here = legs.measure();
        HeadingWatch flownHeading =
                routeEnd.departing() != null ? routeEnd.departing() : routeEnd.holdBegun() ? null : heading;
        Point.Phase phase = routeEnd.holds()
                ? Point.Phase.HOLDING
                : done.over()
                        ? Point.Phase.COMPLETE
                        : legs.active() > route.courseLeg()
                                ? Point.Phase.JOINING
                                : legs.onCourse() ? Point.Phase.ON_COURSE : Point.Phase.CLOSING;
        return new Point(
                now,
                here,
                phase,
                legs.active(),
                legs.toGoNm(),
                here == null ? Double.NaN : legs.fullScaleNm(now),
                flownHeading == null ? Double.NaN : flownHeading.errorNow(),
                assigned.altitudeErrorFt(),
                assigned.speedErrorKt(),
                legs.direct(),
                legs.onCourse(),
                newPiece);
    }

    /**
     * The next clearance is issued, and may be taken back before anybody has to act on it: this one is watched on until then.
     * What was carried past the line so far is told.
     *
     * @return false for a hold that is flown: it is left with the next clearance
     */
    boolean setAside(@Nullable FlightInstant here, double timeS, List<FlightEvent> events) {
        if (routeEnd.lasts() && (routeEnd.holdBegun() || done.over())) {
            return false;
        }
        aside = true;
        legs.setAside(timeS, events);
        routeEnd.finish(false, timeS, events);
        if (heading != null) {
            heading.setAside(here);
            heading.finish(timeS, events);
        }
        if (!done.over()) {
            events.add(new FlightEvent.AmendmentReplaced(timeS, missing()));
        }
        return true;
    }

    /** The clearance that took its place was taken back. */
    void goOn(@Nullable FlightInstant here) {
        aside = false;
        if (heading != null && here != null) {
            heading.goOn(here);
        }
    }

    /**
     * Across a gap or a pause nothing is concluded.
     *
     * @param goesOnFromS flown seconds from which it goes on as before, where the simulation stood; NaN after a gap
     */
    void breakOff(double goesOnFromS) {
        if (heading != null) {
            heading.breakOff();
        }
        legs.breakOff(goesOnFromS);
        routeEnd.breakOff();
        if (otherCourse != null) {
            otherCourse.breakOff();
        }
    }

    /** The amendment is over; where the flight was last seen is null where it was not. */
    void finish(End end, double timeS, @Nullable FlightInstant here, List<FlightEvent> events) {
        legs.finish(timeS, events);
        routeEnd.finish(end == End.REPLACED, timeS, events);
        if (heading != null) {
            heading.finish(timeS, events);
        }
        if (done.over()) {
            return;
        }
        switch (end) {
            case REPLACED -> events.add(new FlightEvent.AmendmentReplaced(timeS, missing()));
            case CANCELLED -> events.add(new FlightEvent.AmendmentCancelled(timeS, missing()));
            case OVER -> {
                Achievement.Open open = done.open(null, heading, assigned);
                AssignedWatch awaited = open.awaited(assigned);
                boolean isDue = here != null
                        && due.due(
                                open,
                                here,
                                legs,
                                heading,
                                awaited,
                                otherCourse != null && otherCourse.instead().isPresent(),
                                routeEnd);
                events.add(
                        isDue
                                ? new FlightEvent.AmendmentNotAchieved(
                                        timeS,
                                        missing(),
                                        awaited == null ? OptionalDouble.empty() : OptionalDouble.of(awaited.left()))
                                : new FlightEvent.AmendmentNotDue(timeS, missing()));
            }
        }
    }
}
