package org.rejoin.console.best;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What flying another path than the best one cost.
 *
 * @param turnedLateS seconds between where a standard-rate turn from the heading as flown would have rolled out on the
 *     course and where the turn began; negative when it began early; empty where no heading was flown to a turn
 * @param pastLineNm farthest on the far side of the course before established on it, nautical miles, 0 or more
 * @param lost compared where both are established on the leg that completes the amendment; empty when it was never
 *     complete, or the flight was set elsewhere or not seen on the way
 */
public record Cost(OptionalDouble turnedLateS, double pastLineNm, Optional<Lost> lost) {

    /**
     * Time and distance over the ground beyond those of the best path, seconds and nautical miles; negative where the
     * pilot was quicker.
     */
    public record Lost(double seconds, double nm) {}
}
