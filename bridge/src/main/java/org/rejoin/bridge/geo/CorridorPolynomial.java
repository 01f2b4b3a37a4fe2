package org.rejoin.bridge.geo;

import java.util.Arrays;

/**
 * A polynomial in the two coordinates of a leg's corridor, both scaled to [-1, 1]: degree 5 along, 3 across, of the mixed
 * terms only those that matter for legs of 300 NM. Written out, because it is evaluated at every sample.
 */
final class CorridorPolynomial {

    /** Highest degree along the leg, for each degree across it. */
    private static final int[] DEGREE_ALONG = {5, 4, 2, 1};

    static final int NODES_ALONG = 8;
    static final int NODES_ACROSS = 6;

    private final double[] across0;
    private final double[] across1;
    private final double[] across2;
    private final double[] across3;
    private final double error;

    private CorridorPolynomial(double[][] byDegreeAcross, double error) {
        across0 = byDegreeAcross[0];
        across1 = byDegreeAcross[1];
        across2 = byDegreeAcross[2];
        across3 = byDegreeAcross[3];
        this.error = error;
    }

    /** Fits values at the Chebyshev nodes, {@link #NODES_ALONG} by {@link #NODES_ACROSS}. */
    static CorridorPolynomial fit(double[][] values) {
        // Series across for each node along, then a series along for each degree across.
        double[][] across = new double[NODES_ALONG][];
        for (int i = 0; i < NODES_ALONG; i++) {
            across[i] = Chebyshev.coefficients(values[i]);
        }
        double[][] kept = new double[DEGREE_ALONG.length][];
        double leftOut = 0;
        for (int j = 0; j < NODES_ACROSS; j++) {
            double[] column = new double[NODES_ALONG];
            for (int i = 0; i < NODES_ALONG; i++) {
                column[i] = across[i][j];
            }
            double[] along = Chebyshev.coefficients(column);
            int keep = j < kept.length ? DEGREE_ALONG[j] + 1 : 0;
            for (int i = keep; i < NODES_ALONG; i++) {
                leftOut += Math.abs(along[i]);
            }
            if (keep > 0) {
                kept[j] = Chebyshev.powers(Arrays.copyOf(along, keep));
            }
        }
        return new CorridorPolynomial(powersAcross(kept), leftOut);
    }

    /** Turns the degrees across from Chebyshev polynomials (T0 to T3) into powers. */
    private static double[][] powersAcross(double[][] series) {
        double[][] powers = {
            series[0].clone(), series[1].clone(), series[2].clone(), series[3].clone(),
        };
        for (int i = 0; i < series[2].length; i++) {
            powers[0][i] -= series[2][i];
            powers[2][i] = 2 * series[2][i];
        }
        for (int i = 0; i < series[3].length; i++) {
            powers[1][i] -= 3 * series[3][i];
            powers[3][i] = 4 * series[3][i];
        }
        return powers;
    }

    /**
     * {@return how far the polynomial may be from what it was fitted to; sum of the coefficients left out, in the unit of
     * the values}
     */
    double error() {
        return error;
    }

    /** The value at a point along and across, [-1, 1]. */
    double at(double x, double y) {
        double[] a = across0;
        double[] b = across1;
        double[] c = across2;
        double[] d = across3;
        double p0 = ((((a[5] * x + a[4]) * x + a[3]) * x + a[2]) * x + a[1]) * x + a[0];
        double p1 = (((b[4] * x + b[3]) * x + b[2]) * x + b[1]) * x + b[0];
        double p2 = (c[2] * x + c[1]) * x + c[0];
        double p3 = d[1] * x + d[0];
        return ((p3 * y + p2) * y + p1) * y + p0;
    }
}
