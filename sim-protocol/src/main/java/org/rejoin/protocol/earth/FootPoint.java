package org.rejoin.protocol.earth;

import org.rejoin.protocol.Angles;

/**
 * The place on the WGS 84 ellipsoid (NIMA TR8350.2) below a point given by earth-centred, earth-fixed coordinates: X toward
 * 0 N 0 E, Y toward 0 N 90 E, Z toward the North Pole. The foot F of a point at height h is where the normal through the
 * point leaves the ellipsoid: with N the radius of curvature in the prime vertical and w = 1 + h/N, x = w Fx, y = w Fy and
 * z = (w - e2) / (1 - e2) Fz, and F lies on the ellipsoid. That leaves one equation for w. Angles are worked out only when
 * asked for. Used again for each point, by one thread.
 */
public final class FootPoint {

    private static final double A = Geodetic.A;
    private static final double E2 = Geodetic.E2;
    private static final double SECOND_E2 = E2 / (1 - E2);
    private static final double PER_A2 = 1 / (Geodetic.A * Geodetic.A);
    private static final double PER_B2 = 1 / (Geodetic.B * Geodetic.B);

    private double normalX;
    private double normalY;
    private double normalZ;
    private double heightM;

    /** Goes to the place below a point near the surface, metres: within 0.1 um up to 20 km, 4 um up to 120 km. */
    public void locate(double x, double y, double z) {
        double q = z * z * PER_B2;
        double squared = (x * x + y * y) * PER_A2 + q;
        // w^2 = squared - q + q (1 + SECOND_E2 (1 - 1/w))^-2, solved as a series in how little w is above 1.
        double above = Math.sqrt(squared) - 1;
        double share = q * SECOND_E2 / (squared + q * SECOND_E2);
        double w = 1 + above - share * above * (1 - 1.5 * (SECOND_E2 - share) * above);
        // The gradient of the ellipsoid at F, (Fx, Fy, Fz / (1 - e2)), times w (w - e2).
        double shrunk = w - E2;
        double alongX = x * shrunk;
        double alongY = y * shrunk;
        double alongZ = z * w;
        double perLength = 1 / Math.sqrt(alongX * alongX + alongY * alongY + alongZ * alongZ);
        normalX = alongX * perLength;
        normalY = alongY * perLength;
        normalZ = alongZ * perLength;
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
     * [0, 360); 0 at a pole itself.
     */
    public double directionDeg(double vx, double vy, double vz) {
        // Both times the cosine of latitude, which the arc tangent does not see.
        double north = vz - normalZ * up(vx, vy, vz);
        double east = normalX * vy - normalY * vx;
        return Angles.direction(Math.toDegrees(Math.atan2(east, north)));
    }
}
