package org.rejoin.bridge.chart;

import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;

/** A part of the Earth's surface, to take only that part of a large chart. */
public sealed interface Region {

    /**
     * Whether a point lies in it, its edge included.
     *
     * @param position any
     * @return true if it does
     */
    boolean contains(Position position);

    /**
     * Whether a leg may reach into it, by its ends and its length alone.
     *
     * @param end of the leg
     * @param lengthNm of the leg, nautical miles
     * @return false only if it cannot
     */
    boolean mayReach(Position end, double lengthNm);

    /**
     * Whether a leg has a part in the region. Parts shorter than five nautical miles may be missed, or twenty on legs
     * over a thousand.
     *
     * @param from one end
     * @param to the other end
     * @return true if either end or something between is in the region
     */
    default boolean meets(Position from, Position to) {
        if (contains(from) || contains(to)) {
            return true;
        }
        double lengthNm = from.distanceNm(to);
        if (lengthNm < 1 || !mayReach(from, lengthNm)) {
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
                        "south " + southDeg + " and north " + northDeg + " must be in order and in [-90, 90] degrees");
            }
            if (!(westDeg >= -180 && westDeg <= 180 && eastDeg >= -180 && eastDeg <= 180)) {
                throw new IllegalArgumentException(
                        "west " + westDeg + " and east " + eastDeg + " must be in [-180, 180] degrees");
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
        public boolean mayReach(Position end, double lengthNm) {
            double reachDeg = lengthNm * DEG_PER_NM;
            return end.latitudeDeg() - reachDeg <= northDeg && end.latitudeDeg() + reachDeg >= southDeg;
        }
    }

    /**
     * All within a distance of a point.
     *
     * @param centre WGS 84
     * @param radiusNm nautical miles, above 0
     */
    record Circle(Position centre, double radiusNm) implements Region {

        private static final double NM_PER_DEG = 59.7; // shortest degree of latitude on WGS 84, at the equator

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
            // The parallels alone rule out most of a world-wide chart.
            return Math.abs(position.latitudeDeg() - centre.latitudeDeg()) * NM_PER_DEG <= radiusNm
                    && centre.distanceNm(position) <= radiusNm;
        }

        @Override
        public boolean mayReach(Position end, double lengthNm) {
            return centre.distanceNm(end) <= radiusNm + lengthNm;
        }
    }
}
