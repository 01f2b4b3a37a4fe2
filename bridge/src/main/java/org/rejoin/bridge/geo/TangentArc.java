package org.rejoin.bridge.geo;

import java.util.Optional;

/**
 * An arc of constant radius tangent to two courses: the ground track of a turn from one onto the other.
 *
 * <p>The centre lies at the radius from both geodesics, the ends are the feet of the perpendiculars from it (FAA Order
 * 8260.58, appendix A, tangent fixed-radius arc). On WGS 84 to a micrometre or so where the courses do not cross flatly.
 *
 * @param centre of the turn
 * @param radiusNm nautical miles, above 0
 * @param turnDeg from the first course onto the second where they cross, degrees, right positive, (-180, 180)
 * @param start where the arc leaves the first course
 * @param alongFirstNm of the start, from the start of the first line, nautical miles; negative behind it
 * @param end where the arc meets the second course
 * @param alongSecondNm of the end, from the start of the second line, nautical miles; negative behind it
 */
public record TangentArc(
        Position centre,
        double radiusNm,
        double turnDeg,
        Position start,
        double alongFirstNm,
        Position end,
        double alongSecondNm) {

    /** Below this turn there is nothing to round off, above 180 less this the arc never ends. */
    private static final double LEAST_TURN_DEG = 1e-3;

    /** Where the iteration stops, nautical miles (about 2 micrometres). */
    private static final double CONVERGED_NM = 1e-9;

    private static final int MAX_ITERATIONS = 50;

    /** Arcs that begin farther from the crossing than this are nobody's turn, and spoil the spherical start. */
    private static final double FARTHEST_NM = 2000;

    /**
     * The arc from one course onto another, the short way round.
     *
     * @param first course before the turn, as a whole geodesic: the arc may leave it behind its start or past its end
     * @param second course after the turn, likewise
     * @param radiusNm of the turn, nautical miles, (0, 200]
     * @return the arc; empty if the lines do not cross, if the turn is under 0.001 degree or within that of 180, or if
     *     the arc would begin more than 2000 NM from the crossing
     * @throws IllegalArgumentException if the radius is outside (0, 200] or not a number
     */
    public static Optional<TangentArc> between(GeodesicLine first, GeodesicLine second, double radiusNm) {
        if (!(radiusNm > 0 && radiusNm <= 200)) {
            throw new IllegalArgumentException("turn radius " + radiusNm + " NM is not in (0, 200]");
        }
        return first.crossing(second).flatMap(crossing -> tangent(first, second, radiusNm, crossing));
    }

    private static Optional<TangentArc> tangent(
            GeodesicLine first, GeodesicLine second, double radiusNm, Crossing crossing) {
        double turnDeg = crossing.turnDeg();
        double lead = Turn.leadNm(radiusNm, turnDeg);
        if (Math.abs(turnDeg) < LEAST_TURN_DEG || 180 - Math.abs(turnDeg) < LEAST_TURN_DEG || lead > FARTHEST_NM) {
            return Optional.empty();
        }
        double side = Math.signum(turnDeg);
        double sine = Math.sin(Math.toRadians(turnDeg));
        double along = crossing.alongFirstNm() - lead;
        for (int i = 0; i < MAX_ITERATIONS; i++) {
            Position centre = first.pointAt(along)
                    .destination(new TrueDirection(first.courseAt(along).deg() + side * 90), radiusNm);
            Offset fromSecond = second.offset(centre);
            // The centre should be as far from the second course, on the same side; moving it along the first course
            // by a mile moves it across the second by the sine of the turn.
            double excess = fromSecond.crossTrackNm() - side * radiusNm;
            if (Math.abs(excess) < CONVERGED_NM) {
                return Optional.of(new TangentArc(
                        centre,
                        radiusNm,
                        turnDeg,
                        first.pointAt(along),
                        along,
                        second.pointAt(fromSecond.alongTrackNm()),
                        fromSecond.alongTrackNm()));
            }
            along += excess / sine;
        }
        return Optional.empty();
    }

    /**
     * Which way the arc turns.
     *
     * @return true for a right turn
     */
    public boolean right() {
        return turnDeg > 0;
    }
}
