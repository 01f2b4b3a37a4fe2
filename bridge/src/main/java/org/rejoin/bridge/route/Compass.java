package org.rejoin.bridge.route;

import java.util.List;

/** The eight points of the compass as the grammar of clearances writes them. */
final class Compass {

    private static final List<String> POINTS =
            List.of("north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest");

    private Compass() {}

    /** Degrees of a point, magnetic. */
    static double degrees(String compass) {
        int index = POINTS.indexOf(compass);
        if (index < 0) {
            throw new IllegalArgumentException("\"" + compass + "\" is no point of the compass");
        }
        return index * 45.0;
    }

    /** The point nearest to a direction. */
    static String words(double deg) {
        return POINTS.get(Math.floorMod((int) Math.round(deg / 45), 8));
    }
}
