package org.rejoin.bridge.geo;

import java.util.Locale;

/** Reduction of angles in degrees. One place, so that wrap-round is written and tested once. */
public final class Angles {

    private Angles() {}

    /** Reduces a direction to the full circle, [0, 360); never -0. */
    public static double circle(double deg) {
        if (deg > 0 && deg < 360) {
            return deg;
        }
        double reduced = deg % 360;
        if (reduced < 0) {
            reduced += 360;
        }
        // A tiny negative input rounds to 360 in the addition; -0 + 0 is 0.
        return reduced >= 360 ? 0 : reduced + 0.0;
    }

    /** An angle between two lines, whichever way each is flown, [0, 90]. */
    public static double acute(double deg) {
        double off = Math.abs(turn(deg));
        return Math.min(off, 180 - off);
    }

    /** A direction in three figures, as it is said and set, "001" to "360": north is 360, never 000. */
    public static String figures(double deg) {
        long whole = Math.floorMod(Math.round(deg), 360);
        return String.format(Locale.ROOT, "%03d", whole == 0 ? 360 : whole);
    }

    /** An angle in words, to the whole degree: "46 degrees", and "1 degree" of one. */
    public static String degrees(double deg) {
        long whole = Math.round(deg);
        return whole + (Math.abs(whole) == 1 ? " degree" : " degrees");
    }

    /**
     * A correction or an error with its sign, right or east positive: "+1.28", "-0.50", "+0.00"; what rounds to nothing
     * is never minus.
     */
    public static String signed(double deg, int decimals) {
        String digits = String.format(Locale.ROOT, "%." + decimals + "f", Math.abs(deg));
        boolean nothing = digits.chars().allMatch(c -> c == '0' || c == '.');
        return (deg < 0 && !nothing ? "-" : "+") + digits;
    }

    /**
     * Reduces a difference of directions to the half circle on either side: the same turn the short way, clockwise
     * positive, [-180, 180).
     */
    public static double turn(double deg) {
        // Not by way of circle(): -55.1 must come back as -55.1, not as its neighbour.
        double reduced = deg >= -180 && deg < 180 ? deg : deg % 360;
        if (reduced >= 180) {
            reduced -= 360;
        } else if (reduced < -180) {
            reduced += 360;
        }
        return reduced + 0.0;
    }
}
