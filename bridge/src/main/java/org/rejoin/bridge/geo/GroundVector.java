package org.rejoin.bridge.geo;

import java.util.Optional;

/**
 * Motion over the ground, and the wind triangle that gives it.
 *
 * @param track direction over the ground, true
 * @param groundSpeedKt knots, [0, 2e9]
 */
public record GroundVector(TrueDirection track, double groundSpeedKt) {

    /**
     * Checks the range.
     *
     * @throws IllegalArgumentException if the speed is outside [0, 2e9] knots or not a number
     */
    public GroundVector {
        Range.check("ground speed", groundSpeedKt, 0, 2 * Turn.MAX_SPEED_KT, "knots");
    }

    /**
     * Track and ground speed on a heading: the vector sum of air vector and wind.
     *
     * @param heading true
     * @param trueAirspeedKt knots, [0, 1e9]
     * @param wind of the place
     * @return motion over the ground; the heading as track where both speeds cancel
     * @throws IllegalArgumentException if the airspeed is out of range or not a number
     */
    public static GroundVector onHeading(TrueDirection heading, double trueAirspeedKt, Wind wind) {
        Range.check("true airspeed", trueAirspeedKt, 0, Turn.MAX_SPEED_KT, "knots");
        double headingRad = Math.toRadians(heading.deg());
        double windRad = Math.toRadians(wind.from().deg());
        double north = trueAirspeedKt * Math.cos(headingRad) - wind.speedKt() * Math.cos(windRad);
        double east = trueAirspeedKt * Math.sin(headingRad) - wind.speedKt() * Math.sin(windRad);
        double speed = Math.hypot(north, east);
        if (speed < 1e-9) {
            return new GroundVector(heading, 0);
        }
        return new GroundVector(new TrueDirection(Math.toDegrees(Math.atan2(east, north))), speed);
    }

    /**
     * The heading that makes good a course, with the ground speed it gives: wind correction angle = asin(w / TAS
     * sin(wind - course)) (Pilot's Handbook of Aeronautical Knowledge, FAA-H-8083-25, chapter 16).
     *
     * @param course wanted over the ground, true
     * @param trueAirspeedKt knots, [0, 1e9]
     * @param wind of the place
     * @return heading and ground speed; empty if the wind is too strong to make the course good
     * @throws IllegalArgumentException if the airspeed is out of range or not a number
     */
    public static Optional<HeadingForCourse> forCourse(TrueDirection course, double trueAirspeedKt, Wind wind) {
        Range.check("true airspeed", trueAirspeedKt, 0, Turn.MAX_SPEED_KT, "knots");
        double angle = Math.toRadians(wind.from().deg() - course.deg());
        double sine = wind.speedKt() / trueAirspeedKt * Math.sin(angle);
        if (!(Math.abs(sine) <= 1)) {
            return Optional.empty();
        }
        double correction = Math.asin(sine);
        double groundSpeed = trueAirspeedKt * Math.cos(correction) - wind.speedKt() * Math.cos(angle);
        if (groundSpeed <= 0) {
            return Optional.empty();
        }
        return Optional.of(new HeadingForCourse(
                new TrueDirection(course.deg() + Math.toDegrees(correction)), Math.toDegrees(correction), groundSpeed));
    }

    /**
     * The other side of the wind triangle.
     *
     * @param heading to fly, true
     * @param correctionDeg wind correction angle, degrees, right positive
     * @param groundSpeedKt knots, above 0
     */
    public record HeadingForCourse(TrueDirection heading, double correctionDeg, double groundSpeedKt) {}
}
