package org.rejoin.bridge.tracker;

import org.rejoin.bridge.geo.Position;
import org.rejoin.protocol.earth.GroundPoint;

/** Instants of a flight that is not paused and does not turn, of a feed without a heading. */
final class Instants {

    private Instants() {}

    /**
     * One of them.
     *
     * @param altitudeFt NaN where the feed has none
     */
    static FlightInstant at(
            double timeS, Position here, double trackDeg, double noseDeg, double groundSpeedKt, double altitudeFt) {
        return new FlightInstant(
                timeS,
                timeS,
                GroundPoint.at(here.latitudeDeg(), here.longitudeDeg()),
                trackDeg,
                trackDeg,
                noseDeg,
                noseDeg,
                0,
                6,
                groundSpeedKt,
                Double.NaN,
                altitudeFt,
                Double.NaN,
                FlightInstant.Carried.NOTHING);
    }
}
