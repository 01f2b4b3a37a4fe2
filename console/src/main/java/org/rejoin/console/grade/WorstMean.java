package org.rejoin.console.grade;

/**
 * The largest mean of a value over a window that slides along the flight. What lies before the first value counts as 0,
 * so that a short error counts for as much as it lasted. Between values it is linear, so that the sample rate does not
 * matter.
 */
final class WorstMean implements HeldMeasures.Worst {

    private final double windowS;

    /** What the value comes to, summed over time. */
    private final TimedValues integrals = new TimedValues();

    /** Values of the window that no later one exceeds: the first is its largest. */
    private final TimedValues falling = new TimedValues();

    private double lastValue;
    private double largest;
    private double largestAtS = Double.NaN;
    private boolean measured;

    WorstMean(double windowS) {
        this.windowS = windowS;
    }

    @Override
    public void add(double flownS, double timeS, double value) {
        int last = integrals.size() - 1;
        measured |= last >= 0;
        double integral =
                last < 0 ? 0 : integrals.value(last) + (flownS - integrals.timeS(last)) * (value + lastValue) / 2;
        integrals.addLast(flownS, integral);
        lastValue = value;
        double fromS = flownS - windowS;
        while (integrals.size() > 2 && integrals.timeS(1) <= fromS) {
            integrals.removeFirst();
        }
        while (!falling.isEmpty() && falling.lastValue() < value) {
            falling.removeLast();
        }
        falling.addLast(flownS, value);
        while (falling.timeS(0) < fromS) {
            falling.removeFirst();
        }
        double mean = (integral - integralAt(fromS)) / windowS;
        if (mean > largest) {
            largest = mean;
            largestAtS = timeS - flownS + falling.timeS(0);
        }
    }

    /** At a time before the second of them; before the first nothing had come together. */
    private double integralAt(double fromS) {
        double firstS = integrals.timeS(0);
        if (integrals.size() == 1) {
            return integrals.value(0);
        }
        double share = Math.max(0, (fromS - firstS) / (integrals.timeS(1) - firstS));
        return integrals.value(0) + share * (integrals.value(1) - integrals.value(0));
    }

    /** The time to the next value was not judged. */
    @Override
    public void breakOff() {
        integrals.clear();
        falling.clear();
    }

    @Override
    public boolean measured() {
        return measured;
    }

    @Override
    public double largest() {
        return largest;
    }

    /** When the value was largest in that window, seconds since the first sample; NaN where every value was 0. */
    @Override
    public double largestAtS() {
        return largestAtS;
    }
}
