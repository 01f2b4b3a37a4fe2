package org.rejoin.console.draw;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.geo.GeodesicArc;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.HeadingPlan;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.bridge.route.Leg;

/** The lines of a plan as far as they can be seen. */
public record RouteLines(Projection view) {

    private static final int STEPS = 40;

    /** Points of an arc, degrees apart. */
    private static final double ARC_STEP_DEG = 3;

    /** A heading that meets nothing is drawn this far, nautical miles. */
    private static final double OPEN_HEADING_NM = 20;

    /** The part of a geodesic between two distances from its start that comes near the drawing; empty if none does. */
    List<Projection.Point> line(GeodesicLine line, double fromNm, double toNm) {
        double reach = 1.2 * view.reachNm();
        Offset centre = line.offset(view.centre());
        double first = Math.max(fromNm, centre.alongTrackNm() - reach);
        double last = Math.min(toNm, centre.alongTrackNm() + reach);
        if (Math.abs(centre.crossTrackNm()) > reach || last <= first) {
            return List.of();
        }
        List<Projection.Point> points = new ArrayList<>();
        for (int i = 0; i <= STEPS; i++) {
            points.add(view.of(line.pointAt(first + (last - first) * i / STEPS)));
        }
        return Polyline.thinned(points);
    }

    /** The line between two points; empty where it cannot be seen. */
    public Optional<List<Projection.Point>> between(Waypoint from, Waypoint to) {
        if (from.position().distanceNm(to.position()) < 0.01) {
            return Optional.empty();
        }
        GeodesicLine line = GeodesicLine.between(from.position(), to.position());
        return seen(line(line, 0, line.lengthNm()));
    }

    /** The legs of the filed route that can be seen. */
    public List<List<Projection.Point>> filed(FiledRoute route) {
        return route.segments().stream()
                .flatMap(segment -> between(segment.from(), segment.to()).stream())
                .toList();
    }

    /** The legs after the heading that can be seen, each from where it is joined. */
    public List<List<Projection.Point>> amended(AmendedRoute route) {
        return route.legs().stream().flatMap(leg -> flown(leg, route).stream()).toList();
    }

    /**
     * What of a leg is flown, an arc over the ground as cleared, a hold in still air; empty where it cannot be seen. A
     * heading that meets a course is drawn by itself.
     */
    Optional<List<Projection.Point>> flown(Leg leg, AmendedRoute route) {
        if (leg instanceof Leg.HeadingToIntercept) {
            return Optional.empty();
        }
        if (leg instanceof Leg.HeadingOnly open) {
            return open.after()
                    .map(fix -> GeodesicLine.from(fix.position(), open.headingTrue(), OPEN_HEADING_NM))
                    .flatMap(line -> seen(line(line, 0, OPEN_HEADING_NM)));
        }
        if (leg instanceof Leg.DmeArc arc) {
            return seen(through(places(arc.path())));
        }
        if (leg instanceof Leg.HoldAtFix hold) {
            return seen(through(hold.holding().racetrack(route.situation().trueAirspeedKt())));
        }
        return leg.line().flatMap(line -> seen(line(line, leg.joinedAtNm(), line.lengthNm())));
    }

    private static List<Position> places(GeodesicArc arc) {
        int pieces = Math.max(8, (int) (Math.abs(arc.sweepDeg()) / ARC_STEP_DEG));
        return IntStream.rangeClosed(0, pieces)
                .mapToObj(i -> arc.pointAt(arc.lengthNm() * i / pieces))
                .toList();
    }

    /** The predicted track on the heading, to where it meets the course; empty without a heading. */
    public Optional<List<Projection.Point>> heading(AmendedRoute route) {
        return route.heading().map(HeadingPlan::path).flatMap(path -> {
            double end = route.intercept().map(Intercept::distanceNm).orElse(OPEN_HEADING_NM);
            return seen(line(path, 0, end));
        });
    }

    /**
     * Where the turn begins as it is flown, on the heading line; empty where heading and course do not meet, or the
     * turn is due at once.
     */
    public Optional<Position> lead(AmendedRoute route) {
        return route.intercept()
                .filter(met -> met.standardTurnLeadNm() < met.distanceNm())
                .flatMap(met ->
                        route.heading().map(plan -> plan.path().pointAt(met.distanceNm() - met.standardTurnLeadNm())));
    }

    /** The whole radial, from the station outward; empty where none was cleared. */
    public Optional<List<Projection.Point>> radial(AmendedRoute route) {
        return route.course().flatMap(course -> {
            double end = course.station().position().distanceNm(view.centre()) + 1.2 * view.reachNm();
            return seen(line(course.outbound(), 0, end));
        });
    }

    /** A path through places that lie close together, as far as it comes near the drawing. */
    List<Projection.Point> through(List<Position> places) {
        return Polyline.thinned(places.stream()
                .filter(place -> view.centre().distanceNm(place) < 2 * view.reachNm())
                .map(view::of)
                .toList());
    }

    private static Optional<List<Projection.Point>> seen(List<Projection.Point> points) {
        return points.size() < 2 ? Optional.empty() : Optional.of(points);
    }
}
