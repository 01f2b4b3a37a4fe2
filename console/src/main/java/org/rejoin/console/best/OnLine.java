package org.rejoin.console.best;

import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;

/**
 * A line being flown over the ground from so many nautical miles after its start, with heading and speed that keep the
 * aircraft on it there.
 */
record OnLine(GroundPath line, double fromNm, GroundVector.HeadingForCourse heading, Air air) {

    /** So many seconds of it. */
    Stretch of(double seconds) {
        return line.fold(
                straight -> new Stretch.OnCourse(straight, fromNm, heading, seconds),
                arc -> new Stretch.OnArc(arc, fromNm, air, seconds));
    }

    double secondsToEnd() {
        return line.fold(
                straight -> (straight.lengthNm() - fromNm) / heading.groundSpeedKt() * 3600,
                arc -> new Stretch.OnArc(arc, fromNm, air, 0).secondsTo(arc.lengthNm()));
    }

    Position at(double s) {
        return of(s).at(s);
    }

    /** The correction for drift changes a little along a geodesic. */
    TrueDirection headingAt(double s) {
        return air.along(line.courseAt(fromNm + of(s).lengthNm(s)))
                .map(GroundVector.HeadingForCourse::heading)
                .orElse(heading.heading());
    }
}
