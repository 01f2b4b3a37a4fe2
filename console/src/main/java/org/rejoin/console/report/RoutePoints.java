package org.rejoin.console.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.bridge.route.Leg;

/** Routes as named points, for formats that know no path terminators. */
final class RoutePoints {

    private RoutePoints() {}

    /** A point of a route: its ident, or what the point is. */
    record Named(String name, Position position) {}

    static List<Named> filed(DebriefedFlight flight) {
        return flight.lesson().filed().points().stream()
                .map(point -> new Named(point.ident(), point.position()))
                .toList();
    }

    /** From where the clearance was heard, by the intercept, to the end of each leg. */
    static List<Named> amended(AmendedRoute route) {
        List<Named> points = new ArrayList<>();
        points.add(new Named("clearance", route.situation().position()));
        route.intercept()
                .filter(met -> met.distanceNm() > 0.05)
                .map(Intercept::position)
                .ifPresent(position -> points.add(new Named("intercept", position)));
        for (Leg leg : route.legs()) {
            leg.endsAt().ifPresent(end -> points.add(new Named(end.ident(), end.position())));
        }
        return points;
    }

    /** Every named point of the filed and the amended routes, once. */
    static List<Named> fixes(DebriefedFlight flight) {
        Map<String, Named> points = new LinkedHashMap<>();
        filed(flight).forEach(point -> points.putIfAbsent(point.name(), point));
        for (Entry.Issued amended : flight.record().issued()) {
            amended.route().course().ifPresent(course -> add(points, course.station()));
            amended.route().legs().forEach(leg -> leg.endsAt().ifPresent(end -> add(points, end)));
        }
        return List.copyOf(points.values());
    }

    private static void add(Map<String, Named> points, Waypoint waypoint) {
        points.putIfAbsent(waypoint.ident(), new Named(waypoint.ident(), waypoint.position()));
    }
}
