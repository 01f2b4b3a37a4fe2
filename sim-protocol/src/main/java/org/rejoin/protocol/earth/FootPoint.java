package org.rejoin.protocol.earth;

import org.rejoin.protocol.Angles;

/**
 * The place on the WGS 84 ellipsoid (NIMA TR8350.2) below a point given by earth-centred, earth-fixed coordinates: X toward
 * 0 N 0 E, Y toward 0 N 90 E, Z toward the North Pole. Bowring's form (Survey Review 23, 1976), whose error of 1e-8 degrees
 * at these heights a second round takes away. Sines and cosines come from the sides of right triangles; angles are worked
 * out only when asked for. Used again for each point, by one thread.
 */
public final class FootPoint {

    private static final double A = Geodetic.A;
    private static final double B = Geodetic.B;
    private static final double E2 = Geodetic.E2;
    private static final double SECOND_E2 = E2 / (1 - E2);

    /** Enough for 1e-8 m from -400 m to 20 km, poles included. */
    private static final int ROUNDS = 2;

    private double x;
    private double y;
    private double across;
    private double tall;
    private double sinLatitude;
    private double cosLatitude;
    private double sinLongitude;
    private double cosLongitude;
    private double heightM;

    /**
     * Goes to the place below a point.
     *
     * @param xM metres
     * @param yM metres
     * @param zM metres; the point is not near the Earth's centre
     */
    public void locate(double xM, double yM, double zM) {
        x = xM;
        y = yM;
        double p = Math.sqrt(xM * xM + yM * yM);
        double up = zM * (A / B);
        across = p;
        for (int round = 0; round < ROUNDS; round++) {
            double length = Math.sqrt(across * across + up * up);
            double sinBeta = up / length;
            double cosBeta = across / length;
            double numerator = zM + SECOND_E2 * B * sinBeta * sinBeta * sinBeta;
            across = p - E2 * A * cosBeta * cosBeta * cosBeta;
            up = numerator * (B / A); // the tangent of the reduced latitude is B/A that of the latitude
        }
        tall = up * (A / B);
        double length = Math.sqrt(across * across + tall * tall);
        sinLatitude = tall / length;
        cosLatitude = across / length;
        sinLongitude = p > 0 ? yM / p : 0;
        cosLongitude = p > 0 ? xM / p : 1;
        // This form of the height divides by nothing that vanishes at a pole.
        heightM = p * cosLatitude + zM * sinLatitude - A * Math.sqrt(1 - E2 * sinLatitude * sinLatitude);
    }

    /**
     * Height of the point above the ellipsoid.
     *
     * @return metres
     */
    public double heightM() {
        return heightM;
    }

    /**
     * First component of the ellipsoid's upward unit normal here.
     *
     * @return along X
     */
    public double normalX() {
        return cosLatitude * cosLongitude;
    }

    /**
     * Second component of the ellipsoid's upward unit normal here.
     *
     * @return along Y
     */
    public double normalY() {
        return cosLatitude * sinLongitude;
    }

    /**
     * Third component of the ellipsoid's upward unit normal here.
     *
     * @return along Z
     */
    public double normalZ() {
        return sinLatitude;
    }

    /**
     * Geodetic latitude.
     *
     * @return degrees, north positive, [-90, 90]
     */
    public double latitudeDeg() {
        return Math.max(-90, Math.min(90, Math.toDegrees(Math.atan2(tall, across))));
    }

    /**
     * Longitude.
     *
     * @return degrees, east positive, [-180, 180)
     */
    public double longitudeDeg() {
        return Angles.longitude(Math.toDegrees(Math.atan2(y, x)));
    }

    /**
     * How much of a vector points north here.
     *
     * @param vx along X, any unit
     * @param vy along Y, same unit
     * @param vz along Z, same unit
     * @return same unit
     */
    public double north(double vx, double vy, double vz) {
        return cosLatitude * vz - sinLatitude * (cosLongitude * vx + sinLongitude * vy);
    }

    /**
     * How much of a vector points east here.
     *
     * @param vx along X, any unit
     * @param vy along Y, same unit
     * @return same unit
     */
    public double east(double vx, double vy) {
        return cosLongitude * vy - sinLongitude * vx;
    }

    /**
     * How much of a vector points up here.
     *
     * @param vx along X, any unit
     * @param vy along Y, same unit
     * @param vz along Z, same unit
     * @return same unit
     */
    public double up(double vx, double vy, double vz) {
        return sinLatitude * vz + cosLatitude * (cosLongitude * vx + sinLongitude * vy);
    }
}
