package org.rejoin.bridge.tracker;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.AmendedRoute;

/**
 * A segment of an airway that is no part of the amended route, and may be joined in place of what was cleared.
 *
 * @param ident of the airway
 */
public record NearAirway(String ident, GeodesicLine line) {

    /**
     * The segments of a chart's airways that have an end no farther than so many nautical miles from where the clearance was
     * heard; none where neither a radial nor an airway was cleared.
     */
    public static List<NearAirway> within(double reachNm, Chart chart, AmendedRoute route) {
        boolean cleared = route.course().isPresent() || route.joinLegs().contains(route.courseLeg());
        if (!cleared || route.courseLeg() < 0) {
            return List.of();
        }
        List<String> flown = route.legs().stream()
                .map(leg -> leg.airway())
                .flatMap(Optional::stream)
                .toList();
        Position here = route.situation().position();
        List<NearAirway> near = new ArrayList<>();
        for (Airway airway : chart.airways()) {
            if (flown.contains(airway.ident())) {
                continue;
            }
            List<Waypoint> points = airway.points();
            for (int i = 1; i < points.size(); i++) {
                Position from = points.get(i - 1).position();
                Position to = points.get(i).position();
                if (from.isWithin(reachNm, here) || to.isWithin(reachNm, here)) {
                    near.add(new NearAirway(airway.ident(), GeodesicLine.between(from, to)));
                }
            }
        }
        return near;
    }
}
