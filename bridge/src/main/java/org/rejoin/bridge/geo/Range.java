package org.rejoin.bridge.geo;

/** Refuses numbers outside the range that a method states; written so that NaN fails too. */
final class Range {

    private Range() {}

    /**
     * Checks a closed range.
     *
     * @throws IllegalArgumentException if outside [low, high] or not a number; the message names value and range
     */
    static double check(String name, double value, double low, double high, String unit) {
        if (!(value >= low && value <= high)) {
            throw new IllegalArgumentException(name + " " + value + " is not in " + low + " to " + high + " " + unit);
        }
        return value;
    }
}
