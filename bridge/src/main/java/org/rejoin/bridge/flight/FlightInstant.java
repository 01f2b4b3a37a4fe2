package org.rejoin.bridge.flight;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.earth.GroundPoint;
import org.rejoin.protocol.earth.Normal;

/**
 * The flight at one instant, whatever it is flown against. One is made for every sample.
 *
 * @param state as received
 * @param flownS seconds since the first sample without those in which the simulation stood still; durations are measured
 *     in this
 * @param trackDeg over the ground, true, [0, 360); from positions where the feed sends none
 * @param meanTrackDeg mean of the track over the last seconds, [0, 360)
 * @param noseDeg of the heading where there is one, else of the track; true, counted on through north
 * @param meanNoseDeg mean of that over the last seconds
 * @param turnRateDegPerS of that over the last seconds, right positive
 * @param ratesOverS over how many of the last seconds that is; fewer than usual where the flight has just been seen again
 * @param groundSpeedKt knots; from positions where the feed sends none
 * @param headingMagneticDeg by the compass, [0, 360); NaN where the feed has no heading
 */
public record FlightInstant(
        AircraftState state,
        double flownS,
        double trackDeg,
        double meanTrackDeg,
        double noseDeg,
        double meanNoseDeg,
        double turnRateDegPerS,
        double ratesOverS,
        double groundSpeedKt,
        double headingMagneticDeg) {

    /**
     * The flight between two instants, a share of the way, [0, 1], from one to the other: taken as a straight line in every
     * quantity; long ones are split first.
     */
    public static FlightInstant between(FlightInstant a, FlightInstant b, double share) {
        return new FlightInstant(
                AircraftState.between(
                        a.state, b.state, share, GroundPoint.under(Normal.between(a.normal(), b.normal(), share))),
                mix(a.flownS, b.flownS, share),
                mixDirection(a.trackDeg, b.trackDeg, share),
                mixDirection(a.meanTrackDeg, b.meanTrackDeg, share),
                mix(a.noseDeg, b.noseDeg, share),
                mix(a.meanNoseDeg, b.meanNoseDeg, share),
                mix(a.turnRateDegPerS, b.turnRateDegPerS, share),
                mix(a.ratesOverS, b.ratesOverS, share),
                mix(a.groundSpeedKt, b.groundSpeedKt, share),
                Double.isNaN(a.headingMagneticDeg)
                        ? b.headingMagneticDeg
                        : mixDirection(a.headingMagneticDeg, b.headingMagneticDeg, share));
    }

    private static double mix(double a, double b, double share) {
        return a + (b - a) * share;
    }

    private static double mixDirection(double a, double b, double share) {
        return Angles.circle(a + Angles.turn(b - a) * share);
    }

    /** {@return when it is, as logged; seconds since the first sample} */
    public double timeS() {
        return state.timeS();
    }

    /** Log time of a flown time inside the step that ends here, both in seconds. */
    public double timeAt(double atS) {
        return atS + timeS() - flownS;
    }

    /** {@return where the aircraft is, made when asked for} */
    public Position position() {
        return Position.of(state.place());
    }

    /** {@return straight up from there} */
    public Normal normal() {
        return state.place().normal();
    }

    /** {@return altitude above mean sea level; feet; NaN where the feed has none} */
    public double altitudeFt() {
        return state.altitudeMslFtOrNaN();
    }

    /** {@return rate of turn as a part of a standard turn's at this speed; no sign} */
    public double turning() {
        return Math.abs(turnRateDegPerS) / Turn.standardTurnRateDegPerS(groundSpeedKt);
    }
}
