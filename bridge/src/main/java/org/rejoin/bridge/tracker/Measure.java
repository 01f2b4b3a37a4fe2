package org.rejoin.bridge.tracker;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Offset;

/**
 * A moment as seen from one course line.
 *
 * @param moment the flight
 * @param crossTrackNm right of course positive
 * @param alongNm from the start of the line
 * @param courseDeg of the line abeam, true
 * @param trackErrorDeg track less course, right positive, [-180, 180)
 * @param meanTrackErrorDeg the same with the mean track of the last seconds
 */
record Measure(
        Moment moment,
        double crossTrackNm,
        double alongNm,
        double courseDeg,
        double trackErrorDeg,
        double meanTrackErrorDeg) {

    static Measure of(Moment moment, Offset offset) {
        double course = offset.course().deg();
        return new Measure(
                moment,
                offset.crossTrackNm(),
                offset.alongTrackNm(),
                course,
                Angles.turn(moment.trackDeg() - course),
                Angles.turn(moment.meanTrackDeg() - course));
    }

    double flownS() {
        return moment.flownS();
    }

    /** Log time of a flown time inside the step that ends here. */
    double timeAt(double flownS) {
        return flownS + moment.timeS() - moment.flownS();
    }

    /** How much of the step from {@code before} has gone by at a flown time inside it, [0, 1]. */
    double shareAt(Measure before, double atS) {
        double step = flownS() - before.flownS();
        return step <= 0 ? 1 : Math.min(1, Math.max(0, (atS - before.flownS()) / step));
    }

    /** Track less course at a share of the step from {@code before}, degrees, [-180, 180). */
    double trackErrorAt(Measure before, double share) {
        return Angles.turn(before.trackErrorDeg + Angles.turn(trackErrorDeg - before.trackErrorDeg) * share);
    }
}
