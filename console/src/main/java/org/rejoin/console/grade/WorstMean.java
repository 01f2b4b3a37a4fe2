package org.rejoin.console.grade;

/**
 * The largest mean of a value over a window that slides along the flight. What lies before the first value counts as 0,
 * so that a short error counts for as much as it lasted. Between values it is linear, so that the sample rate does not
 * matter.
 */
final class WorstMean extends HeldMeasures.Worst {

    /** What the value comes to, summed over time. */
    private final TimedValues integrals = new TimedValues();

    /** Values of the window that no later one exceeds: the first is its largest. */
    private final TimedValues falling = new TimedValues();

    private double lastValue;

    WorstMean(double windowS) {
        super(windowS);
    }

    @Override
    void add(double flownS, double timeS, double value) {
        int last = integrals.size() - 1;
        if (last >= 0) {
            enough();
        }
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
        atLeast((integral - integralAt(fromS)) / windowS, timeS - flownS + falling.timeS(0));
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

    @Override
    void breakOff() {
        integrals.clear();
        falling.clear();
    }
}
