package org.rejoin.bridge.geo;

/** The variation of a day, wherever it is asked for. */
@FunctionalInterface
public interface VariationByPlace {

    /**
     * The variation at a place.
     *
     * @param position on WGS 84
     * @param altitudeFt feet above mean sea level, [-10000, 400000]
     * @return degrees from true to magnetic north, east positive
     */
    double eastDegAt(Position position, double altitudeFt);
}
