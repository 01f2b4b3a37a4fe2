package org.rejoin.bridge.route;

import java.util.Optional;

import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;

/**
 * Where the track on the heading meets the course.
 *
 * @param distanceNm from the aircraft, nautical miles
 * @param minutes at the ground speed on the heading
 * @param turnDeg from the track to the course where they meet, degrees, right positive
 * @param leadNm before the meeting, along the track, for a standard-rate turn, nautical miles
 * @param alongCourseNm from the start of the course line, nautical miles
 * @param course where they meet, true, in the direction flown
 * @param airwayLeg the leg met, when the course is an airway
 */
public record Intercept(
        Position position,
        double distanceNm,
        double minutes,
        double turnDeg,
        double leadNm,
        double alongCourseNm,
        TrueDirection course,
        Optional<FiledRoute.Segment> airwayLeg) {

    /** {@return the intercept angle; degrees, [0, 180]} */
    public double angleDeg() {
        return Math.abs(turnDeg);
    }

    /**
     * The lead of the turn that is flown: above some 170 kt 3 degrees a second need more than 25 degrees of bank, and the
     * standard turn is one with that bank.
     *
     * @return before the meeting, along the track, nautical miles
     */
    public double standardTurnLeadNm() {
        return minutes > 0 ? Turn.longerLeadNm(leadNm, distanceNm / minutes * 60) : leadNm;
    }

    /** {@return which way to turn onto the course; true for right} */
    public boolean turnsRight() {
        return turnDeg > 0;
    }
}
