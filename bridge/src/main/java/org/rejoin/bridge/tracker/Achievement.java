package org.rejoin.bridge.tracker;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Leg;

import org.jspecify.annotations.Nullable;

/** What an amendment asks for, and what of it has been done. What is done stays done. */
final class Achievement {

    private final AmendedRoute route;
    private final double overdueAfterS;
    private final boolean altitudeOnly;
    private final boolean departs;
    private boolean intercepted;
    private boolean joined;
    private boolean resumed;
    private boolean departed;
    private boolean held;
    private boolean crossingAhead;
    private boolean complete;
    private double overTimeS = Double.NaN;
    private boolean givenUp;
    private @Nullable AssignedWatch toldOf;
    private double doneTimeS = Double.NEGATIVE_INFINITY;

    /** The last leg that begins something new of a route that ends short; -1 where the route goes on as filed. */
    private final int lastSaid;

    private boolean onLastSaid;

    /** Nothing is done yet; so many seconds after it was due an altitude or a speed is waited for no longer. */
    Achievement(AmendedRoute route, double overdueAfterS) {
        this.route = route;
        this.overdueAfterS = overdueAfterS;
        boolean endsShort = route.openEnd().isPresent() || route.limit().isPresent();
        this.lastSaid = endsShort ? lastSaid(route.legs()) : -1;
        this.altitudeOnly = route.clearance().routeStays();
        this.departs = route.departsOnRadial() || route.departHeading().isPresent();
    }

    private static int lastSaid(List<Leg> legs) {
        for (int i = legs.size() - 1; i > 0; i--) {
            Leg leg = legs.get(i);
            boolean goesOn = leg.airway().isPresent()
                    && leg.airway().equals(legs.get(i - 1).airway());
            if (leg.line().isPresent() && !goesOn) {
                return i;
            }
        }
        return -1;
    }

    boolean complete() {
        return complete;
    }

    /** Whether nothing more can come of it: all was done, or what was not done was due. */
    boolean over() {
        return complete || givenUp;
    }

    /** When it was over, as logged; NaN before. */
    double overTimeS() {
        return overTimeS;
    }

    boolean intercepted() {
        return intercepted;
    }

    /** Found beyond the course when seen again: nobody saw the intercept, and nobody holds it against the pilot. */
    void passedUnseen() {
        intercepted = true;
    }

    /** Established on a leg. */
    void established(int index, double timeS, List<FlightEvent> events) {
        Leg leg = route.legs().get(index);
        doneTimeS = Math.max(doneTimeS, timeS);
        if (index == route.courseLeg()
                || (route.course().isEmpty()
                        && route.joinLegs().contains(route.courseLeg())
                        && route.joinLegs().contains(index))) {
            intercepted = true;
        }
        onLastSaid |= index >= lastSaid;
        if (route.joinLegs().contains(index) && !joined) {
            joined = true;
            events.add(new FlightEvent.AirwayJoined(timeS, leg.airway().orElse(""), endOf(index)));
        }
        if (route.resumesAt() >= 0 && index >= route.resumesAt() && !resumed) {
            resumed = true;
            events.add(new FlightEvent.RouteResumed(timeS));
        }
    }

    /** The end of a leg was reached: a station at the very end of the airway is all of it that is flown. */
    void reachedEnd(int index, double timeS, List<FlightEvent> events) {
        boolean atStation =
                intercepted && index == route.courseLeg() && route.joinLegs().isEmpty();
        Optional<Instruction.JoinAirway> join = route.clearance().first(Instruction.JoinAirway.class);
        if (joined || !atStation || join.isEmpty()) {
            return;
        }
        joined = true;
        events.add(new FlightEvent.AirwayJoined(timeS, join.get().airway(), endOf(index)));
    }

    private String theLine() {
        Leg line = route.firstLine().orElseThrow();
        if (line instanceof Leg.DmeArc arc) {
            return String.format(
                    Locale.ROOT, "the %s %.0f mile arc", arc.station().ident(), arc.distanceNm());
        }
        if (line instanceof Leg.DirectToFix direct) {
            return "the course direct to " + direct.to().ident();
        }
        return route.joinedAirway().orElse("the course");
    }

    private String endOf(int index) {
        return route.legs().get(index).endsAt().map(fix -> fix.ident()).orElse("");
    }

    /** Whether a place with an altitude to have there is still to be passed. */
    void crossingAhead(boolean ahead) {
        crossingAhead = ahead;
    }

    /** What is done where the route ends. */
    private void end(FlightInstant now, RouteEndWatch end, LegSequence legs) {
        HoldWatch hold = end.hold();
        if (hold != null && hold.holds()) {
            // In the hold: whoever came to its fix within the scale came by its line.
            intercepted |= !legs.passedOutside();
        }
        if (hold != null && !held && hold.inboundLegs() > 0) {
            held = true;
            doneTimeS = Math.max(doneTimeS, now.timeAt(hold.fixS()));
        }
        if (!departed && end.departed(legs)) {
            departed = true;
            HeadingWatch onHeading = end.departing();
            doneTimeS = onHeading == null ? doneTimeS : Math.max(doneTimeS, onHeading.establishedTimeS());
        }
    }

    /** The end of a step: whether all of it is done now. */
    void step(
            @Nullable FlightInstant before,
            FlightInstant now,
            @Nullable HeadingWatch heading,
            Assignments assigned,
            RouteEndWatch end,
            LegSequence legs,
            List<FlightEvent> events) {
        end(now, end, legs);
        if (over()) {
            // Said since, it is waited for as long.
            notReached(assigned.toReach(), before, now, events);
            return;
        }
        Open open = open(now, heading, assigned);
        if (open != Open.NOTHING) {
            double overdueS = notReached(open.awaited(assigned), before, now, events);
            givenUp = !Double.isNaN(overdueS);
            overTimeS = overdueS;
            return;
        }
        complete = true;
        if (route.courseLeg() < 0 && heading != null && heading.established()) {
            doneTimeS = heading.establishedTimeS();
        }
        overTimeS = locatedS(before, now);
        events.add(new FlightEvent.AmendmentComplete(overTimeS));
    }

    /** Done by something located inside this step, or found to be done at its end. */
    private double locatedS(@Nullable FlightInstant before, FlightInstant now) {
        boolean located = before == null || doneTimeS >= before.timeS();
        return located ? Math.min(doneTimeS, now.timeS()) : now.timeS();
    }

    /** Says once that an altitude or a speed was due, and not reached: it is waited for no longer; when that was, as logged, or NaN. */
    private double notReached(
            @Nullable AssignedWatch missed,
            @Nullable FlightInstant before,
            FlightInstant now,
            List<FlightEvent> events) {
        double overdueS = missed == null || missed.equals(toldOf) ? Double.NaN : missed.overdueS(now, overdueAfterS);
        if (missed == null || Double.isNaN(overdueS)) {
            return Double.NaN;
        }
        toldOf = missed;
        // Overdue within this step, or before; then where all else was done.
        boolean here = before == null || overdueS >= before.flownS();
        double atS = here ? now.timeAt(overdueS) : locatedS(before, now);
        events.add(new FlightEvent.AmendmentNotAchieved(atS, missed.missing(), OptionalDouble.of(missed.left())));
        return atS;
    }

    /** Whether an altitude or a speed is still waited for, said when all else was done. */
    boolean awaits(Assignments assigned) {
        AssignedWatch awaited = assigned.toReach();
        return awaited != null && !awaited.equals(toldOf);
    }

    /** The first thing that is still to be done. */
    enum Open {
        ALTITUDE,
        HEADING,
        INTERCEPT,
        AIRWAY,
        FILED_ROUTE,
        ONWARD,
        DEPART,
        HOLD,
        CROSSING,
        IN_TURN,
        NOTHING;

        /** The altitude or speed that is to be reached; null where it is something else that is open. */
        @Nullable
        AssignedWatch awaited(Assignments assigned) {
            return this == ALTITUDE ? assigned.altitude() : this == IN_TURN ? assigned.toReach() : null;
        }
    }

    /**
     * The first thing that is still to be done; at the end of the flight there is no step any more, and {@code now} is
     * null.
     */
    Open open(@Nullable FlightInstant now, @Nullable HeadingWatch heading, Assignments assigned) {
        AssignedWatch altitude = assigned.altitude();
        if (altitudeOnly && altitude != null) {
            return !altitude.done() ? Open.ALTITUDE : openCrossing(assigned);
        }
        if (altitudeOnly && crossingAhead) {
            return Open.CROSSING;
        }
        if (route.courseLeg() < 0) {
            boolean taken = heading == null || heading.established() || (now != null && heading.unseen(now));
            return taken || held ? openAtEnd(assigned) : Open.HEADING;
        }
        if (!intercepted) {
            return Open.INTERCEPT;
        }
        if (!route.joinLegs().isEmpty() && !joined) {
            return Open.AIRWAY;
        }
        if (lastSaid > route.courseLeg() && !onLastSaid) {
            return Open.ONWARD;
        }
        return route.resumesAt() >= 0 && !resumed ? Open.FILED_ROUTE : openAtEnd(assigned);
    }

    private Open openAtEnd(Assignments assigned) {
        if (departs && !departed) {
            return Open.DEPART;
        }
        return route.holding().isPresent() && !held ? Open.HOLD : openCrossing(assigned);
    }

    private Open openCrossing(Assignments assigned) {
        if (crossingAhead) {
            return Open.CROSSING;
        }
        return assigned.toReach() == null ? Open.NOTHING : Open.IN_TURN;
    }

    /**
     * What has not been done yet, in words; empty text when the amendment is complete.
     *
     * @param instead what was tracked in place of the course, where that is known
     */
    String missing(@Nullable HeadingWatch heading, Assignments assigned, Optional<String> instead) {
        Open open = open(null, heading, assigned);
        AssignedWatch awaited = open.awaited(assigned);
        return switch (open) {
            case ALTITUDE, IN_TURN -> awaited == null ? "" : awaited.missing();
            case HEADING -> "never on the assigned heading";
            case INTERCEPT ->
                instead.or(() -> route.firstCourse()
                                .filter(course -> route.firstLine()
                                        .filter(Leg.DmeArc.class::isInstance)
                                        .isEmpty())
                                .map(course -> String.format(
                                        Locale.ROOT,
                                        "never established on the %s %03.0f radial",
                                        course.station().ident(),
                                        course.radial().deg())))
                        .orElseGet(() -> "never established on " + theLine());
            case AIRWAY -> "did not join " + route.joinedAirway().orElse("the airway");
            case FILED_ROUTE -> "did not come back to the filed route";
            case ONWARD -> "did not go on to " + endOf(lastSaid);
            case DEPART -> "did not depart the fix as cleared";
            case HOLD ->
                "did not fly the hold at "
                        + route.holding().map(hold -> hold.fix().ident()).orElse("the fix");
            case CROSSING -> "a place with an altitude to have there was not passed";
            case NOTHING -> "";
        };
    }
}
