package org.rejoin.bridge.geo;

import org.rejoin.protocol.earth.GroundPoint;

/**
 * Two samples on a sphere of the mean radius: to 0.6 percent, which is enough to tell a jump or a standstill, and to compare
 * clocks. Asked at every sample.
 */
public final class RoundEarth {

    private RoundEarth() {}

    /** Distance between two places, to 0.6 percent, nautical miles. */
    public static double distanceNm(GroundPoint from, GroundPoint to) {
        return Geodesics.MEAN_RADIUS_NM * from.normal().angleTo(to.normal());
    }
}
