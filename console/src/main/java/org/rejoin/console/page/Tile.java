package org.rejoin.console.page;

import java.util.List;
import java.util.OptionalDouble;

/**
 * A seat at one look.
 *
 * @param timeS of the flight, seconds
 * @param altitudeFt MSL; empty where unsent
 * @param headingMagneticDeg empty where unsent
 * @param groundSpeedKt over ground
 * @param off which limits it is off now, since when
 * @param next what must happen next
 * @param phase of the amendment
 * @param score so far; empty while nothing was graded
 * @param faults so far
 */
public record Tile(
        double timeS,
        OptionalDouble altitudeFt,
        OptionalDouble headingMagneticDeg,
        double groundSpeedKt,
        List<LimitOff> off,
        String next,
        String phase,
        OptionalDouble score,
        int faults) {

    /** One limit that is not held at this moment, as "290 ft low", and since which second of the flight. */
    public record LimitOff(String what, double sinceS) {}

    static final Tile EMPTY = new Tile(
            0, OptionalDouble.empty(), OptionalDouble.empty(), 0, List.of(), "", "", OptionalDouble.empty(), 0);

    public Tile {
        off = List.copyOf(off);
    }

    Tile said(String what, String where) {
        return new Tile(timeS, altitudeFt, headingMagneticDeg, groundSpeedKt, off, what, where, score, faults);
    }

    Tile graded(OptionalDouble soFar, int found) {
        return new Tile(timeS, altitudeFt, headingMagneticDeg, groundSpeedKt, off, next, phase, soFar, found);
    }
}
