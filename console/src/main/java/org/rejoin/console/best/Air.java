package org.rejoin.console.best;

import java.util.Optional;

import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.geo.Wind;

/**
 * An aircraft's speed through the air, the rate it turns at, and the air's speed over the ground.
 *
 * @param trueAirspeedKt knots, above 0
 * @param wind the same everywhere
 * @param rateDegPerS of its turns, degrees a second, above 0
 */
record Air(double trueAirspeedKt, Wind wind, double rateDegPerS) {

    /** With standard turns: 3 degrees a second or 25 degrees of bank, whichever needs less bank (ICAO Doc 8168). */
    Air(double trueAirspeedKt, Wind wind) {
        this(trueAirspeedKt, wind, Turn.standardTurnRateDegPerS(trueAirspeedKt));
    }

    /** With level coordinated turns at a bank, degrees, above 0. */
    static Air banked(double trueAirspeedKt, Wind wind, double bankDeg) {
        return new Air(trueAirspeedKt, wind, Turn.rateDegPerS(trueAirspeedKt, bankDeg));
    }

    /** The air behind a motion over the ground, with turns at standard rate. */
    static Air behind(GroundVector ground, Wind wind) {
        double windRad = Math.toRadians(wind.from().deg());
        double track = Math.toRadians(ground.track().deg());
        double north = ground.groundSpeedKt() * Math.cos(track) + wind.speedKt() * Math.cos(windRad);
        double east = ground.groundSpeedKt() * Math.sin(track) + wind.speedKt() * Math.sin(windRad);
        return new Air(Math.max(1, Math.hypot(north, east)), wind);
    }

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
