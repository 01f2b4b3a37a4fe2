package org.rejoin.protocol.earth;

import org.rejoin.protocol.Angles;

/**
 * A place by latitude, longitude and height on the WGS 84 ellipsoid (NIMA TR8350.2).
 *
 * @param latitudeDeg geodetic latitude, north positive, [-90, 90]
 * @param longitudeDeg east positive, [-180, 180)
 * @param heightM above the ellipsoid, metres
 */
public record Geodetic(double latitudeDeg, double longitudeDeg, double heightM) {

    private static final double A = 6_378_137.0;
    private static final double F = 1 / 298.257223563;
    private static final double B = A * (1 - F);
    private static final double E2 = F * (2 - F);
    private static final double SECOND_E2 = E2 / (1 - E2);

    /** Enough for 1e-8 m from -400 m to 20 km, poles included. */
    private static final int ROUNDS = 2;

    /**
     * The place of earth-centred, earth-fixed coordinates: Bowring's form (Survey Review 23, 1976), whose error of 1e-8
     * degrees at these heights a second round takes away. Sines and cosines come from the sides of right triangles; an
     * angle is only worked out at the end.
     *
     * @param ecefM X toward 0 N 0 E, Y toward 0 N 90 E, Z toward the North Pole, metres; not near the Earth's centre
     * @return the place
     */
    public static Geodetic fromGeocentric(Vector3 ecefM) {
        double z = ecefM.z();
        double p = Math.sqrt(ecefM.x() * ecefM.x() + ecefM.y() * ecefM.y());
        double across = p;
        double up = z * (A / B);
        for (int round = 0; round < ROUNDS; round++) {
            double length = Math.sqrt(across * across + up * up);
            double sinBeta = up / length;
            double cosBeta = across / length;
            double tall = z + SECOND_E2 * B * sinBeta * sinBeta * sinBeta;
            across = p - E2 * A * cosBeta * cosBeta * cosBeta;
            up = tall * (B / A); // the tangent of the reduced latitude is B/A that of the latitude
        }
        double tall = up * (A / B);
        double length = Math.sqrt(across * across + tall * tall);
        double sine = tall / length;
        // This form of the height divides by nothing that vanishes at a pole.
        double height = p * (across / length) + z * sine - A * Math.sqrt(1 - E2 * sine * sine);
        double latitudeDeg = Math.max(-90, Math.min(90, Math.toDegrees(Math.atan2(tall, across))));
        double longitudeDeg = Angles.longitude(Math.toDegrees(Math.atan2(ecefM.y(), ecefM.x())));
        return new Geodetic(latitudeDeg, longitudeDeg, height);
    }

    /**
     * Earth-centred, earth-fixed coordinates of this place.
     *
     * @return X, Y, Z, metres, axes as in {@link #fromGeocentric}
     */
    public Vector3 toGeocentric() {
        double latitude = Math.toRadians(latitudeDeg);
        double longitude = Math.toRadians(longitudeDeg);
        double n = A / root(latitude);
        double p = (n + heightM) * Math.cos(latitude);
        return new Vector3(
                p * Math.cos(longitude), p * Math.sin(longitude), (n * (1 - E2) + heightM) * Math.sin(latitude));
    }

    private static double root(double latitude) {
        double sine = Math.sin(latitude);
        return Math.sqrt(1 - E2 * sine * sine);
    }
}
