package org.rejoin.protocol;

/** Angles brought into the ranges of {@link AircraftState}. */
public final class Angles {

    /** A direction closer to a full turn than this is north, so that rounding never shows 360. Degrees. */
    private static final double NORTH_SNAP_DEG = 5e-7;

    private Angles() {}

    /** A direction brought into one turn, [0, 360); never 360 and never minus zero. */
    public static double direction(double degrees) {
        // The remainder of what is one already is itself, and slow.
        double reduced = degrees >= 0 && degrees < 360 ? degrees : degrees % 360.0;
        if (reduced < 0) {
            reduced += 360.0;
        }
        return reduced >= 360.0 - NORTH_SNAP_DEG ? 0.0 : reduced + 0.0;
    }

    /** A longitude brought into one turn, [-180, 180). */
    public static double longitude(double degrees) {
        if (degrees >= -180.0 && degrees < 180.0) {
            return degrees + 0.0;
        }
        double reduced = (degrees + 180.0) % 360.0;
        if (reduced < 0) {
            reduced += 360.0;
        }
        return reduced >= 360.0 ? -180.0 : reduced - 180.0;
    }

    /** A difference of two directions, the short way round, [-180, 180]. */
    public static double difference(double degrees) {
        // The remainder of what is small already is itself, and slow.
        return Math.abs(degrees) <= 180 ? degrees + 0.0 : Math.IEEEremainder(degrees, 360.0) + 0.0;
    }
}
