package org.rejoin.bridge.tracker;

import java.util.OptionalDouble;

/**
 * A function that changes its sign. Any number of zeros between two signs are one crossing, located at the last of them;
 * touching zero is none.
 */
final class SignChange {

    private double side;

    /** Takes the first value, or the first after a gap: true if the sign has changed since the last, unseen. */
    boolean begin(double value) {
        double here = Math.signum(value);
        boolean changed = side != 0 && here != 0 && here != side;
        side = here == 0 ? side : here;
        return changed;
    }

    /**
     * Takes a step.
     *
     * @param fromS start of the step, flown seconds
     * @param from value of the function there
     * @param toS end of the step
     * @param to value there
     * @return when it crossed zero, if that was in this step
     */
    OptionalDouble step(double fromS, double from, double toS, double to) {
        return begin(to) ? OptionalDouble.of(Dwell.root(fromS, from, toS, to)) : OptionalDouble.empty();
    }
}
