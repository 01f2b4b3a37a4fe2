package org.rejoin.bridge.tracker;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;

import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.route.CrossingPlan;
import org.rejoin.bridge.route.Leg;

import org.jspecify.annotations.Nullable;

/**
 * An altitude to have at a place of the route: read where its fix is sequenced, or, between fixes, where the place is
 * passed abeam.
 */
final class CrossingWatch {

    private final CrossingPlan plan;
    private final @Nullable Function<FlightInstant, CourseMeasure> measure;
    private final double placeNm;
    private final boolean atFix;
    private final double reachNm;
    private final Once told = new Once();
    private double lastPastNm = Double.NaN;

    /** A crossing to come; farther off than its reach it is not this place that is passed. */
    CrossingWatch(CrossingPlan plan, Leg leg, double reachNm) {
        this.plan = plan;
        GroundPath path = leg.groundPath().orElse(null);
        this.measure = path == null ? null : measure(path);
        this.placeNm = path == null ? Double.NaN : path.offset(plan.position()).alongTrackNm();
        Optional<String> end = leg.endsAt().map(fix -> fix.ident());
        this.atFix = plan.said().before().isEmpty()
                && end.filter(plan.said().fix().ident()::equals).isPresent();
        this.reachNm = reachNm;
    }

    private static Function<FlightInstant, CourseMeasure> measure(GroundPath path) {
        return path.fold(
                straight -> new CourseLine.Straight(straight)::measure,
                arc -> now -> CourseMeasure.of(now, arc.offset(now.normal())));
    }

    /** Whether the place was passed, seen or not. */
    boolean passed() {
        return told.done();
    }

    /** What is to be had there. */
    Instruction.CrossAt said() {
        return plan.said();
    }

    /** Whether it watches this very one, with its altitude. */
    boolean isOf(CrossingPlan other) {
        return plan.equals(other);
    }

    /** Whether it is the crossing that another one speaks of too. */
    boolean sameAs(CrossingPlan other) {
        return plan.place().equals(other.place());
    }

    /** Takes a step. */
    void step(@Nullable FlightInstant before, FlightInstant now, int activeLeg, List<FlightEvent> events) {
        if (told.done() || before == null) {
            lastPastNm = Double.NaN;
            return;
        }
        if (atFix && activeLeg >= 0) {
            for (FlightEvent event : List.copyOf(events)) {
                if (event instanceof FlightEvent.FixSequenced fix
                        && fix.ident().equals(plan.said().fix().ident())) {
                    tell(before, now, fix.timeS() - (now.timeS() - now.flownS()), events);
                }
            }
            // Past it where nobody looked.
            told.when(activeLeg > plan.leg());
            return;
        }
        Function<FlightInstant, CourseMeasure> measured = measure;
        told.when(activeLeg > plan.leg());
        if (measured == null || told.done() || (activeLeg >= 0 && activeLeg != plan.leg())) {
            lastPastNm = Double.NaN;
            return;
        }
        CourseMeasure here = measured.apply(now);
        double past = here.alongNm() - placeNm;
        double pastBefore = lastPastNm;
        lastPastNm = past;
        if (pastBefore < 0 && past >= 0 && Math.abs(here.crossTrackNm()) < reachNm) {
            tell(before, now, Dwell.root(before.flownS(), pastBefore, now.flownS(), past), events);
        }
    }

    private void tell(FlightInstant before, FlightInstant now, double atS, List<FlightEvent> events) {
        if (!told.when(true)) {
            return;
        }
        double share =
                Math.min(1, Math.max(0, (atS - before.flownS()) / Math.max(1e-9, now.flownS() - before.flownS())));
        FlightInstant then = FlightInstant.between(before, now, share);
        double altitude = then.altitudeFt();
        if (Double.isNaN(altitude)) {
            return;
        }
        double error = altitude - plan.said().nearestFt(altitude);
        events.add(new FlightEvent.Crossing(now.timeAt(atS), plan.place(), altitude, error));
    }
}
