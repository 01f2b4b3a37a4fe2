package org.rejoin.bridge.flight;

import org.rejoin.protocol.AircraftState;

/** Two samples on a sphere: to a percent, which is enough to tell a jump or a standstill. */
public final class RoundEarth {

    private static final double NM_PER_DEG = 60;

    private RoundEarth() {}

    /** Distance between two samples, to a percent, nautical miles. */
    public static double distanceNm(AircraftState from, AircraftState to) {
        return NM_PER_DEG
                * Math.toDegrees(from.place().normal().angleTo(to.place().normal()));
    }
}
