package org.rejoin.bridge.ocean;

import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Point;
import org.rejoin.protocol.AircraftState;

/** Points of a flight that nobody has to fly for them: nothing is assigned, and their flight is not paused. */
public final class Points {

    private Points() {}

    /** A flight that turns so fast and has flown so all the time; {@code headingMagneticDeg} may be NaN. */
    public static FlightInstant instant(
            AircraftState state,
            double trackDeg,
            double groundSpeedKt,
            double turnRateDegPerS,
            double headingMagneticDeg) {
        return new FlightInstant(
                state,
                state.timeS(),
                trackDeg,
                trackDeg,
                trackDeg,
                trackDeg,
                turnRateDegPerS,
                6,
                groundSpeedKt,
                headingMagneticDeg);
    }

    /** A point toward a line or along it, on a leg; {@code headingErrorDeg} may be NaN. */
    public static Point onLeg(
            FlightInstant instant,
            Point.Phase phase,
            int leg,
            double crossTrackNm,
            double toGoNm,
            double courseDeg,
            double headingErrorDeg) {
        boolean line = !Double.isNaN(crossTrackNm);
        return new Point(
                instant,
                line ? new CourseMeasure(instant, crossTrackNm, -toGoNm, courseDeg) : null,
                phase,
                leg,
                toGoNm,
                2,
                headingErrorDeg,
                Double.NaN,
                Double.NaN,
                false,
                phase == Point.Phase.ON_COURSE,
                false);
    }
}
