package org.rejoin.bridge.flight;

/**
 * What the tracker counts as on course, off altitude and so on. Each limit says where it comes from; the console reads
 * whole sets from tolerance files.
 *
 * @param fullScaleNm full-scale course deviation, nautical miles each side; 2 is the en-route scale of satellite
 *     equipment (AC 20-138, RTCA DO-229); positive infinity when only the angular scale counts
 * @param fullScaleDeg full-scale course deviation on a radial, degrees each side; 10 is usual (AIM 1-1-3); positive
 *     infinity when only the linear scale counts
 * @param headingDeg allowed heading error, degrees; 10 in en-route operations (FAA-S-ACS-8C, IR.V.B.S7)
 * @param altitudeFt allowed altitude error, feet; 100 (FAA-S-ACS-8C, IR.V.A.S5 and IR.V.B.S7)
 * @param courseScale fraction of full scale allowed once established; 3/4 (FAA-S-ACS-8C, IR.V.A.S6)
 */
public record Limits(
        double fullScaleNm, double fullScaleDeg, double headingDeg, double altitudeFt, double courseScale) {

    /** Nearer to the station the angular scale stays as wide as here, nautical miles: it is all noise in the cone. */
    public static final double CLOSEST_NM = 1;

    /** Instrument rating on satellite equipment en route. */
    public static final Limits INSTRUMENT_RATING = new Limits(2, Double.POSITIVE_INFINITY, 10, 100, 0.75);

    /** {@return whether full scale depends on the distance from a station; false for a linear scale} */
    public boolean angular() {
        return !Double.isInfinite(fullScaleDeg);
    }

    /**
     * Full scale to each side, nautical miles: the linear one, or the angular one at a distance from the station that
     * guides, infinite where none does, whichever is less.
     */
    public double fullScaleAtNm(double stationDistanceNm) {
        if (Double.isInfinite(fullScaleDeg) || Double.isInfinite(stationDistanceNm)) {
            return Double.isInfinite(fullScaleNm) ? 2 : fullScaleNm;
        }
        double angular = Math.max(stationDistanceNm, CLOSEST_NM) * Math.tan(Math.toRadians(fullScaleDeg));
        return Math.min(fullScaleNm, angular);
    }
}
