package org.rejoin.bridge.flight;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Offset;

/**
 * An instant as seen from one course line.
 *
 * @param crossTrackNm right of course positive
 * @param alongNm from the start of the line
 * @param courseDeg of the line abeam, true
 */
public record CourseMeasure(FlightInstant instant, double crossTrackNm, double alongNm, double courseDeg) {

    /** {@return an instant as seen from a line that it lies so far off} */
    public static CourseMeasure of(FlightInstant instant, Offset offset) {
        return new CourseMeasure(
                instant,
                offset.crossTrackNm(),
                offset.alongTrackNm(),
                offset.course().deg());
    }

    /** The same where the line starts with the aircraft: on neither side of it, whatever the last digit says. */
    public CourseMeasure atStart() {
        return new CourseMeasure(instant, 0, alongNm, courseDeg);
    }

    /** {@return track less course; degrees, right positive, [-180, 180)} */
    public double trackErrorDeg() {
        return Angles.turn(instant.trackDeg() - courseDeg);
    }

    /** {@return the same with the mean track of the last seconds} */
    public double meanTrackErrorDeg() {
        return Angles.turn(instant.meanTrackDeg() - courseDeg);
    }

    /** Heading less course, degrees, right positive, [-180, 180); the track where the feed has no heading. */
    public double noseErrorDeg() {
        return Angles.turn(instant.noseDeg() - courseDeg);
    }

    /** The same of the mean heading. */
    public double meanNoseErrorDeg() {
        return Angles.turn(instant.meanNoseDeg() - courseDeg);
    }

    /** At what angle the mean track closes on the line, degrees; below zero while going away from it. */
    public double towardDeg() {
        return -meanTrackErrorDeg() * Math.signum(crossTrackNm);
    }

    /** Above zero while turning: by at least this share of a standard turn. */
    public double turning(double share) {
        return instant.turning() / share - 1;
    }

    /** {@return when it is, flown seconds} */
    public double flownS() {
        return instant.flownS();
    }

    /** Log time of a flown time inside the step that ends here, both in seconds. */
    public double timeAt(double flownS) {
        return instant.timeAt(flownS);
    }

    /** How much of the step from {@code before} has gone by at a flown time inside it, [0, 1]. */
    public double shareAt(CourseMeasure before, double atS) {
        double step = flownS() - before.flownS();
        return step <= 0 ? 1 : Math.min(1, Math.max(0, (atS - before.flownS()) / step));
    }

    /** Cross-track distance at a share of the step from {@code before}, nautical miles. */
    public double crossTrackAt(CourseMeasure before, double share) {
        return before.crossTrackNm + (crossTrackNm - before.crossTrackNm) * share;
    }

    /** Along-track distance likewise, nautical miles. */
    public double alongAt(CourseMeasure before, double share) {
        return before.alongNm + (alongNm - before.alongNm) * share;
    }

    /** Track less course at a share of the step from {@code before}, degrees, [-180, 180). */
    public double trackErrorAt(CourseMeasure before, double share) {
        return Angles.turn(before.trackErrorDeg() + Angles.turn(trackErrorDeg() - before.trackErrorDeg()) * share);
    }
}
