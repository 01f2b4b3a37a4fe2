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
        AircraftState from = null;
        double fastestKt = next.groundSpeedKtOrNaN();
        for (AircraftState each : second) {
            if (from == null || each.timeS() <= next.timeS() - rule.baseS()) {
                from = each;
            }
            double knots = each.groundSpeedKtOrNaN();
            if (!(fastestKt >= knots) && !Double.isNaN(knots)) {
                fastestKt = knots;
            }
        }
        if (from == null) {
            return false;
        }
        double knots = Double.isNaN(fastestKt) ? rule.assumedKt() : fastestKt;
        double seconds = Math.max(next.timeS() - from.timeS(), rule.baseS());
        double reachNm = (rule.times() * knots + rule.plusKt()) * seconds / 3600;
        return Plane.distanceNm(from, next) - 2 * quality.resolutionNm() > reachNm;
    }

    /**
     * Distance between two samples, to a percent.
     *
     * @param from one
     * @param to the other
     * @return nautical miles
     */
    public static double distanceNm(AircraftState from, AircraftState to) {
        return Plane.distanceNm(from, to);
    }
}
