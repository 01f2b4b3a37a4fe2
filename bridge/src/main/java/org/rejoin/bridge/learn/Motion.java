package org.rejoin.bridge.learn;

import java.util.Arrays;
import java.util.List;

import org.rejoin.bridge.geo.Turn;
import org.rejoin.protocol.earth.Geodetic;
import org.rejoin.protocol.earth.LocalAxes;
import org.rejoin.protocol.earth.Vector3;
import org.rejoin.protocol.profile.Quantity;

/**
 * What the aircraft did if some fields are its position.
 *
 * @param place the fields
 * @param latitudeDeg at the points of the grid
 * @param longitudeDeg at the points of the grid, continuous
 * @param heightM at the points of the grid; empty where the position says nothing of it
 * @param upMps at the points of the grid, m/s; empty likewise
 * @param velocities the ways in which a sender may split the velocity, that of the position's own axes first
 * @param north m/s
 * @param east m/s
 * @param trackDeg continuous
 * @param jitter scatter of the speed from second to second, as a share of the speed
 */
record Motion(
        PositionFields place,
        double[] latitudeDeg,
        double[] longitudeDeg,
        double[] heightM,
        double[] upMps,
        List<List<Axis>> velocities,
        double[] north,
        double[] east,
        double[] trackDeg,
        double jitter) {

    /** The velocity along one axis. */
    record Axis(Quantity is, double[] mps) {}

    private static final double SLOWEST_MPS = 25 * 1852 / 3600.0;
    private static final double FASTEST_MPS = 800 * 1852 / 3600.0;
    private static final double TURNING_DEG_S = 1.2;
    private static final int FEWEST_TURNING = 20;

    /** By latitude and longitude. */
    static Motion of(PositionFields place, Grid.Smooth latDeg, Grid.Smooth lonDeg) {
        int n = latDeg.value().length;
        double[] north = new double[n];
        double[] east = new double[n];
        for (int i = 0; i < n; i++) {
            double phi = Math.toRadians(latDeg.value()[i]);
            double w2 = 1 - Geodetic.E2 * Math.sin(phi) * Math.sin(phi);
            double prime = Geodetic.A / Math.sqrt(w2);
            north[i] = Math.toRadians(latDeg.slope()[i]) * prime * (1 - Geodetic.E2) / w2;
            east[i] = Math.toRadians(lonDeg.slope()[i]) * prime * Math.cos(phi);
        }
        return of(
                place,
                latDeg.value(),
                lonDeg.value(),
                new double[0],
                new double[0],
                List.of(horizontal(north, east)),
                north,
                east);
    }

    /** By earth-centred coordinates, metres. */
    static Motion of(PositionFields place, Grid.Smooth x, Grid.Smooth y, Grid.Smooth z) {
        int n = x.value().length;
        double[] latitude = new double[n];
        double[] longitude = new double[n];
        double[] height = new double[n];
        double[] north = new double[n];
        double[] east = new double[n];
        double[] up = new double[n];
        for (int i = 0; i < n; i++) {
            Geodetic at = Geodetic.fromGeocentric(new Vector3(x.value()[i], y.value()[i], z.value()[i]));
            LocalAxes local = LocalAxes.at(at);
            Vector3 velocity = new Vector3(x.slope()[i], y.slope()[i], z.slope()[i]);
            latitude[i] = at.latitudeDeg();
            longitude[i] = at.longitudeDeg();
            height[i] = at.heightM();
            north[i] = velocity.dot(local.north());
            east[i] = velocity.dot(local.east());
            up[i] = -velocity.dot(local.down());
        }
        return of(
                place,
                latitude,
                Column.unwrap(longitude, 360),
                height,
                up,
                List.of(
                        List.of(
                                new Axis(Quantity.ECEF_VELOCITY_X, x.slope()),
                                new Axis(Quantity.ECEF_VELOCITY_Y, y.slope()),
                                new Axis(Quantity.ECEF_VELOCITY_Z, z.slope())),
                        horizontal(north, east)),
                north,
                east);
    }

    private static List<Axis> horizontal(double[] north, double[] east) {
        return List.of(new Axis(Quantity.VELOCITY_NORTH, north), new Axis(Quantity.VELOCITY_EAST, east));
    }

    private static Motion of(
            PositionFields place,
            double[] latitude,
            double[] longitude,
            double[] height,
            double[] up,
            List<List<Axis>> velocities,
            double[] north,
            double[] east) {
        int n = north.length;
        double[] track = new double[n];
        for (int i = 0; i < n; i++) {
            track[i] = Math.toDegrees(Math.atan2(east[i], north[i]));
        }
        double[] speed = speed(north, east, 0, 0);
        double wobble = 0;
        for (int i = 1; i < n - 1; i++) {
            double bend = speed[i] - (speed[i - 1] + speed[i + 1]) / 2;
            wobble += bend * bend;
        }
        double jitter = Math.sqrt(wobble / Math.max(1, n)) / Math.max(1e-9, median(speed));
        return new Motion(
                place, latitude, longitude, height, up, velocities, north, east, Column.unwrap(track, 360), jitter);
    }

    /** Whether an aircraft can have flown so. */
    boolean plausible() {
        double[] sorted = speedMps();
        Arrays.sort(sorted);
        double median = sorted[sorted.length / 2];
        return median >= SLOWEST_MPS
                && median <= FASTEST_MPS
                && sorted[sorted.length / 50] > 0.25 * median
                && sorted[sorted.length - 1 - sorted.length / 50] < 2.5 * median;
    }

    double[] speedMps() {
        return speed(north, east, 0, 0);
    }

    double medianMps() {
        return median(speedMps());
    }

    /** Tangent of the bank of a turn without slip at that speed and rate of turn, right positive. */
    double[] tanOfBank(Grid grid) {
        double[] speed = speedMps();
        double[] tan = turnRateDegS(grid);
        for (int i = 0; i < tan.length; i++) {
            tan[i] = speed[i] * Math.toRadians(tan[i]) / Turn.GRAVITY_MPS2;
        }
        return tan;
    }

    /** Degrees a second, right positive, from the smoothed track. */
    double[] turnRateDegS(Grid grid) {
        int n = trackDeg.length;
        double[] rate = new double[n];
        for (int i = 0; i < n; i++) {
            int from = Math.max(0, i - 1);
            int to = Math.min(n - 1, i + 1);
            rate[i] = (trackDeg[to] - trackDeg[from]) / Math.max(Grid.STEP_S, grid.timeS(to) - grid.timeS(from));
        }
        return rate;
    }

    /** How far the track turned from its one extreme to the other, degrees. */
    double turnedDeg() {
        return Arrays.stream(trackDeg).max().orElse(0)
                - Arrays.stream(trackDeg).min().orElse(0);
    }

    /** Whether both say the same place, whatever field and unit they take it from. */
    boolean sameAs(Motion other) {
        double worst = 0;
        for (int i = 0; i < latitudeDeg.length; i += 8) {
            worst = Math.max(worst, Math.abs(latitudeDeg[i] - other.latitudeDeg[i]));
            worst = Math.max(worst, Math.abs(Math.IEEEremainder(longitudeDeg[i] - other.longitudeDeg[i], 360)));
        }
        return worst < 3e-4;
    }

    /** Speed at each point against what moves so fast north and east itself. */
    private static double[] speed(double[] north, double[] east, double besideNorth, double besideEast) {
        double[] speed = new double[north.length];
        for (int i = 0; i < speed.length; i++) {
            speed[i] = Math.hypot(north[i] - besideNorth, east[i] - besideEast);
        }
        return speed;
    }

    /** Speed through the air at each point, metres a second, in a wind of so much east and north. */
    double[] airspeedMps(double[] wind) {
        return speed(north, east, wind[1], wind[0]);
    }

    static double median(double[] values) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return sorted.length == 0 ? 0 : sorted[sorted.length / 2];
    }

    /**
     * Wind, east and north, m/s: in a turn at constant airspeed the velocities lie on a circle about it; zeros where the
     * aircraft did not turn enough to tell.
     */
    double[] wind(Grid grid) {
        double[] rate = turnRateDegS(grid);
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
        if (to - from < FEWEST_TURNING || Math.abs(trackDeg[to - 1] - trackDeg[from]) < 200) {
            return new double[] {0, 0};
        }
        double[][] m = new double[3][4];
        for (int i = from; i < to; i++) {
            double e = east[i];
            double n = north[i];
            double[] x = {2 * e, 2 * n, 1};
            Linear.add(m, x, e * e + n * n);
        }
        double[] circle = Linear.solve(m);
        double wind = Math.hypot(circle[0], circle[1]);
        return wind < 0.7 * medianMps() ? new double[] {circle[0], circle[1]} : new double[] {0, 0};
    }
}
