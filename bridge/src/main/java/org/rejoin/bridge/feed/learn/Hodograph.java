package org.rejoin.bridge.feed.learn;

/** Wind from the motion alone: in a turn at constant airspeed the velocities lie on a circle about the wind. */
final class Hodograph {

    private static final double TURNING_DEG_S = 1.2;
    private static final int FEWEST = 20;

    private Hodograph() {}

    /** Wind speed, m/s; 0 where the aircraft did not turn enough to tell. */
    static double windMps(Motion motion, Grid grid) {
        double[] wind = wind(motion, grid);
        return Math.hypot(wind[0], wind[1]);
    }

    /** East and north, m/s; zeros where the aircraft did not turn enough to tell. */
    static double[] wind(Motion motion, Grid grid) {
        double[] rate = motion.turnRateDegS(grid);
        double[][] m = new double[3][4];
        int count = 0;
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < rate.length; i++) {
            if (Math.abs(rate[i]) < TURNING_DEG_S) {
                continue;
            }
            double e = motion.east()[i];
            double n = motion.north()[i];
            double[] x = {2 * e, 2 * n, 1};
            for (int a = 0; a < 3; a++) {
                for (int b = 0; b < 3; b++) {
                    m[a][b] += x[a] * x[b];
                }
                m[a][3] += x[a] * (e * e + n * n);
            }
            count++;
            low = Math.min(low, motion.trackDeg()[i]);
            high = Math.max(high, motion.trackDeg()[i]);
        }
        if (count < FEWEST || high - low < 200) {
            return new double[] {0, 0};
        }
        double[] circle = Linear.solve(m);
        double wind = Math.hypot(circle[0], circle[1]);
        return wind < 0.7 * motion.medianMps() ? new double[] {circle[0], circle[1]} : new double[] {0, 0};
    }
}
