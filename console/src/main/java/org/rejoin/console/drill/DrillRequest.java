package org.rejoin.console.drill;

import java.time.LocalDate;
import java.util.Optional;

import org.rejoin.bridge.geo.Wind;
import org.rejoin.console.skill.Shape;

/**
 * What a drill is to be like. The same request on the same chart gives the same drill.
 *
 * @param seed any number
 * @param shape of the line; empty for any
 * @param angle between track and course, degrees, within (20, 90]
 * @param minutes from the clearance to the line, within [0.5, 10]
 * @param speedKt true airspeed, knots, [60, 300]
 * @param wind of the place; empty to draw one
 * @param date for the magnetic model
 * @param extras whether an altitude or a speed may be assigned beside the line
 */
public record DrillRequest(
        long seed,
        Optional<Shape> shape,
        Band angle,
        Band minutes,
        double speedKt,
        Optional<Wind> wind,
        LocalDate date,
        boolean extras) {

    /** Intercepts of the trade, degrees: double the radials off, at least 20, at most 90 (Instrument Flying Handbook, ch. 9). */
    public static final Band USUAL_ANGLE = new Band(25, 75);

    /** Below 90 seconds only when asked for: reading back and setting up alone takes that (judgement). */
    public static final Band USUAL_MINUTES = new Band(2, 4.5);

    /** An ordinary light aircraft, knots. */
    public static final double USUAL_SPEED_KT = 120;

    /** So that a drill does not change from day to day. */
    public static final LocalDate USUAL_DATE = LocalDate.of(2026, 6, 1);

    /**
     * The usual kind of drill: any shape, usual bands, a wind that is drawn, now and then an altitude or a speed beside
     * it.
     */
    public static DrillRequest usual(long seed) {
        return new DrillRequest(
                seed, Optional.empty(), USUAL_ANGLE, USUAL_MINUTES, USUAL_SPEED_KT, Optional.empty(), USUAL_DATE, true);
    }

    /** The same with another seed. */
    public DrillRequest withSeed(long other) {
        return new DrillRequest(other, shape, angle, minutes, speedKt, wind, date, extras);
    }

    /** The same with another shape; empty for any. */
    public DrillRequest withShape(Optional<Shape> wanted) {
        return new DrillRequest(seed, wanted, angle, minutes, speedKt, wind, date, extras);
    }

    /** {@return the same without an altitude or a speed beside the line, a request} */
    public DrillRequest withoutExtras() {
        return new DrillRequest(seed, shape, angle, minutes, speedKt, wind, date, false);
    }

    /** The same for an aircraft of this true airspeed, knots, in this wind. */
    public DrillRequest flown(double knots, Wind there) {
        return new DrillRequest(seed, shape, angle, minutes, knots, Optional.of(there), date, extras);
    }

    /** The same on another day. */
    public DrillRequest on(LocalDate day) {
        return new DrillRequest(seed, shape, angle, minutes, speedKt, wind, day, extras);
    }

    /** The same with other bands, of degrees and of minutes. */
    public DrillRequest withBands(Band otherAngle, Band otherMinutes) {
        return new DrillRequest(seed, shape, otherAngle, otherMinutes, speedKt, wind, date, extras);
    }
}
