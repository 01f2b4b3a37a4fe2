package org.rejoin.bridge.geo;

/**
 * Wind over the ground.
 *
 * @param from where it blows from, true
 * @param speedKt knots, [0, 300]
 */
public record Wind(TrueDirection from, double speedKt) {

    /** No wind. */
    public static final Wind CALM = new Wind(new TrueDirection(0), 0);

    /**
     * Checks the range.
     *
     * @throws IllegalArgumentException if the speed is outside [0, 300] knots or not a number
     */
    public Wind {
        if (!(speedKt >= 0 && speedKt <= 300)) {
            throw new IllegalArgumentException("wind speed " + speedKt + " is not in 0 to 300 knots");
        }
    }
}
