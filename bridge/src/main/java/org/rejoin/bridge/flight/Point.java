package org.rejoin.bridge.flight;

import java.util.OptionalDouble;

import org.rejoin.bridge.geo.Position;
import org.rejoin.protocol.AircraftState;

import org.jspecify.annotations.Nullable;

/**
 * One sample against the route. A number that there is none of is {@code NaN}.
 *
 * @param instant the flight at this sample
 * @param measure the same as seen from the line of the active leg; null where there is none to be on: before a clearance,
 *     on a heading that leads to none, and before a direct is aimed
 * @param phase what the pilot is about
 * @param legIndex of the leg whose line is measured, in the amended route; -1 before any clearance
 * @param toGoNm along that line to its end, or to the fix that is aimed at; NaN without either
 * @param fullScaleNm full-scale deviation to either side, here; NaN without a line
 * @param headingErrorDeg heading less assigned, right positive, while one is judged; else NaN
 * @param altitudeErrorFt altitude less assigned, while one is judged; else NaN
 * @param speedErrorKt indicated airspeed less assigned, while one is judged, 0 on the side where more, or less, is
 *     allowed; else NaN
 * @param direct whether that line is the way direct to a fix, which starts with the aircraft
 * @param established whether the aircraft is established on that line
 * @param newPiece whether nothing is to be drawn or concluded between the point before and this one
 */
public record Point(
        FlightInstant instant,
        @Nullable CourseMeasure measure,
        Phase phase,
        int legIndex,
        double toGoNm,
        double fullScaleNm,
        double headingErrorDeg,
        double altitudeErrorFt,
        double speedErrorKt,
        boolean direct,
        boolean established,
        boolean newPiece)
        implements Entry {

    /** What the pilot is about. */
    public enum Phase {
        /** No amendment yet. */
        AS_FILED("as filed"),
        /** On a heading, toward the course. */
        CLOSING("closing on the course"),
        /** On the course to intercept. */
        ON_COURSE("on the course"),
        /** Past its end, toward the route. */
        JOINING("joining the route"),
        /** In the hold. */
        HOLDING("holding"),
        /** The amendment is done. */
        COMPLETE("amendment complete");

        private final String words;

        Phase(String words) {
            this.words = words;
        }

        /** For a status line; a few words. */
        public String words() {
            return words;
        }
    }

    /** {@return a point before any clearance} */
    public static Point asFiled(FlightInstant instant, double altitudeErrorFt, double speedErrorKt, boolean newPiece) {
        double none = Double.NaN;
        return new Point(
                instant,
                null,
                Phase.AS_FILED,
                -1,
                none,
                none,
                none,
                altitudeErrorFt,
                speedErrorKt,
                false,
                false,
                newPiece);
    }

    @Override
    public double timeS() {
        return instant.timeS();
    }

    @Override
    public double flownS() {
        return instant.flownS();
    }

    /** {@return the sample, as received} */
    public AircraftState state() {
        return instant.state();
    }

    /** {@return track over the ground; degrees, true, [0, 360); from positions where the feed sends none} */
    public double trackTrueDeg() {
        return instant.trackDeg();
    }

    /** {@return ground speed; knots; from positions where the feed sends none} */
    public double groundSpeedKt() {
        return instant.groundSpeedKt();
    }

    /** {@return rate of turn of the heading where there is one, else of the track; degrees a second, right positive} */
    public double turnRateDegPerS() {
        return instant.turnRateDegPerS();
    }

    /** {@return heading by the compass; degrees, [0, 360); NaN where the feed has no heading} */
    public double headingMagneticDeg() {
        return instant.headingMagneticDeg();
    }

    /** {@return how far off the line; nautical miles, right positive; NaN without a line} */
    public double crossTrackNm() {
        return measure == null ? Double.NaN : measure.crossTrackNm();
    }

    /** {@return track less course; degrees, right positive, [-180, 180); NaN without a line} */
    public double trackErrorDeg() {
        return measure == null ? Double.NaN : measure.trackErrorDeg();
    }

    /** {@return where the aircraft is, WGS 84} */
    public Position position() {
        return instant.position();
    }

    /** {@return where a sample is, WGS 84} */
    public static Position positionOf(AircraftState state) {
        return Position.of(state.place());
    }

    /** {@return whether there is a line to be on} */
    public boolean hasLine() {
        return measure != null;
    }

    /** A number of this record that is NaN where there is none. */
    public static OptionalDouble given(double value) {
        return Double.isNaN(value) ? OptionalDouble.empty() : OptionalDouble.of(value);
    }

    @Override
    public void readBy(Reader reader) {
        reader.point(this);
    }
}
