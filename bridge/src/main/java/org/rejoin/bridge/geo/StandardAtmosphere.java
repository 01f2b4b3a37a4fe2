package org.rejoin.bridge.geo;

/** The standard atmosphere (ICAO Doc 7488) up to 36,089 ft; figures from memory. */
public final class StandardAtmosphere {

    private static final double LOWEST_FT = -2000;
    private static final double HIGHEST_FT = 36_089;

    private StandardAtmosphere() {}

    /**
     * Equivalent airspeed as a share of the true: the root of the density ratio (1 - 6.8756e-6 h)^4.2559, h in feet; beyond
     * the range what it is at its end.
     */
    public static double rootOfDensity(double altitudeFt) {
        double temperatureRatio = 1 - 6.8756e-6 * Math.min(HIGHEST_FT, Math.max(LOWEST_FT, altitudeFt));
        return Math.sqrt(Math.pow(temperatureRatio, 4.2559));
    }
}
