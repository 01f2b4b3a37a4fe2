package org.rejoin.bridge.tracker;

import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.earth.GroundPoint;
import org.rejoin.protocol.earth.Normal;

/**
 * The flight at one instant, ready for the detectors. One is made for every sample and kept until the next.
 *
 * @param timeS seconds since the first sample, as logged
 * @param flownS the same without the time the simulation stood still; durations are measured in this
 * @param place where the aircraft is, as it was sent
 * @param trackDeg over the ground, true, [0, 360)
 * @param meanTrackDeg mean of the track over the last seconds, [0, 360)
 * @param noseDeg of the heading where there is one, else of the track; true, counted on through north
 * @param meanNoseDeg mean of that over the last seconds
 * @param turnRateDegPerS of that over the last seconds, right positive
 * @param ratesOverS over how many of the last seconds that is; fewer than usual where the flight has just been seen again
 * @param groundSpeedKt knots
 * @param headingMagneticDeg by the compass, [0, 360); NaN where the feed has no heading
 * @param altitudeFt above mean sea level; NaN where the feed has none
 * @param indicatedAirspeedKt knots; NaN where the feed has none
 * @param carried which of the last three are of a moment before, so that nothing is measured by them now
 */
record FlightInstant(
        double timeS,
        double flownS,
        GroundPoint place,
        double trackDeg,
        double meanTrackDeg,
        double noseDeg,
        double meanNoseDeg,
        double turnRateDegPerS,
        double ratesOverS,
        double groundSpeedKt,
        double headingMagneticDeg,
        double altitudeFt,
        double indicatedAirspeedKt,
        Carried carried) {

    /** Which values are those of an earlier sample. */
    record Carried(boolean heading, boolean altitude, boolean airspeed) {

        static final Carried NOTHING = new Carried(false, false, false);

        static Carried of(AircraftState state) {
            return state.headingCarried() || state.altitudeCarried() || state.airspeedCarried()
                    ? new Carried(state.headingCarried(), state.altitudeCarried(), state.airspeedCarried())
                    : NOTHING;
        }

        /** Between two instants nothing is known of what was not sent at both. */
        static Carried between(Carried a, Carried b) {
            return a.equals(b)
                    ? a
                    : new Carried(a.heading || b.heading, a.altitude || b.altitude, a.airspeed || b.airspeed);
        }
    }

    /** The flight between two instants is taken as a straight line in every quantity; long ones are split first. */
    static FlightInstant between(FlightInstant a, FlightInstant b, double share) {
        return new FlightInstant(
                mix(a.timeS, b.timeS, share),
                mix(a.flownS, b.flownS, share),
                GroundPoint.under(Normal.between(a.normal(), b.normal(), share)),
                mixDirection(a.trackDeg, b.trackDeg, share),
                mixDirection(a.meanTrackDeg, b.meanTrackDeg, share),
                mix(a.noseDeg, b.noseDeg, share),
                mix(a.meanNoseDeg, b.meanNoseDeg, share),
                mix(a.turnRateDegPerS, b.turnRateDegPerS, share),
                mix(a.ratesOverS, b.ratesOverS, share),
                mix(a.groundSpeedKt, b.groundSpeedKt, share),
                known(mixDirection(a.headingMagneticDeg, b.headingMagneticDeg, share), b.headingMagneticDeg),
                known(mix(a.altitudeFt, b.altitudeFt, share), b.altitudeFt),
                known(mix(a.indicatedAirspeedKt, b.indicatedAirspeedKt, share), b.indicatedAirspeedKt),
                Carried.between(a.carried, b.carried));
    }

    /** The same with what is measured over the last seconds. */
    FlightInstant measured(double mean, double nose, double meanNose, double rate, double rateOverS) {
        return new FlightInstant(
                timeS,
                flownS,
                place,
                trackDeg,
                mean,
                nose,
                meanNose,
                rate,
                rateOverS,
                groundSpeedKt,
                headingMagneticDeg,
                altitudeFt,
                indicatedAirspeedKt,
                carried);
    }

    private static double mix(double a, double b, double share) {
        return a + (b - a) * share;
    }

    /** The later value alone where the earlier one is not known. */
    private static double known(double mixed, double later) {
        return Double.isNaN(mixed) ? later : mixed;
    }

    private static double mixDirection(double a, double b, double share) {
        return Angles.circle(a + Angles.turn(b - a) * share);
    }

    /** Log time of a flown time inside the step that ends here. */
    double timeAt(double atS) {
        return atS + timeS - flownS;
    }

    /** Where the aircraft is; made when asked for. */
    Position position() {
        return Position.of(place);
    }

    /** Straight up from there. */
    Normal normal() {
        return place.normal();
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
                headingMagneticDeg,
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
                false,
                newPiece);
    }
}
