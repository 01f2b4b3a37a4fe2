package org.rejoin.bridge.tracker;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Offset;

/**
 * A moment as seen from one course line.
 *
 * @param moment the flight
 * @param crossTrackNm right of course positive
 * @param alongNm from the start of the line
 * @param courseDeg of the line abeam, true
 * @param trackErrorDeg track less course, right positive, [-180, 180)
 */
record Measure(Moment moment, double crossTrackNm, double alongNm, double courseDeg, double trackErrorDeg) {

    static Measure of(Moment moment, GeodesicLine line) {
        Offset offset = line.offset(moment.position());
        double course = offset.course().deg();
        return new Measure(
                moment, offset.crossTrackNm(), offset.alongTrackNm(), course, Angles.turn(moment.trackDeg() - course));
    }

    double flownS() {
        return moment.flownS();
    }

    /** Log time of a flown time inside the step that ends here. */
    double timeAt(double flownS) {
        return flownS + moment.timeS() - moment.flownS();
    }
}
