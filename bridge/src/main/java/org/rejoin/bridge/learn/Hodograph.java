package org.rejoin.bridge.learn;

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
        int from = 0;
        int to = 0;
        for (int i = 0; i < rate.length; ) { // the longest turn: another one may have been flown at another speed
            int end = i;
            while (end < rate.length && rate[end] * rate[i] > 0 && Math.abs(rate[end]) >= TURNING_DEG_S) {
                end++;
            }
            if (end - i > to - from) {
                from = i;
                to = end;
            }
            i = Math.max(end, i + 1);
        }
        if (to - from < FEWEST || Math.abs(motion.trackDeg()[to - 1] - motion.trackDeg()[from]) < 200) {
            return new double[] {0, 0};
        }
        double[][] m = new double[3][4];
        for (int i = from; i < to; i++) {
            double e = motion.east()[i];
            double n = motion.north()[i];
            double[] x = {2 * e, 2 * n, 1};
            Linear.add(m, x, e * e + n * n);
        }
        double[] circle = Linear.solve(m);
        double wind = Math.hypot(circle[0], circle[1]);
        return wind < 0.7 * motion.medianMps() ? new double[] {circle[0], circle[1]} : new double[] {0, 0};
    }
}
