package org.rejoin.bridge.learn;

import java.util.Arrays;
import java.util.List;

/**
 * One number of every record, as read.
 *
 * @param spot where it stands
 * @param timeS time of receipt of each record that has it, seconds from the first datagram of the flight, ascending
 * @param raw what stands there, same length
 */
record Column(Spot spot, double[] timeS, double[] raw) {

    /** Of samples that are a time and a number each. */
    static Column of(Spot spot, List<double[]> samples) {
        return new Column(
                spot,
                samples.stream().mapToDouble(s -> s[0]).toArray(),
                samples.stream().mapToDouble(s -> s[1]).toArray());
    }

    double lowest() {
        return Arrays.stream(raw).min().orElse(Double.POSITIVE_INFINITY);
    }

    double highest() {
        return Arrays.stream(raw).max().orElse(Double.NEGATIVE_INFINITY);
    }

    /**
     * A column on the common clock.
     *
     * @param low its lowest value, as read
     * @param high its highest value, as read
     */
    record Smoothed(Column column, Grid.Smooth smooth, double low, double high) {

        Spot spot() {
            return column.spot;
        }

        /** The value farthest from 0, without its sign. */
        double largest() {
            return Math.max(Math.abs(low), Math.abs(high));
        }
    }

    /** The same in another kind of datagram. */
    Column in(int message) {
        return new Column(spot.in(message), timeS, raw);
    }

    /** Each value times a factor. */
    double[] times(double factor) {
        return Arrays.stream(raw).map(each -> each * factor).toArray();
    }

    /** Made continuous across the end of a turn of the given size. */
    static double[] unwrap(double[] values, double turn) {
        double[] out = values.clone();
        for (int i = 1; i < out.length; i++) {
            out[i] = out[i - 1] + Math.IEEEremainder(values[i] - out[i - 1], turn);
        }
        return out;
    }
}
