package org.rejoin.bridge.geo;

import java.util.List;
import java.util.Optional;

import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import net.sf.geographiclib.GeodesicMask;

/**
 * A course line: the geodesic from a start in a direction, with a length. All that is asked of a leg of a route is asked
 * here. Points before the start and past the end are on the line too; only {@link #lengthNm()} says where the leg ends.
 *
 * <p>Immutable. Answers are good to well under a metre for lines up to 5000 NM and points within 2000 NM of them
 * (iterations stop at 2 micrometres). Poles and the antimeridian need no special case.
 */
public final class GeodesicLine {

    private static final int MASK =
            GeodesicMask.LATITUDE | GeodesicMask.LONGITUDE | GeodesicMask.AZIMUTH | GeodesicMask.DISTANCE_IN;

    /** Where the iterations stop, nautical miles (about 2 micrometres). */
    private static final double CONVERGED_NM = 1e-9;

    /** The iterations gain two to three digits a turn; this many are needed only where lines are nearly parallel. */
    private static final int MAX_ITERATIONS = 50;

    private final Position start;
    private final TrueDirection direction;
    private final double lengthNm;
    private final net.sf.geographiclib.GeodesicLine line;

    private GeodesicLine(Position start, TrueDirection direction, double lengthNm) {
        this.start = start;
        this.direction = direction;
        this.lengthNm = lengthNm;
        this.line = Geodesic.WGS84.Line(start.latitudeDeg(), start.longitudeDeg(), direction.deg(), MASK);
    }

    /**
     * The line from one point to another.
     *
     * @param start first point
     * @param end second point
     * @return the line
     * @throws IllegalArgumentException if the points are the same to a centimetre: no direction
     */
    public static GeodesicLine between(Position start, Position end) {
        Geodesics.Inverse inverse = start.to(end);
        if (inverse.distanceNm() < 0.01 / Geodesics.METRES_PER_NM) {
            throw new IllegalArgumentException("a course line needs two different points, both are " + start);
        }
        return new GeodesicLine(start, inverse.initial(), inverse.distanceNm());
    }

    /**
     * The line from a point in a direction.
     *
     * @param start first point
     * @param direction at the start, true
     * @param lengthNm nautical miles, above 0, finite
     * @return the line
     * @throws IllegalArgumentException if the length is not above 0
     */
    public static GeodesicLine from(Position start, TrueDirection direction, double lengthNm) {
        if (!(lengthNm > 0 && lengthNm <= 11_000)) {
            throw new IllegalArgumentException("length " + lengthNm + " NM is not in (0, 11000]");
        }
        return new GeodesicLine(start, direction, lengthNm);
    }

    /**
     * Where the line starts.
     *
     * @return the first point
     */
    public Position start() {
        return start;
    }

    /**
     * Where the line ends.
     *
     * @return the point {@link #lengthNm()} along
     */
    public Position end() {
        return pointAt(lengthNm);
    }

    /**
     * Length of the leg.
     *
     * @return nautical miles, above 0
     */
    public double lengthNm() {
        return lengthNm;
    }

    /**
     * Direction at the start.
     *
     * @return true course at the first point
     */
    public TrueDirection initialCourse() {
        return direction;
    }

    /**
     * A point on the line.
     *
     * @param alongNm nautical miles from the start; may be negative or past the end
     * @return the point
     */
    public Position pointAt(double alongNm) {
        GeodesicData data = solve(alongNm);
        return new Position(data.lat2, data.lon2);
    }

    /**
     * The course at a point on the line; a geodesic's course changes along it.
     *
     * @param alongNm nautical miles from the start; may be negative or past the end
     * @return true course there
     */
    public TrueDirection courseAt(double alongNm) {
        return new TrueDirection(solve(alongNm).azi2);
    }

    /**
     * The same ground the other way.
     *
     * @return a line from this one's end to its start
     */
    public GeodesicLine reversed() {
        return new GeodesicLine(end(), courseAt(lengthNm).reciprocal(), lengthNm);
    }

    /**
     * Cross-track and along-track of a point, by iterating the foot of the perpendicular: solve the right spherical
     * triangle at the present estimate, move along the geodesic, repeat (after S. Baselga and J. C. Martinez-Llario,
     * Intersection and point-to-line solutions for geodesics on the ellipsoid, Stud. Geophys. Geod. 62, 2018).
     *
     * @param point anywhere within a quarter of the globe of the line
     * @return its offset
     */
    public Offset offset(Position point) {
        double along = 0;
        for (int i = 0; ; i++) {
            GeodesicData here = solve(along);
            Geodesics.Inverse toPoint = Geodesics.inverse(new Position(here.lat2, here.lon2), point);
            double arc = toPoint.distanceNm() / Geodesics.MEAN_RADIUS_NM;
            double angle = Math.toRadians(toPoint.initial().deg() - here.azi2);
            double step = Geodesics.MEAN_RADIUS_NM * Math.atan2(Math.sin(arc) * Math.cos(angle), Math.cos(arc));
            if (Math.abs(step) < CONVERGED_NM || i == MAX_ITERATIONS) {
                double cross = toPoint.distanceNm() * Math.signum(Math.sin(angle));
                return new Offset(cross + 0.0, along + step + 0.0, new TrueDirection(here.azi2));
            }
            along += step;
        }
    }

    /**
     * Where this line and another cross, as whole geodesics: the crossing nearest to the two starts, ahead or behind.
     *
     * <p>By iterating the crossing of two great circles through the present points and courses (C. F. F. Karney,
     * Geodesic intersections, J. Surv. Eng. 150, 2024, section 3, without its search for further crossings: the other
     * one is on the far side of the Earth).
     *
     * @param other the other line
     * @return the crossing; empty if the lines are the same ground or do not converge on one point
     */
    public Optional<Crossing> crossing(GeodesicLine other) {
        double alongThis = 0;
        double alongOther = 0;
        for (int i = 0; i <= MAX_ITERATIONS; i++) {
            GeodesicData here = solve(alongThis);
            GeodesicData there = other.solve(alongOther);
            Position herePoint = new Position(here.lat2, here.lon2);
            Geodesics.Inverse between = herePoint.to(new Position(there.lat2, there.lon2));
            GreatCircles step = GreatCircles.solve(
                    between.distanceNm() / Geodesics.MEAN_RADIUS_NM,
                    Math.toRadians(here.azi2 - between.initial().deg()),
                    Math.toRadians(there.azi2 - between.onward().deg()));
            if (step == null) {
                return Optional.empty();
            }
            double stepThis = step.alongFirst * Geodesics.MEAN_RADIUS_NM;
            double stepOther = step.alongSecond * Geodesics.MEAN_RADIUS_NM;
            if (Math.abs(stepThis) + Math.abs(stepOther) < CONVERGED_NM) {
                return Optional.of(new Crossing(
                        herePoint,
                        alongThis + 0.0,
                        alongOther + 0.0,
                        new TrueDirection(here.azi2),
                        new TrueDirection(there.azi2)));
            }
            alongThis += stepThis;
            alongOther += stepOther;
        }
        return Optional.empty();
    }

    /**
     * Where this line is a given distance from a point (a radial and a DME distance, say).
     *
     * @param centre the point
     * @param radiusNm the distance, nautical miles, above 0
     * @return along-track distances of the crossings from the start, ascending: none, one (touching within a
     *     centimetre) or two; negative ones are behind the start
     */
    public List<Double> crossingsOfCircle(Position centre, double radiusNm) {
        Offset foot = offset(centre);
        double nearest = Math.abs(foot.crossTrackNm());
        if (nearest > radiusNm) {
            return List.of();
        }
        // Half chord on the sphere, then bisection outward from the foot, where the distance only grows.
        double half = Geodesics.MEAN_RADIUS_NM
                * Math.acos(Math.min(
                        1,
                        Math.cos(radiusNm / Geodesics.MEAN_RADIUS_NM)
                                / Math.cos(nearest / Geodesics.MEAN_RADIUS_NM)));
        if (half < 0.01 / Geodesics.METRES_PER_NM) {
            return List.of(foot.alongTrackNm());
        }
        double reach = half * 1.02 + 0.01;
        return List.of(
                alongAtDistance(centre, radiusNm, foot.alongTrackNm(), foot.alongTrackNm() - reach),
                alongAtDistance(centre, radiusNm, foot.alongTrackNm(), foot.alongTrackNm() + reach));
    }

    private double alongAtDistance(Position centre, double radiusNm, double inside, double outside) {
        double in = inside;
        double out = outside;
        while (Math.abs(out - in) > CONVERGED_NM) {
            double middle = (in + out) / 2;
            if (pointAt(middle).distanceNm(centre) < radiusNm) {
                in = middle;
            } else {
                out = middle;
            }
        }
        return (in + out) / 2;
    }

    private GeodesicData solve(double alongNm) {
        return line.Position(
                alongNm * Geodesics.METRES_PER_NM,
                GeodesicMask.LATITUDE | GeodesicMask.LONGITUDE | GeodesicMask.AZIMUTH);
    }

    /** Two courses as text, for messages. */
    @Override
    public String toString() {
        return "line from " + start + " true " + direction.deg() + " for " + lengthNm + " NM";
    }

    /** Crossing of two great circles, given a point and a course on each. Arcs and angles in radians. */
    private record GreatCircles(double alongFirst, double alongSecond) {

        /**
         * Solves for the nearer of the two antipodal crossings.
         *
         * @param arc between the points
         * @param first course at the first point, from the direction toward the second
         * @param second course at the second point, from the direction onward from the first
         * @return signed arcs from each point to the crossing; null if the circles coincide
         */
        static @org.jspecify.annotations.Nullable GreatCircles solve(double arc, double first, double second) {
            // First point on the x axis, second in the x-y plane; n = point x tangent is the normal of each circle.
            double sinArc = Math.sin(arc);
            double cosArc = Math.cos(arc);
            double t1y = Math.cos(first);
            double t1z = Math.sin(first);
            double t2x = -sinArc * Math.cos(second);
            double t2y = cosArc * Math.cos(second);
            double t2z = Math.sin(second);
            double n1y = -t1z;
            double n1z = t1y;
            double n2x = sinArc * t2z;
            double n2y = -cosArc * t2z;
            double n2z = cosArc * t2y - sinArc * t2x;
            double x = n1y * n2z - n1z * n2y;
            double y = n1z * n2x;
            double z = -n1y * n2x;
            double norm = Math.sqrt(x * x + y * y + z * z);
            if (norm < 1e-12) {
                return null;
            }
            double along1 = Math.atan2((y * t1y + z * t1z) / norm, x / norm);
            double along2 =
                    Math.atan2((x * t2x + y * t2y + z * t2z) / norm, (x * cosArc + y * sinArc) / norm);
            double antipode1 = along1 - Math.copySign(Math.PI, along1);
            double antipode2 = along2 - Math.copySign(Math.PI, along2);
            boolean near = Math.abs(along1) + Math.abs(along2) <= Math.abs(antipode1) + Math.abs(antipode2);
            return near ? new GreatCircles(along1, along2) : new GreatCircles(antipode1, antipode2);
        }
    }
}
