package org.rejoin.bridge.geo;

import org.rejoin.protocol.earth.Normal;

/**
 * Length and azimuths of a geodesic of up to {@value #LONGEST_NM} NM by its chord, for what is asked at every sample: within
 * a millimetre and 0.00001 degree of {@link Position#to}, and some ten times as fast.
 *
 * <p>The chord between the two points of WGS 84, seen from either end, gives the azimuth of the normal section, and a small
 * term that of the geodesic. The length follows from the chord k and the radius of curvature R
 * of the section (Euler) as that of a circle's arc: k (1 + (k/R)2 / 24 + 3 (k/R)4 / 640) (G. Bomford, Geodesy, section 2.14,
 * and R. H. Rapp, Geometric Geodesy I, section 4; from memory, and tested against GeographicLib).
 *
 * @param distanceNm nautical miles
 * @param initialDeg azimuth at the first point, true, [-180, 180]
 * @param onwardDeg azimuth at the second point, going on past it, true, [-180, 180]
 */
record ShortGeodesic(double distanceNm, double initialDeg, double onwardDeg) {

    /** Farther apart the two points are not to be. */
    static final double LONGEST_NM = 70;

    private static final double RADIUS_NM = Geodesics.EQUATORIAL_RADIUS_NM;
    private static final double E2 = Geodesics.E2;

    /** Of normals so far apart; a mile turns them by one part in {@link #RADIUS_NM} and a little more. */
    private static final double LONGEST_CHORD2 = square(LONGEST_NM / RADIUS_NM);

    /** A pole has no north: nearer than this nothing is answered here. */
    private static final double LEAST_COS2 = 1e-4;

    /**
     * Whether two points are near enough to one another, and far enough from the poles; else {@link Position#to} is to
     * be asked.
     */
    static boolean reaches(Normal from, Normal to) {
        return square(to.x() - from.x()) + square(to.y() - from.y()) + square(to.z() - from.z()) < LONGEST_CHORD2
                && 1 - square(from.z()) > LEAST_COS2
                && 1 - square(to.z()) > LEAST_COS2;
    }

    /** The geodesic between two points that it {@link #reaches}. */
    static ShortGeodesic between(Normal from, Normal to) {
        double primeFrom = RADIUS_NM / Math.sqrt(1 - E2 * from.z() * from.z());
        double primeTo = RADIUS_NM / Math.sqrt(1 - E2 * to.z() * to.z());
        double x = primeTo * to.x() - primeFrom * from.x();
        double y = primeTo * to.y() - primeFrom * from.y();
        double z = (primeTo * to.z() - primeFrom * from.z()) * (1 - E2);
        double chord2 = x * x + y * y + z * z;
        double bend2 = chord2 * square((curvature(from, primeFrom, x, y, z) + curvature(to, primeTo, x, y, z)) / 2);
        return new ShortGeodesic(
                Math.sqrt(chord2) * (1 + bend2 / 24 + 3 * bend2 * bend2 / 640),
                azimuthDeg(from, primeFrom, x, y, z),
                azimuthDeg(to, primeTo, x, y, z));
    }

    private static double square(double a) {
        return a * a;
    }

    /** East of a vector at a point, times the cosine of the latitude there. */
    private static double east(Normal at, double x, double y) {
        return at.x() * y - at.y() * x;
    }

    /** North of a vector at a point, times the cosine of the latitude there. */
    private static double north(Normal at, double x, double y, double z) {
        return (at.x() * at.x() + at.y() * at.y()) * z - at.z() * (at.x() * x + at.y() * y);
    }

    /** Of the normal section, less what the geodesic's is off it: e2 / 12 (s / N)2 cos2(latitude) sin(2 azimuth). */
    private static double azimuthDeg(Normal at, double prime, double x, double y, double z) {
        double east = east(at, x, y);
        double north = north(at, x, y, z);
        double both = east * east + north * north;
        double cos2 = 1 - at.z() * at.z();
        double off =
                both == 0 ? 0 : E2 / 12 * (x * x + y * y + z * z) / (prime * prime) * cos2 * 2 * east * north / both;
        return Math.toDegrees(Math.atan2(east, north) - off);
    }

    /** Of the normal section along a vector (Euler): cos2 / M + sin2 / N. */
    private static double curvature(Normal at, double prime, double x, double y, double z) {
        double east2 = square(east(at, x, y));
        double north2 = square(north(at, x, y, z));
        double meridian = prime * (1 - E2) / (1 - E2 * at.z() * at.z());
        double both = east2 + north2;
        return both == 0 ? 1 / prime : (north2 / meridian + east2 / prime) / both;
    }
}
