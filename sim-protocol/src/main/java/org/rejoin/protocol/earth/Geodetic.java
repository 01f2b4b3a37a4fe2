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

    /** Enough for 4e-9 m from -400 m to 20 km, poles included. */
    private static final int ROUNDS = 3;

    /**
     * The place of earth-centred, earth-fixed coordinates: Bowring's closed form (Survey Review 23, 1976), then a few
     * rounds of fixed-point iteration.
     *
     * @param ecefM X toward 0 N 0 E, Y toward 0 N 90 E, Z toward the North Pole, metres; not near the Earth's centre
     * @return the place
     */
    public static Geodetic fromGeocentric(Vector3 ecefM) {
        double p = Math.hypot(ecefM.x(), ecefM.y());
        double beta = Math.atan2(ecefM.z() * A, p * B);
        double latitude = Math.atan2(
                ecefM.z() + SECOND_E2 * B * Math.pow(Math.sin(beta), 3), p - E2 * A * Math.pow(Math.cos(beta), 3));
        for (int round = 0; round < ROUNDS; round++) {
            double n = A / root(latitude);
            double height = height(p, ecefM.z(), latitude);
            latitude = Math.atan2(ecefM.z(), p * (1 - E2 * n / (n + height)));
        }
        double latitudeDeg = Math.max(-90, Math.min(90, Math.toDegrees(latitude)));
        double longitudeDeg = Angles.longitude(Math.toDegrees(Math.atan2(ecefM.y(), ecefM.x())));
        return new Geodetic(latitudeDeg, longitudeDeg, height(p, ecefM.z(), latitude));
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

    // This form of the height divides by nothing that vanishes at a pole.
    private static double height(double p, double z, double latitude) {
        return p * Math.cos(latitude) + z * Math.sin(latitude) - A * root(latitude);
    }

    private static double root(double latitude) {
        double sine = Math.sin(latitude);
        return Math.sqrt(1 - E2 * sine * sine);
    }
}
