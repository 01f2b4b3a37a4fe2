package org.rejoin.bridge.flight;

import java.util.OptionalDouble;

import org.rejoin.bridge.geo.Position;
import org.rejoin.protocol.AircraftState;

/**
 * One sample against the route. A number that there is none of is {@code NaN}.
 *
 * @param state as received
 * @param flownS seconds since the first sample without those in which the simulation stood still
 * @param trackTrueDeg over the ground, [0, 360); from positions where the feed sends none
 * @param groundSpeedKt knots; from positions where the feed sends none
 * @param turnRateDegPerS of the heading where there is one, else of the track; right positive
 * @param headingMagneticDeg by the compass, [0, 360); NaN where the feed has no heading
 * @param phase what the pilot is about
 * @param legIndex of the leg whose line is measured, in the amended route; -1 before any clearance
 * @param crossTrackNm from that line, right positive; NaN without a line
 * @param toGoNm along that line to its end; NaN without a line
 * @param trackErrorDeg track less course, right positive, [-180, 180); NaN without a line
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
        AircraftState state,
        double flownS,
        double trackTrueDeg,
        double groundSpeedKt,
        double turnRateDegPerS,
        double headingMagneticDeg,
        Phase phase,
        int legIndex,
        double crossTrackNm,
        double toGoNm,
        double trackErrorDeg,
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

    @Override
    public double timeS() {
        return state.timeS();
    }

    /** {@return where the aircraft is, WGS 84} */
    public Position position() {
        return positionOf(state);
    }

    /** {@return where a sample is, WGS 84} */
    public static Position positionOf(AircraftState state) {
        return Position.of(state.place());
    }

    /**
     * {@return whether there is a line to be on; false before a clearance, on a heading that leads to none, and before a
     * direct is aimed}
     */
    public boolean hasLine() {
        return !Double.isNaN(crossTrackNm);
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
