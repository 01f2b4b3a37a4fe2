package org.rejoin.console.grade;

/**
 * The largest value that was held for some time: over every window of that length the smallest value in it, and of those
 * the largest. A spike does not count; a longer or larger error never counts less. Values are piecewise linear between
 * samples and windows end every fifth of a second, so the sample rate hardly matters.
 */
final class LargestHeld extends HeldMeasures.Worst {

    /** No step between values is longer, seconds. */
    private static final double STEP_S = 0.2;

    private final TimedValues rising = new TimedValues();
    private double lastS = Double.NaN;
    private double lastValue;
    private double beganS = Double.NaN;

    LargestHeld(double windowS) {
        super(windowS);
    }

    @Override
    void add(double flownS, double timeS, double value) {
        // Between samples in straight lines, so that sparse ones give the same windows as dense ones.
        int pieces = Double.isNaN(lastS) ? 1 : Math.max(1, (int) Math.ceil((flownS - lastS) / STEP_S - 1e-6));
        double fromS = lastS;
        double from = lastValue;
        for (int i = 1; i < pieces; i++) {
            double share = (double) i / pieces;
            take(fromS + (flownS - fromS) * share, from + (value - from) * share, timeS - flownS);
        }
        take(flownS, value, timeS - flownS);
        lastS = flownS;
        lastValue = value;
    }

    /** Taken at a time flown; so long of the flight was not flown. */
    private void take(double flownS, double value, double stoodS) {
        if (Double.isNaN(beganS)) {
            beganS = flownS;
        }
        while (!rising.isEmpty() && rising.lastValue() >= value) {
            rising.removeLast();
        }
        rising.addLast(flownS, value);
        while (rising.timeS(0) < flownS - windowS - 1e-9) {
            rising.removeFirst();
        }
        if (flownS - beganS >= windowS - 1e-9) {
            enough();
            atLeast(rising.value(0), rising.timeS(0) + stoodS);
        }
    }

    @Override
    void breakOff() {
        rising.clear();
        beganS = Double.NaN;
        lastS = Double.NaN;
    }
}
