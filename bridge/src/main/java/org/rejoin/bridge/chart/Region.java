package org.rejoin.bridge.chart;

import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;

/** A part of the Earth's surface, to take only that part of a large chart. */
public sealed interface Region {

    /** More than a distance on the sphere can differ from that on WGS 84 (0.56 %), as a fraction. */
    double MARGIN = 0.01;

    /** Whether a point lies in it, its edge included. */
    boolean contains(Position position);

    /**
     * Whether some point within so many nautical miles of another may lie in it. Quick, and on the safe side: false
     * only if none does.
     */
    boolean mayReach(Position position, double distanceNm);

    /**
     * Whether a leg has a part in the region. Parts shorter than five nautical miles may be missed, or twenty on legs
     * over a thousand.
     */
    default boolean meets(Position from, Position to) {
        if (contains(from) || contains(to)) {
            return true;
        }
        if (!mayReach(from, sphericalNm(from, to) * (1 + MARGIN))) {
            return false; // nearly all legs of a world-wide chart; they need not be measured exactly
        }
        double lengthNm = from.distanceNm(to);
        if (lengthNm < 1) {
            return false;
        }
        GeodesicLine line = GeodesicLine.between(from, to);
        int steps = (int) Math.min(200, Math.ceil(lengthNm / 5));
        for (int i = 1; i < steps; i++) {
            if (contains(line.pointAt(lengthNm * i / steps))) {
                return true;
            }
        }
        return false;
    }

    /** By haversines, on a sphere of 60 NM to the degree. */
    private static double sphericalNm(Position from, Position to) {
        double north = Math.sin(Math.toRadians(to.latitudeDeg() - from.latitudeDeg()) / 2);
        double east = Math.sin(Math.toRadians(to.longitudeDeg() - from.longitudeDeg()) / 2);
        double haversine = north * north
                + Math.cos(Math.toRadians(from.latitudeDeg()))
                        * Math.cos(Math.toRadians(to.latitudeDeg()))
                        * east
                        * east;
        return 2 * 60 * Math.toDegrees(Math.asin(Math.sqrt(Math.min(1, haversine))));
    }

    /**
     * All between two parallels and two meridians.
     *
     * @param southDeg degrees north positive, [-90, northDeg]
     * @param westDeg degrees east positive, [-180, 180]
     * @param northDeg degrees north positive, [southDeg, 90]
     * @param eastDeg degrees east positive, [-180, 180]; less than {@code westDeg} where the region crosses 180
     */
    record Bounds(double southDeg, double westDeg, double northDeg, double eastDeg) implements Region {

        private static final double DEG_PER_NM = 1 / 59.0; // a little more than a minute of latitude

        /**
         * Checks the ranges.
         *
         * @throws IllegalArgumentException if one is out of range; the message names it
         */
        public Bounds {
            if (!(southDeg >= -90 && northDeg <= 90 && southDeg <= northDeg)) {
                throw new IllegalArgumentException(
                        "south " + southDeg + " and north " + northDeg + " must be in order and in -90 to 90 degrees");
            }
            if (!(westDeg >= -180 && westDeg <= 180 && eastDeg >= -180 && eastDeg <= 180)) {
                throw new IllegalArgumentException(
                        "west " + westDeg + " and east " + eastDeg + " must be in -180 to 180 degrees");
            }
        }

        @Override
        public boolean contains(Position position) {
            double longitude = position.longitudeDeg();
            boolean between = westDeg <= eastDeg
                    ? longitude >= westDeg && longitude <= eastDeg
                    : longitude >= westDeg || longitude <= eastDeg;
            return (between || (longitude == -180 && eastDeg == 180)) // a position's 180 is written -180
                    && position.latitudeDeg() >= southDeg
                    && position.latitudeDeg() <= northDeg;
        }

        @Override
        public boolean mayReach(Position position, double distanceNm) {
            double reachDeg = distanceNm * DEG_PER_NM;
            return position.latitudeDeg() - reachDeg <= northDeg && position.latitudeDeg() + reachDeg >= southDeg;
        }
    }

    /** All within a distance of a point. */
    record Circle(Position centre, double radiusNm) implements Region {

        /**
         * Checks the radius.
         *
         * @throws IllegalArgumentException if it is not above 0 and finite
         */
        public Circle {
            if (!(radiusNm > 0 && radiusNm < Double.POSITIVE_INFINITY)) {
                throw new IllegalArgumentException("radius " + radiusNm + " NM is not above 0");
            }
        }

        @Override
        public boolean contains(Position position) {
            return mayReach(position, 0) && centre.distanceNm(position) <= radiusNm;
        }

        @Override
        public boolean mayReach(Position position, double distanceNm) {
            return sphericalNm(centre, position) * (1 - MARGIN) <= radiusNm + distanceNm;
        }
    }
}
