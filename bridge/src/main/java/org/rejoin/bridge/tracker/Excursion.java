package org.rejoin.bridge.tracker;

/**
 * Time spent outside a limit: when it began, when it ended, the worst of it. Across a gap or a pause it is one and the
 * same. The limit has no hysteresis: whoever hovers on it goes in and out.
 */
final class Excursion {

    /** What a step brought. */
    enum Change {
        NONE,
        BEGAN,
        ENDED
    }

    private boolean open;
    private double worst;
    private double atS = Double.NaN;

    /**
     * Takes a step.
     *
     * @param fromS start of the step, flown seconds
     * @param from above zero outside; NaN where it was not seen
     * @param toS end of the step
     * @param to the same there
     * @param value that is remembered at its largest, whatever its sign
     * @return whether it began or ended in this step
     */
    Change step(double fromS, double from, double toS, double to, double value) {
        if (to > 0 == open) {
            worst = open && Math.abs(value) > Math.abs(worst) ? value : worst;
            return Change.NONE;
        }
        // Outside from the first: from the start of the step.
        atS = !open && from > 0 ? fromS : Dwell.root(fromS, from, toS, to);
        if (open) {
            open = false;
            return Change.ENDED;
        }
        open = true;
        worst = value;
        return Change.BEGAN;
    }

    boolean open() {
        return open;
    }

    /** Largest value of the last excursion. */
    double worst() {
        return worst;
    }

    /** When the last change was, flown seconds. */
    double atS() {
        return atS;
    }

    /** Nothing more comes of it: true if it was open. */
    boolean close() {
        boolean was = open;
        open = false;
        return was;
    }
}
