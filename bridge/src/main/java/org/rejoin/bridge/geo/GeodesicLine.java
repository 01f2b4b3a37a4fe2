package org.rejoin.bridge.geo;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;

import org.rejoin.protocol.earth.Normal;

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
public final class GeodesicLine implements GroundPath {

    private static final int MASK =
            GeodesicMask.LATITUDE | GeodesicMask.LONGITUDE | GeodesicMask.AZIMUTH | GeodesicMask.DISTANCE_IN;

    /** Where the iterations stop, nautical miles (about 2 micrometres). */
    private static final double CONVERGED_NM = 1e-9;

    /** The next step would be a thousandth of this. */
    private static final double NEAR_CONVERGED_NM = 1e-4;

    /** The iterations gain two to three digits a turn; this many are needed only where lines are nearly parallel. */
    private static final int MAX_ITERATIONS = 50;

    /** A line this close to a circle, a millimetre, touches it. */
    private static final double TOUCHING_NM = 1e-3 / Geodesics.METRES_PER_NM;

    /** Sine of a crossing angle below which the lines may be one and the same. */
    private static final double NEARLY_PARALLEL = 1e-5;

    /** Lines that stay this close, a centimetre, from the start of one to {@link #SAME_GROUND_REACH_NM} on are one. */
    private static final double SAME_GROUND_NM = 0.01 / Geodesics.METRES_PER_NM;

    private static final double SAME_GROUND_REACH_NM = 1000;

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
     * The line from a point in a direction, true.
     *
     * @throws IllegalArgumentException if the length is not above 0
     */
    public static GeodesicLine from(Position start, TrueDirection direction, double lengthNm) {
        if (!(lengthNm > 0 && lengthNm <= 11_000)) {
            throw new IllegalArgumentException("length " + lengthNm + " NM is not in (0, 11000]");
        }
        return new GeodesicLine(start, direction, lengthNm);
    }

    /** {@return where the line starts, the first point} */
    @Override
    public Position start() {
        return start;
    }

    /** Where the line ends; the point {@link #lengthNm()} along. */
    @Override
    public Position end() {
        return pointAt(lengthNm);
    }

    /** {@return length of the leg; nautical miles, above 0} */
    @Override
    public double lengthNm() {
        return lengthNm;
    }

    /** Direction at the start; true course at the first point. */
    public TrueDirection initialCourse() {
        return direction;
    }

    /** A point on the line, nautical miles from the start; may be negative or past the end. */
    @Override
    public Position pointAt(double alongNm) {
        GeodesicData data = solve(alongNm);
        return new Position(data.lat2, data.lon2);
    }

    /** The course there, true; a geodesic's course changes along it. */
    @Override
    public TrueDirection courseAt(double alongNm) {
        return new TrueDirection(solve(alongNm).azi2);
    }

    /** {@return the same ground the other way, a line from this one's end to its start} */
    @Override
    public GeodesicLine reversed() {
        return new GeodesicLine(end(), courseAt(lengthNm).reciprocal(), lengthNm);
    }

    @Override
    public <R> R fold(Function<GeodesicLine, R> straight, Function<GeodesicArc, R> arc) {
        return straight.apply(this);
    }

    /**
     * Cross-track and along-track of a point, by iterating the foot of the perpendicular: solve the right spherical
     * triangle at the present estimate, move along the geodesic, repeat (after S. Baselga and J. C. Martinez-Llario,
     * Intersection and point-to-line solutions for geodesics on the ellipsoid, Stud. Geophys. Geod. 62, 2018).
     *
     * @param point anywhere within a quarter of the globe of the line
     * @return its offset
     */
    @Override
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
     * The same to a millimetre, from an estimate of its along-track, nautical miles: for a point that is less than
     * {@value ShortGeodesic#LONGEST_NM} NM from there some ten times as fast.
     */
    public Offset offsetNear(Normal normal, double estimateNm) {
        double along = estimateNm;
        for (int i = 0; i <= MAX_ITERATIONS; i++) {
            GeodesicData here = solve(along);
            Normal foot = Normal.at(here.lat2, here.lon2);
            if (!ShortGeodesic.reaches(foot, normal)) {
                break;
            }
            ShortGeodesic toPoint = ShortGeodesic.between(foot, normal);
            double angle = Math.toRadians(toPoint.initialDeg() - here.azi2);
            double step = Geodesics.MEAN_RADIUS_NM
                    * Math.atan(Math.tan(toPoint.distanceNm() / Geodesics.MEAN_RADIUS_NM) * Math.cos(angle));
            if (Math.abs(step) < NEAR_CONVERGED_NM) {
                double cross = toPoint.distanceNm() * Math.signum(Math.sin(angle));
                return new Offset(cross + 0.0, along + step + 0.0, new TrueDirection(here.azi2));
            }
            along += step;
        }
        return offset(Position.under(normal));
    }

    /**
     * Where this line and another cross, as whole geodesics: the crossing nearest to the two starts, ahead or behind.
     *
     * <p>By iterating the crossing of two great circles through the present points and courses (C. F. F. Karney,
     * Geodesic intersections, J. Surv. Eng. 150, 2024, section 3, without its search for further crossings: the other
     * one is on the far side of the Earth). Where lines cross at a small angle the position is as uncertain as theirs:
     * some nanometres divided by the sine of the angle.
     *
     * @param other the other line
     * @return the crossing; empty if the lines are the same ground (to a centimetre over 1000 NM) or do not converge on
     *     one point
     */
    public Optional<Crossing> crossing(GeodesicLine other) {
        double alongThis = 0;
        double alongOther = 0;
        for (int i = 0; i <= MAX_ITERATIONS; i++) {
            GeodesicData here = solve(alongThis);
            GeodesicData there = other.solve(alongOther);
            Geodesics.Inverse between = new Position(here.lat2, here.lon2).to(new Position(there.lat2, there.lon2));
            GreatCircles step = GreatCircles.solve(
                    between.distanceNm() / Geodesics.MEAN_RADIUS_NM,
                    Math.toRadians(here.azi2 - between.initial().deg()),
                    Math.toRadians(there.azi2 - between.onward().deg()));
            if (step == null) {
                return Optional.empty();
            }
            double stepThis = step.alongFirst() * Geodesics.MEAN_RADIUS_NM;
            double stepOther = step.alongSecond() * Geodesics.MEAN_RADIUS_NM;
            alongThis += stepThis;
            alongOther += stepOther;
            // The error of a step is of the third order in it; below this there is only noise, which a flat crossing
            // enlarges.
            if ((Math.abs(stepThis) + Math.abs(stepOther)) * step.sine() < CONVERGED_NM) {
                boolean sameGround = step.sine() < NEARLY_PARALLEL && isSameGround(other);
                return sameGround ? Optional.empty() : Optional.of(crossingAt(other, alongThis, alongOther));
            }
        }
        return Optional.empty();
    }

    private Crossing crossingAt(GeodesicLine other, double alongThis, double alongOther) {
        return new Crossing(
                pointAt(alongThis), alongThis + 0.0, alongOther + 0.0, courseAt(alongThis), other.courseAt(alongOther));
    }

    private boolean isSameGround(GeodesicLine other) {
        return Math.abs(offset(other.start).crossTrackNm()) < SAME_GROUND_NM
                && Math.abs(offset(other.pointAt(SAME_GROUND_REACH_NM)).crossTrackNm()) < SAME_GROUND_NM;
    }

    /**
     * Where this line is a given distance from a point (a radial and a DME distance, say).
     *
     * @param centre the point, within a quarter of the globe of the line
     * @param radiusNm the distance, nautical miles, (0, 2000]
     * @return along-track distances of the crossings from the start, ascending: none, one (touching: the nearest point
     *     of the line is within a millimetre of the circle) or two; negative ones are behind the start
     * @throws IllegalArgumentException if the radius is outside (0, 2000] or not a number
     */
    public List<Double> crossingsOfCircle(Position centre, double radiusNm) {
        if (!(radiusNm > 0 && radiusNm <= 2000)) {
            throw new IllegalArgumentException("radius " + radiusNm + " NM is not in (0, 2000]");
        }
        Offset foot = offset(centre);
        double nearest = Math.abs(foot.crossTrackNm());
        if (Math.abs(nearest - radiusNm) < TOUCHING_NM) {
            return List.of(foot.alongTrackNm());
        }
        if (nearest > radiusNm) {
            return List.of();
        }
        // The half chord of the plane, and outward from there: from the foot on the distance only grows.
        double reach = Math.sqrt((radiusNm - nearest) * (radiusNm + nearest));
        return List.of(
                alongAtDistance(centre, radiusNm, foot.alongTrackNm(), -reach),
                alongAtDistance(centre, radiusNm, foot.alongTrackNm(), reach));
    }

    private double alongAtDistance(Position centre, double radiusNm, double foot, double reach) {
        double in = foot;
        double out = foot + reach;
        while (pointAt(out).distanceNm(centre) < radiusNm) {
            out += (out - in) * 0.05;
        }
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

    /** For messages. */
    @Override
    public String toString() {
        return "line from " + start + " true " + direction.deg() + " for " + lengthNm + " NM";
    }
}
