package org.rejoin.bridge.ocean;

import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.protocol.AircraftState;

/** A flight in still air, carried by a wind: turns are circles in the air, and drawn out over the ground. */
public final class Carried {

    private Carried() {}

    /**
     * Where to begin so as to be over a fix.
     *
     * @param overS after so many seconds straight on
     */
    public static Position startOver(Position fix, double headingTrueDeg, double airspeedKt, double overS, Wind wind) {
        return fix.destination(new TrueDirection(headingTrueDeg + 180), airspeedKt * overS / 3600)
                .destination(wind.from(), wind.speedKt() * overS / 3600);
    }

    /** The same flight in the wind, its time counted from its first sample. */
    public static List<AircraftState> by(Wind wind, List<AircraftState> inStillAir) {
        return inStillAir.stream().map(state -> by(wind, state)).toList();
    }

    private static AircraftState by(Wind wind, AircraftState air) {
        Position position = new Position(air.latitudeDeg(), air.longitudeDeg())
                .destination(wind.from().reciprocal(), wind.speedKt() * air.timeS() / 3600);
        double headingDeg = air.trackTrueDeg().orElseThrow();
        GroundVector ground = GroundVector.onHeading(
                new TrueDirection(headingDeg), air.groundSpeedKt().orElseThrow(), wind);
        OptionalDouble none = OptionalDouble.empty();
        return new AircraftState(
                air.timeS(),
                position.latitudeDeg(),
                position.longitudeDeg(),
                air.altitudeMslFt(),
                OptionalDouble.of(headingDeg),
                none,
                OptionalDouble.of(ground.track().deg()),
                OptionalDouble.of(ground.groundSpeedKt()),
                none,
                none,
                none,
                none,
                false);
    }
}
