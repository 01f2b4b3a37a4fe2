package org.rejoin.bridge.route;

import java.util.Optional;

import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.geo.TrueDirection;

/** Proposes a heading to a course when nobody assigned one. */
final class InterceptHeading {

    /** A proposed intercept is not steeper at its start; the course bends a little until it is met. */
    private static final double MOST_DEG = 89;

    private InterceptHeading() {}

    /**
     * Twice the angle between the wanted and the present radial, not under 20 nor over 90 degrees (Instrument Flying
     * Handbook, FAA-H-8083-15B, chapter 9, course interception).
     */
    static double doubleTheAngle(double offRadialDeg) {
        return Math.min(90, Math.max(20, 2 * Math.abs(offRadialDeg)));
    }

    /**
     * The heading, in whole fives of degrees as a controller would say it, that closes on a line at an angle; empty if
     * the wind is too strong.
     */
    static Optional<HeadingPlan> toward(GeodesicLine line, double angleDeg, Situation situation) {
        Offset offset = line.offset(situation.position());
        double toward = Math.abs(offset.crossTrackNm()) < 0.05 ? 0 : -Math.signum(offset.crossTrackNm()) * angleDeg;
        TrueDirection track = new TrueDirection(offset.course().deg() + toward);
        return situation.headingFor(track)
                .map(wind -> {
                    double magnetic =
                            wind.heading().toMagnetic(situation.variation()).deg();
                    double nearest = 5 * Math.round(magnetic / 5);
                    HeadingPlan plan = proposed(nearest, situation);
                    // Rounding must not push a right angle past it.
                    double turn = plan.ground().track().turnTo(offset.course());
                    return Math.abs(turn) > MOST_DEG ? proposed(nearest + 5 * Math.signum(turn), situation) : plan;
                })
                .filter(plan -> plan.ground().groundSpeedKt() >= HeadingPlan.LEAST_GROUND_SPEED_KT);
    }

    private static HeadingPlan proposed(double magneticDeg, Situation situation) {
        return HeadingPlan.of(HeadingPlan.Origin.PROPOSED, new MagneticDirection(magneticDeg), situation);
    }
}
