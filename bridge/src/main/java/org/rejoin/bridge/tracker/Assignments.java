package org.rejoin.bridge.tracker;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.flight.Assigned;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Rules;

import org.jspecify.annotations.Nullable;

/** The altitude and the speed in force. Each stays in force until another clearance says something of it. */
final class Assignments {

    private final Rules rules;
    private @Nullable AssignedWatch altitude;
    private @Nullable AssignedWatch speed;
    private Assigned inForce = Assigned.NOTHING;

    Assignments(Rules rules) {
        this.rules = rules;
    }

    /** All that is assigned now. */
    Assigned inForce() {
        return inForce;
    }

    /** The altitude; null where none is in force. */
    @Nullable
    AssignedWatch altitude() {
        return altitude;
    }

    /** The speed; null where none is in force. */
    @Nullable
    AssignedWatch speed() {
        return speed;
    }

    /** What was assigned before the aircraft was moved, to be reached anew. */
    void carry(Assigned before) {
        before.altitudeFt().ifPresent(feet -> altitude = AssignedWatch.altitude(feet, rules));
        before.speed().ifPresent(said -> speed = AssignedWatch.speed(said, rules));
        inForce = before;
    }

    /**
     * What was assigned before, to be reached anew; what is the same goes on.
     *
     * @param before all that was
     * @param inOwnTime whether its altitude is to be reached in the pilot's own time
     * @param timeS as logged
     * @param events takes what is over
     */
    void restore(Assigned before, boolean inOwnTime, double timeS, List<FlightEvent> events) {
        if (!before.altitudeFt().equals(inForce.altitudeFt())) {
            finish(altitude, timeS, events);
            altitude = null;
            before.altitudeFt().ifPresent(feet -> {
                AssignedWatch again = AssignedWatch.altitude(feet, rules);
                altitude = inOwnTime ? again.inOwnTime() : again;
            });
        }
        if (!before.speed().equals(inForce.speed())) {
            finish(speed, timeS, events);
            speed = before.speed().map(each -> AssignedWatch.speed(each, rules)).orElse(null);
        }
        inForce = before;
    }

    /**
     * What a clearance assigns, each with a fair time to reach it; a deviation from the one before is over.
     *
     * @param clearance in force from now on
     * @param here where it is heard; null where that is not known
     * @param timeS as logged
     * @param events takes what is over
     */
    void assign(Clearance clearance, @Nullable FlightInstant here, double timeS, List<FlightEvent> events) {
        OptionalDouble altitudeFt = clearance.altitudeFt();
        if (altitudeFt.isPresent()) {
            finish(altitude, timeS, events);
            inForce = new Assigned(altitudeFt, inForce.speed());
            AssignedWatch assigned = AssignedWatch.altitude(altitudeFt.getAsDouble(), rules);
            altitude = clearance.altitudeInOwnTime() ? assigned.inOwnTime() : assigned;
        }
        double nowKt = here == null ? Double.NaN : here.indicatedAirspeedKt();
        OptionalDouble presentKt = Double.isNaN(nowKt) ? OptionalDouble.empty() : OptionalDouble.of(nowKt);
        clearance.last(Instruction.Speed.class).ifPresent(said -> speed(said.assigned(presentKt), timeS, events));
        if (here != null) {
            // The time to react runs from here, not from the next sample.
            step(here, events);
        }
    }

    private void speed(Optional<Instruction.MaintainSpeed> said, double timeS, List<FlightEvent> events) {
        finish(speed, timeS, events);
        speed = said.map(each -> AssignedWatch.speed(each, rules)).orElse(null);
        inForce = new Assigned(inForce.altitudeFt(), said);
    }

    /** A place with an altitude to have there is passed: what was to be reached there is due. */
    void crossed(double flownS) {
        if (altitude != null) {
            altitude.fallsDue(flownS);
        }
    }

    void step(FlightInstant now, List<FlightEvent> events) {
        if (speed != null) {
            speed.step(now, events);
        }
        if (altitude != null) {
            altitude.step(now, events);
        }
    }

    /** Across a gap or a pause. */
    void breakOff() {
        if (altitude != null) {
            altitude.breakOff();
        }
        if (speed != null) {
            speed.breakOff();
        }
    }

    /** At the end, or when taken back: what is open is closed. */
    void finish(double timeS, List<FlightEvent> events) {
        finish(altitude, timeS, events);
        finish(speed, timeS, events);
    }

    private static void finish(@Nullable AssignedWatch watch, double timeS, List<FlightEvent> events) {
        if (watch != null) {
            watch.finish(timeS, events);
        }
    }

    /** Nothing is assigned any more. */
    void clear(double timeS, List<FlightEvent> events) {
        finish(timeS, events);
        altitude = null;
        speed = null;
        inForce = Assigned.NOTHING;
    }
}
