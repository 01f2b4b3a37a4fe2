package org.rejoin.bridge.geo;

/**
 * Angle from true north to a station's zero radial, as the station was last aligned (ARINC 424, station declination).
 *
 * @param eastDeg degrees, east positive, [-180, 180]
 */
public record Declination(double eastDeg) {

    /**
     * Checks the range.
     *
     * @throws IllegalArgumentException if outside [-180, 180] or not a number
     */
    public Declination {
        if (!(eastDeg >= -180 && eastDeg <= 180)) {
            throw new IllegalArgumentException("declination " + eastDeg + " is not in [-180, 180] degrees");
        }
    }
}
