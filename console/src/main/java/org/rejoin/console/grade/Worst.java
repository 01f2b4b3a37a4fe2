package org.rejoin.console.grade;

/** The error that a criterion is measured by, in windows of some length. */
abstract class Worst {

    final double windowS;
    private double largest;
    private double largestAtS = Double.NaN;
    private boolean measured;

    Worst(double windowS) {
        this.windowS = windowS;
    }

    /**
     * Takes the next error.
     *
     * @param flownS when, seconds of flying: what windows are measured in
     * @param timeS when, seconds since the first sample
     * @param error 0 or more
     */
    abstract void add(double flownS, double timeS, double error);

    /** The next error starts anew: the time between was not judged. */
    abstract void breakOff();

    /** There is enough of it to be measured by. */
    final void enough() {
        measured = true;
    }

    final void atLeast(double error, double atS) {
        if (error > largest) {
            largest = error;
            largestAtS = atS;
        }
    }

    final boolean measured() {
        return measured;
    }

    /** What it comes to; 0 where nothing counted. */
    final double largest() {
        return largest;
    }

    /** When it was that much, seconds since the first sample; NaN where nothing counted. */
    final double largestAtS() {
        return largestAtS;
    }

    /**
     * The largest value that was held for some time: over every window of that length the smallest value in it, and of those
     * the largest. A spike does not count; a longer or larger error never counts less. Values are piecewise linear between
     * samples and windows end every fifth of a second, so the sample rate hardly matters.
     */
    static final class Held extends Worst {

        /** No step between values is longer, seconds. */
        private static final double STEP_S = 0.2;

        private final TimedValues rising = new TimedValues();
        private double lastS = Double.NaN;
        private double lastValue;
        private double beganS = Double.NaN;

        Held(double windowS) {
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

    /**
     * The largest mean of a value over a window that slides along the flight. What lies before the first value counts as 0,
     * so that a short error counts for as much as it lasted. Between values it is linear, so that the sample rate does not
     * matter.
     */
    static final class Mean extends Worst {

        /** What the value comes to, summed over time. */
        private final TimedValues integrals = new TimedValues();

        /** Values of the window that no later one exceeds: the first is its largest. */
        private final TimedValues falling = new TimedValues();

        private double lastValue;

        Mean(double windowS) {
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

    /** Values in order of time, as many as are needed of the last ones: added at the end, taken from either end. */
    private static final class TimedValues {

        private static final int FIRST_ROOM = 64;

        private double[] instants = new double[FIRST_ROOM];
        private double[] values = new double[FIRST_ROOM];
        private int first;
        private int end;

        int size() {
            return end - first;
        }

        boolean isEmpty() {
            return first == end;
        }

        /** Time of the value at an index, from the oldest on; seconds. */
        double timeS(int index) {
            return instants[first + index];
        }

        double value(int index) {
            return values[first + index];
        }

        double lastValue() {
            return values[end - 1];
        }

        void addLast(double timeS, double value) {
            if (end == instants.length) {
                makeRoom();
            }
            instants[end] = timeS;
            values[end] = value;
            end++;
        }

        private void makeRoom() {
            boolean more = size() > instants.length / 2;
            instants = moved(instants, more);
            values = moved(values, more);
            end = size();
            first = 0;
        }

        private double[] moved(double[] from, boolean more) {
            double[] to = more ? new double[2 * from.length] : from;
            System.arraycopy(from, first, to, 0, size());
            return to;
        }

        void removeFirst() {
            first++;
        }

        void removeLast() {
            end--;
        }

        void clear() {
            first = 0;
            end = 0;
        }
    }
}
