package org.rejoin.bridge.tracker;

import java.util.OptionalDouble;

import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.protocol.AircraftState;

/**
 * The flight at one instant, ready for the detectors.
 *
 * @param timeS seconds since the first sample, as logged
 * @param flownS the same without the time the simulation stood still; durations are measured in this
 * @param position WGS 84
 * @param trackDeg over the ground, true, [0, 360)
 * @param meanTrackDeg mean of the track over the last seconds, [0, 360)
 * @param noseDeg of the heading where there is one, else of the track; counted on through north, from any zero
 * @param meanNoseDeg mean of that over the last seconds
 * @param turnRateDegPerS of that over the last seconds, right positive
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
        double meanTrackDeg,
        double noseDeg,
        double meanNoseDeg,
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
                mixDirection(a.trackDeg, b.trackDeg, share),
                mixDirection(a.meanTrackDeg, b.meanTrackDeg, share),
                mix(a.noseDeg, b.noseDeg, share),
                mix(a.meanNoseDeg, b.meanNoseDeg, share),
                mix(a.turnRateDegPerS, b.turnRateDegPerS, share),
                mix(a.groundSpeedKt, b.groundSpeedKt, share),
                mixDirection(a.headingMagneticDeg, b.headingMagneticDeg, share),
                mix(a.altitudeFt, b.altitudeFt, share),
                mix(a.indicatedAirspeedKt, b.indicatedAirspeedKt, share));
    }

    /** The same with what is measured over the last seconds. */
    Moment measured(double mean, double nose, double meanNose, double rate) {
        return new Moment(
                timeS,
                flownS,
                position,
                trackDeg,
                mean,
                nose,
                meanNose,
                rate,
                groundSpeedKt,
                headingMagneticDeg,
                altitudeFt,
                indicatedAirspeedKt);
    }

    private static double mix(double a, double b, double share) {
        return a + (b - a) * share;
    }

    private static OptionalDouble mix(OptionalDouble a, OptionalDouble b, double share) {
        return a.isPresent() && b.isPresent() ? OptionalDouble.of(mix(a.getAsDouble(), b.getAsDouble(), share)) : b;
    }

    private static double mixDirection(double a, double b, double share) {
        return Angles.circle(a + Angles.turn(b - a) * share);
    }

    private static OptionalDouble mixDirection(OptionalDouble a, OptionalDouble b, double share) {
        return a.isPresent() && b.isPresent()
                ? OptionalDouble.of(mixDirection(a.getAsDouble(), b.getAsDouble(), share))
                : b;
    }

    /** Rate of turn as a part of a standard turn's at this speed; no sign. */
    double turning() {
        return Math.abs(turnRateDegPerS) / Turn.standardTurnRateDegPerS(groundSpeedKt);
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
                altitude == null ? Double.NaN : altitude.errorNow(),
                speed == null ? Double.NaN : speed.errorNow(),
                false,
                newPiece);
    }
}
