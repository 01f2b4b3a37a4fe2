package org.rejoin.bridge.geo;

/**
 * Angle from true north to magnetic north at one place on one day. Not a station's declination, which is set when the
 * station is aligned and then stays.
 *
 * @param eastDeg degrees, east positive, [-180, 180]
 */
public record Variation(double eastDeg) {

    /**
     * Checks the range.
     *
     * @throws IllegalArgumentException if outside [-180, 180] or not a number
     */
    public Variation {
        if (!(eastDeg >= -180 && eastDeg <= 180)) {
            throw new IllegalArgumentException("variation " + eastDeg + " is not in -180 to 180 degrees");
        }
    }
}
