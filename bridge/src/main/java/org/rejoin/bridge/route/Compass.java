package org.rejoin.bridge.route;

import java.util.List;

import org.rejoin.bridge.geo.Angles;

/** The eight points of the compass as the grammar of clearances writes them. */
final class Compass {

    private static final List<String> POINTS =
            List.of("north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest");

    /** A compass point covers this much to either side, degrees; half more than an eighth of the circle (no source). */
    private static final double SIDE_DEG = 67.5;

    private Compass() {}

    /** Degrees of a point, magnetic. */
    static double degrees(String compass) {
        int index = POINTS.indexOf(compass);
        if (index < 0) {
            throw new IllegalArgumentException("\"" + compass + "\" is no point of the compass");
        }
        return index * 45.0;
    }

    /** Between a direction and a point, degrees, 0 or more. */
    static double offDeg(double deg, String compass) {
        return Math.abs(Angles.turn(deg - degrees(compass)));
    }

    /** Whether a direction counts as toward a point. */
    static boolean isToward(double deg, String compass) {
        return offDeg(deg, compass) <= SIDE_DEG;
    }

    /** The point nearest to a direction. */
    static String words(double deg) {
        return POINTS.get(Math.floorMod((int) Math.round(deg / 45), 8));
    }
}
