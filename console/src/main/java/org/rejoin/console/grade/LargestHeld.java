package org.rejoin.console.grade;

/**
 * The largest value that was held for some time: over every window of that length the smallest value in it, and of those
 * the largest. A spike does not count; a longer or larger error never counts less. Values are piecewise linear between
 * samples and windows end every fifth of a second, so the sample rate hardly matters.
 */
final class LargestHeld implements HeldMeasures.Worst {

    /** No step between values is longer, seconds. */
    private static final double STEP_S = 0.2;

    private final double windowS;
    private final TimedValues rising = new TimedValues();
    private double lastS = Double.NaN;
    private double lastValue;
    private double beganS = Double.NaN;
    private double largest;
    private double largestAtS = Double.NaN;
    private boolean measured;

    LargestHeld(double windowS) {
        this.windowS = windowS;
    }

    @Override
    public void add(double flownS, double timeS, double value) {
        double before = largest;
        addFlown(flownS, value);
        if (largest > before) {
            largestAtS += timeS - flownS;
        }
    }

    private void addFlown(double timeS, double value) {
        // Between samples in straight lines, so that sparse ones give the same windows as dense ones.
        int pieces = Double.isNaN(lastS) ? 1 : Math.max(1, (int) Math.ceil((timeS - lastS) / STEP_S - 1e-6));
        double fromS = lastS;
        double from = lastValue;
        for (int i = 1; i < pieces; i++) {
            double share = (double) i / pieces;
            take(fromS + (timeS - fromS) * share, from + (value - from) * share);
        }
        take(timeS, value);
        lastS = timeS;
        lastValue = value;
    }

    private void take(double timeS, double value) {
        if (Double.isNaN(beganS)) {
            beganS = timeS;
        }
        while (!rising.isEmpty() && rising.lastValue() >= value) {
            rising.removeLast();
        }
        rising.addLast(timeS, value);
        while (rising.timeS(0) < timeS - windowS - 1e-9) {
            rising.removeFirst();
        }
        boolean whole = timeS - beganS >= windowS - 1e-9;
        measured |= whole;
        if (whole && rising.value(0) > largest) {
            largest = rising.value(0);
            largestAtS = rising.timeS(0);
        }
    }

    /** The next value starts anew: the time between was not judged. */
    @Override
    public void breakOff() {
        rising.clear();
        beganS = Double.NaN;
        lastS = Double.NaN;
    }

    @Override
    public boolean measured() {
        return measured;
    }

    @Override
    public double largest() {
        return largest;
    }

    /** When it was that much off, seconds since the first sample; NaN where it never was off for so long. */
    @Override
    public double largestAtS() {
        return largestAtS;
    }
}
