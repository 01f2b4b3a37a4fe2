package org.rejoin.console.skill;

import java.util.OptionalDouble;

/**
 * The line that a clearance leads to, as far as it tells drills apart.
 *
 * @param radialDeg radial to intercept, degrees; empty on an airway
 * @param headingDeg assigned, magnetic, degrees; empty where none was
 * @param airway flown along or joined; empty text where there is none
 */
public record Line(OptionalDouble radialDeg, OptionalDouble headingDeg, String airway) {

    /** Radials and headings this near are the same to a pilot who remembers, degrees; judgement. */
    private static final double SAME_DEG = 10;

    /** Whether another is the same again: radial and heading within 10 degrees, on the same airway. */
    public boolean repeats(Line other) {
        return airway.equals(other.airway) && sameRadial(other) && near(headingDeg, other.headingDeg);
    }

    /** Whether both lead along radials within 10 degrees; true too where neither has one. */
    public boolean sameRadial(Line other) {
        return near(radialDeg, other.radialDeg);
    }

    private static boolean near(OptionalDouble one, OptionalDouble two) {
        if (one.isEmpty() || two.isEmpty()) {
            return one.isEmpty() && two.isEmpty();
        }
        double apart = Math.abs(one.getAsDouble() - two.getAsDouble()) % 360;
        return Math.min(apart, 360 - apart) <= SAME_DEG;
    }
}
