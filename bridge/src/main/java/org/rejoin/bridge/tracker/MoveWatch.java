package org.rejoin.bridge.tracker;

import java.util.ArrayDeque;
import java.util.Deque;

import org.rejoin.bridge.flight.FeedQuality;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.protocol.AircraftState;

/**
 * Tells a move from flying: the speed that the way since a second ago implies, against the speed reported. Measured over
 * a second at least, so that one sample a second and thirty tell the same.
 */
public final class MoveWatch {

    private final Rule.Moved rule;
    private final FeedQuality quality;
    private final Deque<AircraftState> second = new ArrayDeque<>();

    /**
     * A watch.
     *
     * @param rule by which a move is told
     * @param quality of the feed: what its resolution explains is no move
     */
    public MoveWatch(Rule.Moved rule, FeedQuality quality) {
        this.rule = rule;
        this.quality = quality;
    }

    /**
     * Takes the next sample of a flight that goes on.
     *
     * @param state later than the last
     */
    public void accept(AircraftState state) {
        second.addLast(state);
        while (second.size() > 2) {
            AircraftState oldest = second.removeFirst();
            if (second.getFirst().timeS() > state.timeS() - rule.baseS()) {
                second.addFirst(oldest);
                return;
            }
        }
    }

    /** Begins anew where the aircraft was set down. */
    public void restart() {
        second.clear();
    }

    /**
     * Whether the aircraft was moved before the next sample.
     *
     * @param next later than the last
     * @return false before the first sample
     */
    public boolean moved(AircraftState next) {
        AircraftState from = second.peekFirst();
        if (from == null) {
            return false;
        }
        for (AircraftState each : second) {
            if (each.timeS() > next.timeS() - rule.baseS()) {
                break;
            }
            from = each;
        }
        double seconds = Math.max(next.timeS() - from.timeS(), rule.baseS());
        double wayNm = FlatEarth.distanceNm(from, next) - 2 * quality.resolutionNm();
        // Its own speed explains nearly every sample; the whole second is looked through for the rest.
        return !(wayNm <= reachNm(next.groundSpeedKtOrNaN(), seconds)) && wayNm > reachNm(fastestKt(next), seconds);
    }

    private double reachNm(double knots, double seconds) {
        return (rule.times() * knots + rule.plusKt()) * seconds / 3600;
    }

    private double fastestKt(AircraftState next) {
        double fastestKt = next.groundSpeedKtOrNaN();
        for (AircraftState each : second) {
            double knots = each.groundSpeedKtOrNaN();
            if (!(fastestKt >= knots) && !Double.isNaN(knots)) {
                fastestKt = knots;
            }
        }
        return Double.isNaN(fastestKt) ? rule.assumedKt() : fastestKt;
    }

    /**
     * Distance between two samples, to a percent.
     *
     * @param from one
     * @param to the other
     * @return nautical miles
     */
    public static double distanceNm(AircraftState from, AircraftState to) {
        return FlatEarth.distanceNm(from, to);
    }
}
