package org.rejoin.bridge.tracker;

import java.util.OptionalDouble;

import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.Position;
import org.rejoin.protocol.AircraftState;

/**
 * The flight at one instant, ready for the detectors.
 *
 * @param timeS seconds since the first sample, as logged
 * @param flownS the same without the time the simulation stood still; durations are measured in this
 * @param position WGS 84
 * @param trackDeg over the ground, true, [0, 360)
 * @param turnRateDegPerS of the track over the last two seconds, right positive
 * @param groundSpeedKt knots
 * @param headingMagneticDeg by the compass, [0, 360); empty where the feed has no heading
 * @param altitudeFt above mean sea level; empty where the feed has none
 * @param indicatedAirspeedKt knots; empty where the feed has none
 */
record Moment(
        double timeS,
        double flownS,
        Position position,
        double trackDeg,
        double turnRateDegPerS,
        double groundSpeedKt,
        OptionalDouble headingMagneticDeg,
        OptionalDouble altitudeFt,
        OptionalDouble indicatedAirspeedKt) {

    /** The flight between two moments is taken as a straight line in every quantity; long ones are split first. */
    static Moment between(Moment a, Moment b, double share) {
        Geodesics.Inverse way = a.position.to(b.position);
        return new Moment(
                mix(a.timeS, b.timeS, share),
                mix(a.flownS, b.flownS, share),
                way.distanceNm() < 1e-9 ? a.position : a.position.destination(way.initial(), way.distanceNm() * share),
                Angles.circle(a.trackDeg + Angles.turn(b.trackDeg - a.trackDeg) * share),
                mix(a.turnRateDegPerS, b.turnRateDegPerS, share),
                mix(a.groundSpeedKt, b.groundSpeedKt, share),
                mixDirection(a.headingMagneticDeg, b.headingMagneticDeg, share),
                mix(a.altitudeFt, b.altitudeFt, share),
                mix(a.indicatedAirspeedKt, b.indicatedAirspeedKt, share));
    }

    private static double mix(double a, double b, double share) {
        return a + (b - a) * share;
    }

    private static OptionalDouble mix(OptionalDouble a, OptionalDouble b, double share) {
        return a.isPresent() && b.isPresent() ? OptionalDouble.of(mix(a.getAsDouble(), b.getAsDouble(), share)) : b;
    }

    private static OptionalDouble mixDirection(OptionalDouble a, OptionalDouble b, double share) {
        if (a.isEmpty() || b.isEmpty()) {
            return b;
        }
        double from = a.getAsDouble();
        return OptionalDouble.of(Angles.circle(from + Angles.turn(b.getAsDouble() - from) * share));
    }

    /** A point without a line: before a clearance, or on a heading that leads to none. */
    Point point(AircraftState state, Assignments assigned, boolean newPiece) {
        AssignedWatch altitude = assigned.altitude();
        AssignedWatch speed = assigned.speed();
        return new Point(
                state,
                flownS,
                trackDeg,
                groundSpeedKt,
                turnRateDegPerS,
                headingMagneticDeg.orElse(Double.NaN),
                Point.Phase.AS_FILED,
                -1,
                Double.NaN,
                Double.NaN,
                Double.NaN,
                Double.NaN,
                Double.NaN,
                altitude == null ? Double.NaN : altitude.error(this).orElse(Double.NaN),
                speed == null ? Double.NaN : speed.error(this).orElse(Double.NaN),
                false,
                newPiece);
    }
}
