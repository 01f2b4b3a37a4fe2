package org.rejoin.bridge.tracker;

import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.geo.RoundEarth;
import org.rejoin.protocol.AircraftState;

/** Positions that do not change although the aircraft was flying: a pause of which the sender says nothing. */
final class StandingStill {

    private final Rule.StandingStill rule;
    private double sinceS = Double.NaN;
    private double movingKt;

    StandingStill(Rule.StandingStill rule) {
        this.rule = rule;
    }

    /** Takes a step; whether the aircraft stands still. What speed the sender reports meanwhile does not matter. */
    boolean step(AircraftState before, AircraftState state) {
        double movedNm = RoundEarth.distanceNm(before.place(), state.place());
        if (movedNm >= rule.sameNm()) {
            movingKt = movedNm / (state.timeS() - before.timeS()) * 3600;
            sinceS = Double.NaN;
            return false;
        }
        double sentKt = state.groundSpeedKtOrNaN();
        if (Math.max(movingKt, Double.isNaN(sentKt) ? 0 : sentKt) < rule.flyingKt()) {
            return false;
        }
        if (Double.isNaN(sinceS)) {
            sinceS = before.timeS();
        }
        return state.timeS() - sinceS >= rule.heldS();
    }

    /** Since when the position has not changed, seconds since the first sample; NaN while it does. */
    double sinceS() {
        return sinceS;
    }
}
