package org.rejoin.bridge.route;

import java.util.OptionalDouble;

/** How fast the aircraft climbs and descends, feet a minute, above 0; empty where unknown. */
public record Performance(OptionalDouble climbFpm, OptionalDouble descentFpm) {

    /** Nothing known: what a light aircraft does is taken. */
    public static final Performance UNKNOWN = new Performance(OptionalDouble.empty(), OptionalDouble.empty());

    /** What a light aircraft climbs and descends at most, feet a minute (common practice, no source). */
    private static final double LIGHT_FPM = 1000;

    /** The most it can, up or down, feet a minute. */
    public double mostFpm(boolean up) {
        return (up ? climbFpm : descentFpm).orElse(LIGHT_FPM);
    }
}
