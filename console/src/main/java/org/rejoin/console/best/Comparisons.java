package org.rejoin.console.best;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.tracker.Progress;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.console.flight.FlightDesk;
import org.rejoin.protocol.AircraftState;

/**
 * Follows a flight and compares what was flown under each clearance with the best path for it. Keeps two samples a
 * second at most, whatever the feed sends. Confined to the thread that flies it.
 */
public final class Comparisons implements FlightDesk.Watcher {

    private static final double EVERY_S = 0.5;

    private record Heard(double timeS, AmendedRoute route) {}

    private final List<Double> takenBackS = new ArrayList<>();

    private final List<Progress> flown = new ArrayList<>();
    private final List<FlightEvent> events = new ArrayList<>();
    private final List<Heard> clearances = new ArrayList<>();
    private Optional<Progress> last = Optional.empty();

    /** Nothing flown yet. */
    public Comparisons() {}

    @Override
    public void sample(AircraftState state, Progress progress) {
        last = Optional.of(progress);
        if (flown.isEmpty() || progress.timeS() - flown.get(flown.size() - 1).timeS() >= EVERY_S - 1e-6) {
            flown.add(progress);
        }
    }

    @Override
    public void event(FlightEvent event) {
        events.add(event);
    }

    @Override
    public void amended(AmendedRoute route) {
        if (route.clearance().routeStays() || last.isEmpty()) {
            return; // the route stays as it was
        }
        if (!flown.contains(last.get())) {
            flown.add(last.get());
        }
        clearances.add(new Heard(last.get().timeS(), route));
    }

    @Override
    public void cancelled() {
        last.ifPresent(now -> takenBackS.add(now.timeS()));
    }

    /**
     * The comparison for each clearance.
     *
     * @return in order of time; a clearance without a best path, or one taken back before it was complete, is left out
     */
    public List<Comparison> all() {
        List<Comparison> all = new ArrayList<>();
        for (int i = 0; i < clearances.size(); i++) {
            Heard heard = clearances.get(i);
            double toS = i + 1 < clearances.size() ? clearances.get(i + 1).timeS() : Double.POSITIVE_INFINITY;
            if (takenBack(heard.timeS(), toS)) {
                continue;
            }
            Comparison.of(
                            heard.route(),
                            heard.timeS(),
                            flown.stream()
                                    .filter(at -> at.timeS() >= heard.timeS() && at.timeS() <= toS)
                                    .toList(),
                            events.stream()
                                    .filter(event -> event.timeS() >= heard.timeS() && event.timeS() < toS)
                                    .toList())
                    .ifPresent(all::add);
        }
        return all;
    }

    private boolean takenBack(double fromS, double toS) {
        return takenBackS.stream()
                .filter(atS -> atS >= fromS && atS < toS)
                .anyMatch(atS -> events.stream()
                        .noneMatch(event -> event instanceof FlightEvent.AmendmentComplete
                                && event.timeS() >= fromS
                                && event.timeS() <= atS));
    }
}
