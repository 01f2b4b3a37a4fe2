package org.rejoin.bridge.geo;

import java.util.Optional;

/**
 * Passing a fix by leading the turn: an arc that leaves the first course before the fix and meets the second beyond it.
 *
 * <p>Lead and exit are those of the arc on the ellipsoid; R tan(angle / 2) of {@link Turn#leadNm} is the same in the
 * plane, and for turns of aircraft to within a metre.
 *
 * @param fix where the two courses cross
 * @param arc the turn
 */
public record FlyBy(Crossing fix, TangentArc arc) {

    /**
     * The turn from one course onto another.
     *
     * @param first course flown toward the fix
     * @param second course flown away from it
     * @param radiusNm of the turn, nautical miles, (0, 200]
     * @return the fly-by; empty where {@link TangentArc#between} is
     * @throws IllegalArgumentException if the radius is outside (0, 200] or not a number
     */
    public static Optional<FlyBy> at(GeodesicLine first, GeodesicLine second, double radiusNm) {
        return TangentArc.between(first, second, radiusNm)
                .flatMap(arc -> first.crossing(second).map(fix -> new FlyBy(fix, arc)));
    }

    /**
     * How far before the fix the turn begins.
     *
     * @return nautical miles along the first course, above 0
     */
    public double leadNm() {
        return fix.alongFirstNm() - arc.alongFirstNm();
    }

    /**
     * How far beyond the fix the turn ends.
     *
     * @return nautical miles along the second course, above 0
     */
    public double exitNm() {
        return arc.alongSecondNm() - fix.alongSecondNm();
    }

    /**
     * The bisector of the two courses, on which a fly-by is sequenced: from the fix through the middle of the arc to its
     * centre.
     *
     * @return direction at the fix, true
     */
    public TrueDirection bisector() {
        double inside = arc.right() ? 90 : -90;
        return new TrueDirection(fix.firstCourse().deg() + fix.turnDeg() / 2 + inside);
    }

    /**
     * How far a point is past the bisector: the continuous function whose change of sign sequences the fix.
     *
     * @param point within a quarter of the globe
     * @return nautical miles square to the bisector, negative before it
     */
    public double pastBisectorNm(Position point) {
        double cross =
                GeodesicLine.from(fix.position(), bisector(), 1).offset(point).crossTrackNm();
        return arc.right() ? -cross : cross;
    }
}
