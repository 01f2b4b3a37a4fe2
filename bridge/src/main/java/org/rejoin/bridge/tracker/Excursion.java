package org.rejoin.bridge.tracker;

/**
 * Time spent outside a limit: when it began, when it ended, the worst of it. Across a gap or a pause it is one and the
 * same. On the limit is inside. The second and later ones begin a little beyond the limit, so that a value that swings about
 * it by what no instrument shows does not go out and in with each sample.
 */
final class Excursion {

    /** So much of the limit beyond it whoever was outside before is outside again; common practice, no source. */
    private static final double AGAIN_BEYOND = 0.02;

    /** What a step brought. */
    enum Change {
        NONE,
        BEGAN,
        ENDED
    }

    private boolean open;
    private boolean before;
    private double worst;
    private double atS = Double.NaN;

    /**
     * Takes a step.
     *
     * @param fromS start of the step, flown seconds
     * @param from how far beyond the limit, below zero inside; NaN where it was not seen
     * @param toS end of the step
     * @param to the same there
     * @param limit in the same unit
     * @param value that is remembered at its largest, whatever its sign
     * @return whether it began or ended in this step
     */
    Change step(double fromS, double from, double toS, double to, double limit, double value) {
        double beyond = before && !open ? AGAIN_BEYOND * limit : 0;
        if (to > beyond == open) {
            worst = open && Math.abs(value) > Math.abs(worst) ? value : worst;
            return Change.NONE;
        }
        // Outside from the first: from the start of the step.
        atS = !open && from > beyond ? fromS : Dwell.root(fromS, from - beyond, toS, to - beyond);
        if (open) {
            open = false;
            return Change.ENDED;
        }
        open = true;
        before = true;
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
