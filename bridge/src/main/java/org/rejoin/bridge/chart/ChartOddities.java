package org.rejoin.bridge.chart;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

import org.rejoin.bridge.chart.ChartReport.Finding;
import org.rejoin.bridge.chart.ChartReport.Oddity;

/** Looks for what is odd about a chart. */
record ChartOddities(Chart chart, SourceLines lines) {

    /** Longer legs are rare enough to be a slip (issue's figure; common practice, no source). */
    private static final double LONG_LEG_NM = 300;

    /** Points of one ident whose distances are measured; a file may repeat an ident any number of times. */
    private static final int MEASURED = 20;

    /** Stations first, then airways, then idents. */
    List<Finding> find() {
        List<Finding> findings = new ArrayList<>();
        for (Station station : chart.stations()) {
            if (station.kind().hasRadials() && station.declination().isEmpty()) {
                findings.add(new Finding(
                        Oddity.NO_DECLINATION,
                        station.ident(),
                        lines.of(station),
                        station.kind() + " " + station.ident() + " has no declination; no radial of it can be used"));
            }
        }
        for (Airway airway : chart.airways()) {
            oddities(airway, findings);
        }
        Map<String, List<Waypoint>> byIdent = new LinkedHashMap<>();
        chart.waypoints()
                .forEach(point -> byIdent.computeIfAbsent(point.ident(), key -> new ArrayList<>(1))
                        .add(point));
        byIdent.values().stream().filter(same -> same.size() > 1).forEach(same -> findings.add(duplicate(same)));
        return findings;
    }

    private void oddities(Airway airway, List<Finding> findings) {
        for (Waypoint point : airway.points()) {
            if (!chart.waypoints(point.ident()).contains(point)) {
                findings.add(new Finding(
                        Oddity.AIRWAY_POINT_MISSING,
                        airway.ident(),
                        lines.of(airway),
                        "airway " + airway.ident() + " goes to " + point.ident() + ", which the chart does not have"));
            }
        }
        for (int i = 1; i < airway.points().size(); i++) {
            Waypoint from = airway.points().get(i - 1);
            Waypoint to = airway.points().get(i);
            double distanceNm = from.position().distanceNm(to.position());
            if (distanceNm > LONG_LEG_NM) {
                findings.add(new Finding(
                        Oddity.LONG_LEG,
                        airway.ident(),
                        lines.of(airway),
                        String.format(
                                Locale.ROOT,
                                "airway %s: leg %s to %s is %.1f NM long",
                                airway.ident(),
                                from.ident(),
                                to.ident(),
                                distanceNm)));
            }
        }
    }

    private Finding duplicate(List<Waypoint> same) {
        double closest = Double.POSITIVE_INFINITY;
        int measured = Math.min(MEASURED, same.size());
        for (int i = 1; i < measured; i++) {
            for (int j = 0; j < i; j++) {
                closest = Math.min(
                        closest, same.get(i).position().distanceNm(same.get(j).position()));
            }
        }
        int[] where = same.stream()
                .mapToInt(lines::of)
                .filter(line -> line > 0)
                .sorted()
                .limit(5)
                .toArray();
        String ident = same.get(0).ident();
        return new Finding(
                Oddity.DUPLICATE_IDENT,
                ident,
                where.length == 0 ? 0 : where[where.length > 1 ? 1 : 0],
                String.format(
                        Locale.ROOT,
                        "%d points have the ident %s, the closest two %.1f NM apart%s",
                        same.size(),
                        ident,
                        closest,
                        where.length == 0 ? "" : " (lines " + listed(where) + ")"));
    }

    private static String listed(int[] numbers) {
        return String.join(
                ", ", Arrays.stream(numbers).mapToObj(Integer::toString).toList());
    }
}
