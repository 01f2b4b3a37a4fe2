package org.rejoin.console.grade;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.tracker.Progress;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.protocol.AircraftState;

/**
 * Watches a flight and grades it: events give the faults, samples give the measures. The same flight gives the same
 * grade, live or from a recording.
 */
public final class Grader implements FlightSession.Listener {

    private final ToleranceSet set;
    private final FlightMeasures measures;
    private final List<Judged> judged = new ArrayList<>();
    private final Assigned assigned = new Assigned();
    private Optional<AmendedRoute> route = Optional.empty();

    /**
     * A grader.
     *
     * @param set to grade against
     */
    public Grader(ToleranceSet set) {
        this.set = set;
        this.measures = new FlightMeasures(set);
    }

    /**
     * An event with what its fault would be judged by.
     *
     * @param event in order of time
     * @param overshootLimitNm past the line by more than this is a fault there
     * @param route as worked out when the clearance then in force was heard
     */
    record Judged(FlightEvent event, double overshootLimitNm, Optional<AmendedRoute> route) {}

    /** What the clearances of the flight asked for. */
    static final class Assigned {
        private boolean any;
        private boolean pending;
        private boolean heading;
        private boolean course;
        private boolean fix;
        private boolean speed;

        private void add(AmendedRoute route) {
            pending = true;
            heading |= route.assignedHeading().isPresent();
            course |= route.courseLeg() >= 0;
            fix |= route.courseLeg() >= 0 && route.resumesAt() > route.courseLeg();
        }

        /** Taken back: what was to be flown of it is asked of nobody. */
        private void takeBack() {
            pending = false;
            heading = false;
            course = false;
            fix = false;
            speed = false;
        }

        /** Whether there is an amendment to be completed. */
        boolean pending() {
            return pending;
        }

        boolean any() {
            return any;
        }

        /** Whether a speed was assigned, or the present one was to be kept. */
        boolean speed() {
            return speed;
        }

        boolean heading() {
            return heading;
        }

        boolean course() {
            return course;
        }

        boolean fix() {
            return fix;
        }
    }

    @Override
    public void amended(AmendedRoute now) {
        assigned.any = true;
        assigned.speed |= now.clearance().instructions().stream()
                .anyMatch(said ->
                        said instanceof Instruction.MaintainSpeed || said instanceof Instruction.MaintainPresentSpeed);
        if (now.clearance().altitudeFt().isPresent()) {
            measures.assignAltitude();
        }
        if (now.clearance().routeStays()) {
            assigned.pending = true;
            return;
        }
        assigned.add(now);
        measures.amended(now);
        route = Optional.of(now);
    }

    @Override
    public void cancelled() {
        assigned.takeBack();
        route = Optional.empty();
    }

    @Override
    public void event(FlightEvent event) {
        judged.add(new Judged(event, measures.overshootLimitNm(), route));
        measures.event(event);
    }

    @Override
    public void sample(AircraftState state, Progress now) {
        if (now.altitudeErrorFt().isPresent()) {
            measures.assignAltitude();
        }
        measures.sample(state, now);
    }

    /**
     * The grade so far, of what the flight has come to; final once the flight has ended.
     *
     * @return criteria, faults and notes
     */
    public Grade grade() {
        return new Rubric(set, measures, assigned, judged, new FaultList(judged).faults()).grade();
    }

    /**
     * All events seen.
     *
     * @return in order of time
     */
    public List<FlightEvent> events() {
        return judged.stream().map(Judged::event).toList();
    }
}
