package org.rejoin.bridge.flight;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.protocol.AircraftState;

/** Two samples on a plane: to a percent, which is enough to tell a jump or a standstill. */
public final class FlatEarth {

    private static final double NM_PER_DEG = 60;

    private FlatEarth() {}

    /** Distance between two samples, to a percent, nautical miles. */
    public static double distanceNm(AircraftState from, AircraftState to) {
        double north = to.latitudeDeg() - from.latitudeDeg();
        double east = Angles.turn(to.longitudeDeg() - from.longitudeDeg())
                * Math.cos(Math.toRadians((to.latitudeDeg() + from.latitudeDeg()) / 2));
        return NM_PER_DEG * Math.sqrt(north * north + east * east);
    }
}
