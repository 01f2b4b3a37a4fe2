package org.rejoin.bridge.tracker;

/** A quantity over the last seconds, linear between samples: its value then, its mean, its rate of change. */
final class Series {

    private static final int FIRST_ROOM = 64;

    private final double keepS;
    private double[] times = new double[FIRST_ROOM];
    private double[] values = new double[FIRST_ROOM];
    private double[] integrals = new double[FIRST_ROOM];
    private int first;
    private int size;

    /** Nothing yet; it can be asked back so many seconds. */
    Series(double keepS) {
        this.keepS = keepS;
    }

    boolean isEmpty() {
        return size == 0;
    }

    /** Adds a value, later than the last. */
    void add(double atS, double value) {
        double integral = 0;
        if (size > 0) {
            int last = first + size - 1;
            integral = integrals[last] + (atS - times[last]) * (values[last] + value) / 2;
        }
        if (first + size == times.length) {
            makeRoom();
        }
        int next = first + size;
        times[next] = atS;
        values[next] = value;
        integrals[next] = integral;
        size++;
        // One older than asked for stays: the value is wanted between it and the next.
        while (size > 2 && times[first + 1] <= atS - keepS) {
            first++;
            size--;
        }
    }

    private void makeRoom() {
        boolean more = size > times.length / 2;
        times = moved(times, more);
        values = moved(values, more);
        integrals = moved(integrals, more);
        first = 0;
    }

    private double[] moved(double[] from, boolean more) {
        double[] to = more ? new double[2 * from.length] : from;
        System.arraycopy(from, first, to, 0, size);
        return to;
    }

    double firstS() {
        return size == 0 ? Double.NaN : times[first];
    }

    /** The oldest value that is kept; NaN where there is none. */
    double first() {
        return size == 0 ? Double.NaN : values[first];
    }

    /** When the last value was; NaN where there is none. */
    double lastS() {
        return size == 0 ? Double.NaN : times[first + size - 1];
    }

    double last() {
        return size == 0 ? Double.NaN : values[first + size - 1];
    }

    /** Index of the last sample not after a time, within what is kept. */
    private int before(double atS) {
        int low = first;
        int high = first + size - 1;
        if (times[high] <= atS) {
            return high;
        }
        while (low < high) {
            int middle = (low + high + 1) >>> 1;
            if (times[middle] <= atS) {
                low = middle;
            } else {
                high = middle - 1;
            }
        }
        return low;
    }

    /** Value at a time; the first or the last one outside what is known. */
    double at(double atS) {
        return at(before(atS), atS);
    }

    private double at(int i, double atS) {
        if (atS <= times[i] || i == first + size - 1) {
            return values[i];
        }
        return values[i] + (values[i + 1] - values[i]) * (atS - times[i]) / (times[i + 1] - times[i]);
    }

    private double integral(double atS) {
        int i = before(atS);
        return integrals[i] + (atS - times[i]) * (values[i] + at(i, atS)) / 2;
    }

    /** Mean over the last seconds before a time, or over as many as there are; the value itself where there are none. */
    double mean(double atS, double overS) {
        double fromS = Math.max(atS - overS, times[first]);
        return atS - fromS < 1e-6 ? at(atS) : (integral(atS) - integral(fromS)) / (atS - fromS);
    }

    /** Change a second over the last seconds before a time, or over as many as there are, a second at least; else 0. */
    double rate(double atS, double overS) {
        double fromS = Math.max(atS - overS, times[first]);
        return atS - fromS < 1 - 1e-6 ? 0 : (at(atS) - at(fromS)) / (atS - fromS);
    }

    /** Largest value in {@code sign} direction between a time and the last sample. */
    double extreme(double fromS, double sign) {
        double most = at(Math.max(fromS, times[first]));
        for (int i = first; i < first + size; i++) {
            if (times[i] >= fromS && sign * values[i] > sign * most) {
                most = values[i];
            }
        }
        return most;
    }

    /** Forgets what came after a time; how far back it can be asked stays. */
    void forgetAfter(double atS) {
        while (size > 0 && times[first + size - 1] > atS) {
            size--;
        }
    }

    void clear() {
        first = 0;
        size = 0;
    }
}
