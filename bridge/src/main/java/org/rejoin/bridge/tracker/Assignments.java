package org.rejoin.bridge.tracker;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.Assigned;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.Instruction;

import org.jspecify.annotations.Nullable;

/** The altitude and the speed in force. Each stays in force until another clearance says something of it. */
final class Assignments {

    private @Nullable AssignedWatch altitude;
    private @Nullable AssignedWatch speed;
    private Assigned inForce = Assigned.NOTHING;

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

    /**
     * What a clearance assigns, each with a fair time to reach it; a deviation from the one before is over.
     *
     * @param clearance in force from now on
     * @param here where it is heard; null where that is not known
     * @return what is over
     */
    List<FlightEvent> assign(Clearance clearance, @Nullable Moment here) {
        List<FlightEvent> events = new ArrayList<>();
        OptionalDouble altitudeFt = clearance.altitudeFt();
        if (altitudeFt.isPresent()) {
            events.addAll(breakOff(altitude));
            inForce = new Assigned(altitudeFt, inForce.speed());
            altitude = AssignedWatch.altitude(altitudeFt.getAsDouble());
        }
        for (Instruction instruction : clearance.instructions()) {
            if (instruction instanceof Instruction.MaintainSpeed said) {
                events.addAll(breakOff(speed));
                speed = AssignedWatch.speed(said);
                inForce = new Assigned(inForce.altitudeFt(), Optional.of(said));
            } else if (instruction instanceof Instruction.MaintainPresentSpeed) {
                events.addAll(breakOff(speed));
                speed = here == null || here.indicatedAirspeedKt().isEmpty()
                        ? null
                        : AssignedWatch.presentSpeed(here.indicatedAirspeedKt().getAsDouble());
                inForce = new Assigned(
                        inForce.altitudeFt(),
                        speed == null
                                ? Optional.empty()
                                : Optional.of(new Instruction.MaintainSpeed(
                                        speed.assigned(), Instruction.MaintainSpeed.Limit.EXACTLY)));
            } else if (instruction instanceof Instruction.ResumeNormalSpeed) {
                events.addAll(breakOff(speed));
                speed = null;
                inForce = new Assigned(inForce.altitudeFt(), Optional.empty());
            }
        }
        if (here != null) {
            // The time to react runs from here, not from the next sample.
            events.addAll(step(here));
        }
        return events;
    }

    List<FlightEvent> step(Moment now) {
        AssignedWatch feet = altitude;
        AssignedWatch knots = speed;
        if (knots == null) {
            return feet == null ? List.of() : feet.step(now);
        }
        List<FlightEvent> events = new ArrayList<>(knots.step(now));
        if (feet != null) {
            events.addAll(feet.step(now));
        }
        return events;
    }

    /** Across a gap, at the end, or when taken back: open deviations end where the flight was last seen. */
    List<FlightEvent> breakOff() {
        List<FlightEvent> events = new ArrayList<>(breakOff(altitude));
        events.addAll(breakOff(speed));
        return events;
    }

    private static List<FlightEvent> breakOff(@Nullable AssignedWatch watch) {
        return watch == null ? List.of() : watch.breakOff();
    }

    /** Set somewhere else: to be reached anew. */
    List<FlightEvent> reposition() {
        List<FlightEvent> events = breakOff();
        altitude = altitude == null ? null : altitude.again();
        speed = speed == null ? null : speed.again();
        return events;
    }

    /** Nothing is assigned any more. */
    List<FlightEvent> clear() {
        List<FlightEvent> events = breakOff();
        altitude = null;
        speed = null;
        inForce = Assigned.NOTHING;
        return events;
    }
}
