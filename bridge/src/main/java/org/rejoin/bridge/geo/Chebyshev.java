package org.rejoin.bridge.geo;

/**
 * Interpolation at Chebyshev nodes of [-1, 1] (for example L. N. Trefethen, Approximation Theory and Approximation
 * Practice, chapters 2 to 4): near the best polynomial of its degree, and the size of the coefficients left out tells the
 * error.
 */
final class Chebyshev {

    private Chebyshev() {}

    /**
     * A node.
     *
     * @param i number, [0, count)
     * @param count of nodes
     * @return the zero of the polynomial of degree {@code count}, (-1, 1)
     */
    static double node(int i, int count) {
        return Math.cos(Math.PI * (i + 0.5) / count);
    }

    /** Coefficients, by degree, of the series that interpolates values at the nodes. */
    static double[] coefficients(double[] values) {
        int count = values.length;
        double[] coefficients = new double[count];
        for (int degree = 0; degree < count; degree++) {
            double sum = 0;
            for (int i = 0; i < count; i++) {
                sum += values[i] * Math.cos(degree * Math.PI * (i + 0.5) / count);
            }
            coefficients[degree] = sum * (degree == 0 ? 1 : 2) / count;
        }
        return coefficients;
    }

    /** The same polynomial in powers, quicker to evaluate; without loss for the low degrees used here. */
    static double[] powers(double[] series) {
        double[] powers = new double[series.length];
        double[] before = new double[series.length];
        double[] current = new double[series.length];
        current[0] = 1;
        for (int degree = 0; degree < series.length; degree++) {
            for (int i = 0; i < series.length; i++) {
                powers[i] += series[degree] * current[i];
            }
            // T(n + 1) = 2 x T(n) - T(n - 1), and T(1) = x.
            double[] next = new double[series.length];
            for (int i = 0; i + 1 < series.length; i++) {
                next[i + 1] = (degree == 0 ? 1 : 2) * current[i];
            }
            for (int i = 0; i < series.length; i++) {
                next[i] -= before[i];
            }
            before = current;
            current = next;
        }
        return powers;
    }
}
