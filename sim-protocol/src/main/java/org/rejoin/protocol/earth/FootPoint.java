package org.rejoin.protocol.earth;

import org.rejoin.protocol.Angles;

/**
 * The place on the WGS 84 ellipsoid (NIMA TR8350.2) below a point given by earth-centred, earth-fixed coordinates: X toward
 * 0 N 0 E, Y toward 0 N 90 E, Z toward the North Pole. By the formulas of Bowring, The accuracy of geodetic latitude and
 * height equations (Survey Review 28, 1985). Sines and cosines come from the sides of right triangles; angles are worked
 * out only when asked for. Used again for each point, by one thread.
 */
public final class FootPoint {

    private static final double A = Geodetic.A;
    private static final double B = Geodetic.B;
    private static final double E2 = Geodetic.E2;
    private static final double SECOND_E2 = E2 / (1 - E2);

    private double normalX;
    private double normalY;
    private double normalZ;
    private double heightM;

    /** Goes to the place below a point, metres, not near the Earth's centre. */
    public void locate(double x, double y, double z) {
        double squared = x * x + y * y;
        double perR = 1 / Math.sqrt(squared + z * z);
        // His first guess has B for the Earth's radius at this latitude, which is right at the poles only.
        double radius = B + (A - B) * squared * perR * perR;
        // Sine and cosine of the reduced latitude are up and p, the distance from the axis, by their hypotenuse.
        double up = z * (1 + SECOND_E2 * radius * perR) * (B / A);
        double perLength = 1 / Math.sqrt(squared + up * up);
        double cubed = perLength * perLength * perLength;
        double tall = z + SECOND_E2 * B * (up * up * up * cubed);
        double shrunk = 1 - E2 * A * (squared * cubed);
        double perHypotenuse = 1 / Math.sqrt(squared * shrunk * shrunk + tall * tall);
        normalX = x * shrunk * perHypotenuse;
        normalY = y * shrunk * perHypotenuse;
        normalZ = tall * perHypotenuse;
        heightM = x * normalX + y * normalY + z * normalZ - A * Math.sqrt(1 - E2 * normalZ * normalZ);
    }

    /** Height of the point above the ellipsoid, metres. */
    public double heightM() {
        return heightM;
    }

    /** {@return straight up from there} */
    public Normal normal() {
        return new Normal(normalX, normalY, normalZ);
    }

    /** Geodetic latitude, degrees, north positive, [-90, 90]. */
    public double latitudeDeg() {
        return Normal.latitudeDeg(normalX, normalY, normalZ);
    }

    /** Longitude; 0 at the poles, degrees, east positive, [-180, 180). */
    public double longitudeDeg() {
        return Normal.longitudeDeg(normalX, normalY);
    }

    /** How much of a vector along X, Y and Z points up here; same unit. */
    public double up(double vx, double vy, double vz) {
        return normalX * vx + normalY * vy + normalZ * vz;
    }

    /**
     * Direction along the ground here of a vector that does not point straight up or down, clockwise from true north,
     * [0, 360).
     */
    public double directionDeg(double vx, double vy, double vz) {
        double cos = cosLatitude();
        double cosLongitude = cos > 0 ? normalX / cos : 1;
        double sinLongitude = cos > 0 ? normalY / cos : 0;
        double north = cos * vz - normalZ * (cosLongitude * vx + sinLongitude * vy);
        double east = cosLongitude * vy - sinLongitude * vx;
        return Angles.direction(Math.toDegrees(Math.atan2(east, north)));
    }

    private double cosLatitude() {
        return Math.sqrt(normalX * normalX + normalY * normalY);
    }
}
