package org.rejoin.console.report;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.tracker.Progress;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.console.best.Comparison;
import org.rejoin.console.best.Comparisons;
import org.rejoin.console.flight.FlightDesk;
import org.rejoin.protocol.AircraftState;

/** Keeps what a report draws as the flight goes by. Confined to the thread that flies it. */
public final class FlightTrace implements FlightDesk.Watcher {

    /**
     * One sample and where it stood.
     *
     * @param state as received
     * @param progress after it
     */
    record Sample(AircraftState state, Progress progress) {
        double timeS() {
            return state.timeS();
        }
    }

    /**
     * A clearance and what it became.
     *
     * @param timeS when it was issued, seconds since the first sample
     * @param route worked out
     */
    record Amended(double timeS, AmendedRoute route) {}

    private final List<Sample> samples = new ArrayList<>();
    private final List<Amended> amendments = new ArrayList<>();
    private final Comparisons comparisons = new Comparisons();
    private double lastS;

    /** An empty trace, to be given to a debrief as a watcher. */
    public FlightTrace() {}

    @Override
    public void sample(AircraftState state, Progress progress) {
        samples.add(new Sample(state, progress));
        lastS = state.timeS();
        comparisons.sample(state, progress);
    }

    @Override
    public void event(FlightEvent event) {
        comparisons.event(event);
    }

    @Override
    public void amended(AmendedRoute route) {
        amendments.add(new Amended(lastS, route));
        comparisons.amended(route);
    }

    @Override
    public void cancelled() {
        comparisons.cancelled();
    }

    /**
     * The amended route in force.
     *
     * @param timeS seconds since the first sample
     * @return the last one issued by then; empty before the first clearance
     */
    public Optional<AmendedRoute> routeAt(double timeS) {
        return amendments.stream()
                .filter(amended -> amended.timeS() <= timeS)
                .reduce((earlier, later) -> later)
                .map(Amended::route);
    }

    /** The flight against the best path for each clearance. */
    List<Comparison> comparisons() {
        return comparisons.all();
    }

    /** A view: a flight may have very many. */
    List<Sample> samples() {
        return Collections.unmodifiableList(samples);
    }

    List<Amended> amendments() {
        return List.copyOf(amendments);
    }
}
