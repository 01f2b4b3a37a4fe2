package org.rejoin.bridge.route;

import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.TrueDirection;

/**
 * The heading that is to meet the course, and what it makes good over the ground.
 *
 * @param headingTrue the same, true, by today's variation
 * @param ground track and ground speed in the wind
 * @param path the geodesic of that track from the aircraft
 */
public record HeadingPlan(
        Origin origin, MagneticDirection magnetic, TrueDirection headingTrue, GroundVector ground, GeodesicLine path) {

    /** How far ahead a heading is followed in search of its course, nautical miles. */
    static final double REACH_NM = 500;

    /** Below this a position ahead is no prediction, knots (common practice, no source). */
    static final double LEAST_GROUND_SPEED_KT = 5;

    /** Who chose the heading. */
    public enum Origin {
        /** ATC assigned it. */
        ASSIGNED,
        /** The aircraft flies it already. */
        PRESENT,
        /** Nobody named one; this is our proposal. */
        PROPOSED
    }

    static HeadingPlan of(Origin origin, MagneticDirection magnetic, Situation situation) {
        TrueDirection headingTrue = magnetic.toTrue(situation.variation());
        GroundVector ground = GroundVector.onHeading(headingTrue, situation.trueAirspeedKt(), situation.wind());
        return new HeadingPlan(
                origin,
                magnetic,
                headingTrue,
                ground,
                GeodesicLine.from(situation.position(), ground.track(), REACH_NM));
    }
}
