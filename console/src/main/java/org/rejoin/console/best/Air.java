package org.rejoin.console.best;

import java.util.Optional;

import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;

/**
 * An aircraft's speed through the air, and the air's over the ground.
 *
 * @param trueAirspeedKt knots, above 0
 * @param wind the same everywhere
 */
record Air(double trueAirspeedKt, Wind wind) {

    GroundVector on(TrueDirection heading) {
        return GroundVector.onHeading(heading, trueAirspeedKt, wind);
    }

    /** The heading that makes good a course; empty where the wind is too strong. */
    Optional<GroundVector.HeadingForCourse> along(TrueDirection course) {
        return GroundVector.forCourse(course, trueAirspeedKt, wind);
    }

    /** The heading behind a motion over the ground: air vector = ground vector - wind. */
    TrueDirection headingOf(GroundVector ground) {
        return GroundVector.onHeading(
                        ground.track(),
                        ground.groundSpeedKt(),
                        new Wind(wind.from().reciprocal(), wind.speedKt()))
                .track();
    }
}
