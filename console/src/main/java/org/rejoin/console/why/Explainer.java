package org.rejoin.console.why;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.tracker.Progress;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.console.flight.FlightDesk;
import org.rejoin.console.log.EventText;
import org.rejoin.protocol.AircraftState;

/**
 * Follows a flight and keeps what explains the events near one time. Confined to the thread that flies it.
 */
public final class Explainer implements FlightDesk.Watcher {

    /** An event farther from the time asked for than this is another one, seconds. */
    public static final double NEAR_S = 5;

    /** Samples shown before and after an event, seconds from it. */
    private static final double[] SHOWN_S = {-20, -10, -5, -2, 0, 2, 5, 10};

    /** Events that follow from the same instant are explained together, seconds. */
    private static final double TOGETHER_S = 0.05;

    private final double askedS;
    private final List<Progress> samples = new ArrayList<>();
    private final List<FlightEvent> events = new ArrayList<>();
    private final List<Heard> routes = new ArrayList<>();
    private double lastS;

    private record Heard(double timeS, AmendedRoute route) {}

    /**
     * An explainer.
     *
     * @param askedS the time asked about, seconds since the first sample
     */
    public Explainer(double askedS) {
        this.askedS = askedS;
    }

    @Override
    public void sample(AircraftState state, Progress progress) {
        lastS = state.timeS();
        if (Math.abs(progress.timeS() - askedS) <= NEAR_S + 25) {
            samples.add(progress);
        }
    }

    @Override
    public void event(FlightEvent event) {
        events.add(event);
    }

    @Override
    public void amended(AmendedRoute route) {
        routes.add(new Heard(lastS, route));
    }

    /**
     * What is near the time that was asked about.
     *
     * @param limits the flight was judged by
     * @return the nearest event, and those of the same instant
     * @throws NoEventNearException if there is none within {@link #NEAR_S}; the message names the nearest
     */
    public List<Explanation> explanations(Limits limits) throws NoEventNearException {
        FlightEvent nearest = events.stream()
                .min(Comparator.comparingDouble(event -> Math.abs(event.timeS() - askedS)))
                .orElseThrow(() -> new NoEventNearException("the flight has no event"));
        if (Math.abs(nearest.timeS() - askedS) > NEAR_S) {
            throw new NoEventNearException(String.format(
                    Locale.ROOT,
                    "no event within %.0f s of %s; the nearest is %s at %s (--why %.2f)",
                    NEAR_S,
                    EventText.clock(Math.max(0, askedS)),
                    nearest.name(),
                    EventText.clock(nearest.timeS()),
                    nearest.timeS()));
        }
        return events.stream()
                .filter(event -> Math.abs(event.timeS() - nearest.timeS()) <= TOGETHER_S)
                .map(event -> new Explanation(event, routeAt(event.timeS()), around(event.timeS()), limits))
                .toList();
    }

    private Optional<AmendedRoute> routeAt(double timeS) {
        return routes.stream()
                .filter(heard -> heard.timeS() <= timeS)
                .reduce((earlier, later) -> later)
                .map(Heard::route);
    }

    /** The samples nearest to the times that are shown, each once. */
    private List<Progress> around(double timeS) {
        List<Progress> around = new ArrayList<>();
        for (double offset : SHOWN_S) {
            samples.stream()
                    .min(Comparator.comparingDouble(at -> Math.abs(at.timeS() - timeS - offset)))
                    .filter(at -> !around.contains(at))
                    .ifPresent(around::add);
        }
        return around;
    }
}
