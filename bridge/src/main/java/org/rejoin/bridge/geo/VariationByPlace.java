package org.rejoin.bridge.geo;

/** The variation of a day, wherever it is asked for. */
@FunctionalInterface
public interface VariationByPlace {

    /**
     * The variation at a place, feet above mean sea level in [-10000, 400000]: degrees from true to magnetic north,
     * east positive.
     */
    double eastDegAt(Position position, double altitudeFt);
}
