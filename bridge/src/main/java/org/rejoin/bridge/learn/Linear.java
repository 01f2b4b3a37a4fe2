package org.rejoin.bridge.learn;

/** Small systems of linear equations. */
final class Linear {

    private Linear() {}

    /** Adds what one point says, the sum of x[i] * solution[i] being y, to the normal equations of least squares. */
    static void add(double[][] m, double[] x, double y) {
        for (int a = 0; a < x.length; a++) {
            for (int b = 0; b < x.length; b++) {
                m[a][b] += x[a] * x[b];
            }
            m[a][x.length] += x[a] * y;
        }
    }

    /**
     * Solves rows of coefficients, the right side last, by elimination with pivots, which changes them; not finite
     * where there is no solution.
     */
    static double[] solve(double[][] m) {
        int n = m.length;
        for (int col = 0; col < n; col++) {
            int pivot = col;
            for (int row = col + 1; row < n; row++) {
                if (Math.abs(m[row][col]) > Math.abs(m[pivot][col])) {
                    pivot = row;
                }
            }
            double[] swapped = m[col];
            m[col] = m[pivot];
            m[pivot] = swapped;
            for (int row = 0; row < n; row++) {
                if (row != col) {
                    double factor = m[row][col] / m[col][col];
                    for (int k = col; k <= n; k++) {
                        m[row][k] -= factor * m[col][k];
                    }
                }
            }
        }
        double[] solution = new double[n];
        for (int row = 0; row < n; row++) {
            solution[row] = m[row][n] / m[row][row];
        }
        return solution;
    }
}
