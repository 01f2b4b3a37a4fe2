package org.rejoin.bridge.learn;

import java.util.Arrays;

/** A common clock for all columns of a frame, and the smoothing on it. */
final class Grid {

    /** Seconds between points. */
    static final double STEP_S = 0.25;

    /** Half the window of the local parabola, seconds: turns of 3 deg/s lose 0.2 % of their speed in it. */
    private static final double HALF_WINDOW_S = 2.4;

    /** Points this far from any record are not used. */
    private static final double GAP_S = 2.0;

    private final int points;
    private final int half;
    private final int[] used;

    /** A clock over records, whose times ascend from 0. */
    Grid(double[] timeS) {
        points = timeS.length == 0 ? 0 : (int) (timeS[timeS.length - 1] / STEP_S) + 1;
        double interval = timeS.length < 2 ? 1 : timeS[timeS.length - 1] / (timeS.length - 1);
        half = (int) Math.round(Math.max(HALF_WINDOW_S, 2.5 * interval) / STEP_S);
        int[] found = new int[points];
        int count = 0;
        int next = 0;
        for (int i = half; i < points - half; i += 2) {
            double at = i * STEP_S;
            while (next + 1 < timeS.length && timeS[next + 1] <= at) {
                next++;
            }
            double gap = next + 1 < timeS.length ? timeS[next + 1] - timeS[next] : 0;
            if (gap <= Math.max(GAP_S, 4 * interval)) {
                found[count++] = i;
            }
        }
        used = Arrays.copyOf(found, count);
    }

    /** Points that fits use. */
    int size() {
        return used.length;
    }

    double timeS(int i) {
        return used[i] * STEP_S;
    }

    /**
     * Values and slopes of a local parabola at the points used.
     *
     * @param timeS of the values, ascending
     * @param values made continuous where they are circular
     */
    Smooth smooth(double[] timeS, double[] values) {
        double[] even = resample(timeS, values);
        double[] value = new double[used.length];
        double[] slope = new double[used.length];
        double s2 = 0;
        double s4 = 0;
        int n = 2 * half + 1;
        for (int j = -half; j <= half; j++) {
            s2 += (double) j * j;
            s4 += (double) j * j * j * j;
        }
        double det = n * s4 - s2 * s2;
        double roughness = 0;
        for (int i = 0; i < used.length; i++) {
            int at = used[i];
            double base = even[at];
            double sum = 0;
            double sum1 = 0;
            double sum2 = 0;
            for (int j = -half; j <= half; j++) {
                double y = even[at + j] - base;
                sum += y;
                sum1 += j * y;
                sum2 += (double) j * j * y;
            }
            double offset = (s4 * sum - s2 * sum2) / det;
            value[i] = base + offset;
            slope[i] = sum1 / s2 / STEP_S;
            roughness += offset * offset;
        }
        return new Smooth(value, slope, used.length == 0 ? 0 : Math.sqrt(roughness / used.length));
    }

    private double[] resample(double[] timeS, double[] values) {
        double[] even = new double[points];
        int next = 0;
        for (int i = 0; i < points; i++) {
            double at = i * STEP_S;
            while (next < timeS.length && timeS[next] < at) {
                next++;
            }
            int last = next;
            double sum = 0;
            for (int j = next; j < timeS.length && timeS[j] < at + STEP_S / 2; j++) {
                sum += values[j];
                last = j + 1;
            }
            int first = next;
            while (first > 0 && timeS[first - 1] > at - STEP_S / 2) {
                sum += values[--first];
            }
            if (last - first > 2) { // fast feeds: the mean of all in this step
                even[i] = sum / (last - first);
            } else if (next == 0) {
                even[i] = values[0];
            } else if (next == timeS.length) {
                even[i] = values[timeS.length - 1];
            } else {
                double share = (at - timeS[next - 1]) / (timeS[next] - timeS[next - 1]);
                even[i] = values[next - 1] + share * (values[next] - values[next - 1]);
            }
        }
        return even;
    }

    /**
     * A smoothed column.
     *
     * @param value at each point used
     * @param slope a second
     * @param roughness root mean square distance of the column from its smooth course
     */
    record Smooth(double[] value, double[] slope, double roughness) {

        /** Nearly the whole range, in spite of single wild values. */
        double spread() {
            return range(value);
        }

        static double range(double[] values) {
            double[] sorted = values.clone();
            Arrays.sort(sorted);
            return sorted.length == 0 ? 0 : sorted[(int) (sorted.length * 0.99)] - sorted[(int) (sorted.length * 0.01)];
        }
    }
}
