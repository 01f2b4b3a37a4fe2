package org.rejoin.bridge.tracker;

import java.util.OptionalDouble;

/**
 * A condition that must last. It is given a continuous function that is negative or zero while the condition holds, at
 * both ends of each step; the start is located by linear interpolation, so the answer does not depend on how often the
 * flight was sampled.
 */
final class Dwell {

    private final double lastsS;
    private double sinceS = Double.NaN;
    private boolean fired;

    Dwell(double lastsS) {
        this.lastsS = lastsS;
    }

    /**
     * Takes a step.
     *
     * @param fromS start of the step, flown seconds
     * @param from value of the function there
     * @param toS end of the step
     * @param to value there
     * @return when the condition had lasted long enough, if that was in this step; once for each time it holds
     */
    OptionalDouble step(double fromS, double from, double toS, double to) {
        if (to > 0) {
            // Held up to a point inside this step: it may still have lasted long enough.
            OptionalDouble last = OptionalDouble.empty();
            if (!fired && from <= 0) {
                double heldFromS = Double.isNaN(sinceS) ? fromS : sinceS;
                if (root(fromS, from, toS, to) - heldFromS >= lastsS) {
                    last = OptionalDouble.of(heldFromS + lastsS);
                }
            }
            reset();
            return last;
        }
        if (Double.isNaN(sinceS)) {
            sinceS = from > 0 ? root(fromS, from, toS, to) : fromS;
        }
        if (!fired && toS - sinceS >= lastsS) {
            fired = true;
            return OptionalDouble.of(sinceS + lastsS);
        }
        return OptionalDouble.empty();
    }

    /** Whether the condition has lasted long enough and still holds. */
    boolean lasting() {
        return fired;
    }

    /** Since when the condition has held, flown seconds; NaN if it does not. */
    double sinceS() {
        return sinceS;
    }

    void reset() {
        sinceS = Double.NaN;
        fired = false;
    }

    /** Where a linear function between two values of different sign is zero; the end of the step where one is not known. */
    static double root(double fromS, double from, double toS, double to) {
        double difference = to - from;
        if (difference == 0 || Double.isNaN(difference) || Double.isInfinite(difference)) {
            return toS;
        }
        return fromS + (toS - fromS) * Math.min(1, Math.max(0, -from / difference));
    }
}
