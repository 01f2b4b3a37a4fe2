package org.rejoin.protocol.earth;

/**
 * A place by latitude, longitude and height on the WGS 84 ellipsoid (NIMA TR8350.2).
 *
 * @param latitudeDeg geodetic latitude, north positive, [-90, 90]
 * @param longitudeDeg east positive, [-180, 180)
 * @param heightM above the ellipsoid, metres
 */
public record Geodetic(double latitudeDeg, double longitudeDeg, double heightM) {

    // Nobody flies outside this shell; all zeros are common before a flight is loaded. Metres from the Earth's centre.
    private static final double SHELL_INSIDE_M = 6_300_000;
    private static final double SHELL_OUTSIDE_M = 6_500_000;

    /** Half the major axis, metres. */
    public static final double A = 6_378_137.0;

    private static final double F = 1 / 298.257223563;
    /** Half the minor axis, metres. */
    static final double B = A * (1 - F);
    /** First eccentricity, squared. */
    public static final double E2 = F * (2 - F);

    /** Whether an aircraft may be at earth-centred, earth-fixed coordinates, metres; false too for what is no number. */
    public static boolean isNearTheSurface(double x, double y, double z) {
        double squared = x * x + y * y + z * z;
        return squared >= SHELL_INSIDE_M * SHELL_INSIDE_M && squared <= SHELL_OUTSIDE_M * SHELL_OUTSIDE_M;
    }

    /**
     * The place of earth-centred, earth-fixed coordinates, as {@link FootPoint} finds it: X toward 0 N 0 E, Y toward 0
     * N 90 E, Z toward the North Pole, metres; not near the Earth's centre.
     */
    public static Geodetic fromGeocentric(Vector3 ecefM) {
        FootPoint below = new FootPoint();
        below.locate(ecefM.x(), ecefM.y(), ecefM.z());
        return new Geodetic(below.latitudeDeg(), below.longitudeDeg(), below.heightM());
    }

    /** Earth-centred, earth-fixed coordinates of this place; X, Y, Z, metres, axes as in {@link #fromGeocentric}. */
    public Vector3 toGeocentric() {
        double latitude = Math.toRadians(latitudeDeg);
        double longitude = Math.toRadians(longitudeDeg);
        double sine = Math.sin(latitude);
        double n = A / Math.sqrt(1 - E2 * sine * sine);
        double p = (n + heightM) * Math.cos(latitude);
        return new Vector3(p * Math.cos(longitude), p * Math.sin(longitude), (n * (1 - E2) + heightM) * sine);
    }
}
