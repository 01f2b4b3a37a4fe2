package org.rejoin.bridge.geo;

/**
 * Angle from true north to a station's zero radial, as the station was last aligned (ARINC 424, station declination).
 *
 * @param eastDeg degrees, east positive, [-180, 180]
 * @param trueNorth whether the station is aligned to true north and not to magnetic: its radials are true, whatever the
 *     variation is
 */
public record Declination(double eastDeg, boolean trueNorth) {

    /** Of a station aligned to true north. */
    public static final Declination TRUE_NORTH = new Declination(0, true);

    /**
     * Checks the range.
     *
     * @throws IllegalArgumentException if outside [-180, 180] or not a number, or not 0 of a station aligned to true north
     */
    public Declination {
        if (!(eastDeg >= -180 && eastDeg <= 180)) {
            throw new IllegalArgumentException("declination " + eastDeg + " is not in -180 to 180 degrees");
        }
        if (trueNorth && eastDeg != 0) {
            throw new IllegalArgumentException("declination " + eastDeg + " of true north is not 0 degrees");
        }
    }

    /**
     * Of a station aligned to magnetic north as it was then.
     *
     * @throws IllegalArgumentException if outside [-180, 180] or not a number
     */
    public Declination(double eastDeg) {
        this(eastDeg, false);
    }
}
