package org.rejoin.console.practice;

/**
 * The air's own motion at one instant, beside the mean wind, in the axes of the path through the air.
 *
 * @param alongKt forward positive, knots
 * @param acrossKt to the right positive, knots
 * @param upKt up positive, knots
 * @param rollDegPerS how fast the air rolls the aircraft, right positive, degrees a second
 */
public record Gust(double alongKt, double acrossKt, double upKt, double rollDegPerS) {

    /** Smooth air. */
    public static final Gust NONE = new Gust(0, 0, 0, 0);
}
