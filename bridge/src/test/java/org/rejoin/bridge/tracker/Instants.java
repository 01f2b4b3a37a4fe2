package org.rejoin.bridge.tracker;

import java.util.OptionalDouble;

import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Position;
import org.rejoin.protocol.AircraftState;

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
        OptionalDouble none = OptionalDouble.empty();
        AircraftState state = new AircraftState(
                timeS,
                here.latitudeDeg(),
                here.longitudeDeg(),
                Point.given(altitudeFt),
                none,
                none,
                none,
                none,
                none,
                none,
                none,
                none,
                false);
        return new FlightInstant(state, timeS, trackDeg, trackDeg, noseDeg, noseDeg, 0, 6, groundSpeedKt, Double.NaN);
    }
}
