package org.rejoin.bridge.learn;

/**
 * A straight line through points.
 *
 * @param slope of y over x
 * @param offset of y where x is 0
 * @param r2 square of the correlation, [0, 1]
 * @param rms distance of the points from the line, in y
 */
record Fit(double slope, double offset, double r2, double rms) {

    static Fit line(double[] x, double[] y) {
        int n = x.length;
        double mx = 0;
        double my = 0;
        for (int i = 0; i < n; i++) {
            mx += x[i] / n;
            my += y[i] / n;
        }
        double xx = 0;
        double xy = 0;
        double yy = 0;
        for (int i = 0; i < n; i++) {
            xx += (x[i] - mx) * (x[i] - mx);
            xy += (x[i] - mx) * (y[i] - my);
            yy += (y[i] - my) * (y[i] - my);
        }
        if (!(xx > 0) || !(yy > 0)) {
            return new Fit(0, my, 0, 0);
        }
        double slope = xy / xx;
        return new Fit(slope, my - slope * mx, xy * xy / (xx * yy), Math.sqrt(Math.max(0, yy - slope * xy) / n));
    }

    /** Through the origin. */
    static Fit ratio(double[] x, double[] y) {
        double xx = 0;
        double xy = 0;
        double yy = 0;
        for (int i = 0; i < x.length; i++) {
            xx += x[i] * x[i];
            xy += x[i] * y[i];
            yy += y[i] * y[i];
        }
        if (!(xx > 0) || !(yy > 0)) {
            return new Fit(0, 0, 0, 0);
        }
        double slope = xy / xx;
        return new Fit(slope, 0, xy * xy / (xx * yy), Math.sqrt(Math.max(0, yy - slope * xy) / x.length));
    }
}
