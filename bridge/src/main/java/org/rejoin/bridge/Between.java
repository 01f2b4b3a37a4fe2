package org.rejoin.bridge;

import java.util.OptionalDouble;

import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Position;
import org.rejoin.protocol.AircraftState;

/** The aircraft between two samples: on the geodesic, every number in proportion. */
final class Between {

    private Between() {}

    static AircraftState at(AircraftState a, AircraftState b, double timeS) {
        double share = (timeS - a.timeS()) / (b.timeS() - a.timeS());
        Position here = Point.positionOf(a).toward(Point.positionOf(b), share);
        AircraftState between = new AircraftState(
                timeS,
                here.latitudeDeg(),
                here.longitudeDeg(),
                mix(a.altitudeMslFt(), b.altitudeMslFt(), share),
                mixDirection(a.headingTrueDeg(), b.headingTrueDeg(), share),
                mixDirection(a.headingMagneticDeg(), b.headingMagneticDeg(), share),
                mixDirection(a.trackTrueDeg(), b.trackTrueDeg(), share),
                mix(a.groundSpeedKt(), b.groundSpeedKt(), share),
                mix(a.verticalSpeedFpm(), b.verticalSpeedFpm(), share),
                mix(a.pitchDeg(), b.pitchDeg(), share),
                mix(a.rollDeg(), b.rollDeg(), share),
                mix(a.indicatedAirspeedKt(), b.indicatedAirspeedKt(), share),
                b.paused());
        return between.carriedAs(a, b);
    }

    private static OptionalDouble mix(OptionalDouble a, OptionalDouble b, double share) {
        return a.isPresent() && b.isPresent()
                ? OptionalDouble.of(a.getAsDouble() + (b.getAsDouble() - a.getAsDouble()) * share)
                : OptionalDouble.empty();
    }

    private static OptionalDouble mixDirection(OptionalDouble a, OptionalDouble b, double share) {
        return a.isPresent() && b.isPresent()
                ? OptionalDouble.of(
                        Angles.circle(a.getAsDouble() + Angles.turn(b.getAsDouble() - a.getAsDouble()) * share))
                : OptionalDouble.empty();
    }
}
