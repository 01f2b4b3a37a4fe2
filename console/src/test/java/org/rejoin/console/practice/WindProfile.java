package org.rejoin.console.practice;

import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;

/**
 * Wind that changes with height, straight from a known height on.
 *
 * @param known the wind at one height
 * @param knownFt that height above mean sea level, feet
 * @param veerDegPer1000Ft how much it veers (clockwise) with each 1,000 ft up, degrees
 * @param strongerKtPer1000Ft how much stronger it grows with each 1,000 ft up, knots; it never falls below calm
 */
public record WindProfile(Wind known, double knownFt, double veerDegPer1000Ft, double strongerKtPer1000Ft) {

    /** The mean wind at an altitude above mean sea level, feet; at most 300 knots. */
    public Wind at(double altitudeFt) {
        if (veerDegPer1000Ft == 0 && strongerKtPer1000Ft == 0) {
            return known;
        }
        double thousands = (altitudeFt - knownFt) / 1000;
        double speed = Math.max(0, Math.min(300, known.speedKt() + strongerKtPer1000Ft * thousands));
        return new Wind(new TrueDirection(known.from().deg() + veerDegPer1000Ft * thousands), speed);
    }
}
