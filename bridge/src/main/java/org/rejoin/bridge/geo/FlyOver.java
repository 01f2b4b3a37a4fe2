package org.rejoin.bridge.geo;

/**
 * Passing over a fix and turning afterwards: the turn begins abeam or over the fix and carries past the second course.
 *
 * @param first course flown toward the fix
 * @param fix where the two courses cross
 */
public record FlyOver(GeodesicLine first, Crossing fix) {

    /**
     * How far a point is past the fix, along the first course: the continuous function whose change of sign sequences
     * the fix.
     *
     * @param point within a quarter of the globe of the first course
     * @return nautical miles, negative before the fix
     */
    public double pastFixNm(Position point) {
        return first.offset(point).alongTrackNm() - fix.alongFirstNm();
    }

    /**
     * How far the turn carries past the second course: R (1 - cos(angle)), in the plane.
     *
     * @param radiusNm of the turn, nautical miles, 0 or more
     * @return nautical miles, 0 or more
     */
    public double carryNm(double radiusNm) {
        return Turn.carryNm(radiusNm, Math.abs(fix.turnDeg()));
    }
}
