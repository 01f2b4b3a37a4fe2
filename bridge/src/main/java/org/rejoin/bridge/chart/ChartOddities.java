package org.rejoin.bridge.chart;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;

import org.rejoin.bridge.chart.ChartReport.Finding;
import org.rejoin.bridge.chart.ChartReport.Oddity;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;

/**
 * Looks for what is odd about a chart, also the slips of a hand-written one that no single entry shows: a point far from
 * all others, a declination that cannot be that of the place.
 */
record ChartOddities(Chart chart, SourceLines lines) {

    /** Longer legs are rare enough to be a slip (issue's figure; common practice, no source). */
    private static final double LONG_LEG_NM = 300;

    /** Points of one ident whose distances are measured; a file may repeat an ident any number of times. */
    private static final int MEASURED = 20;

    /** Fewer points have no middle to be far from. */
    private static final int FEWEST = 3;

    /** A point this many times farther from the middle than half of the points are is off (common practice, no source). */
    private static final double TIMES = 6;

    /** Nearer than this to the middle nothing is far off, NM (common practice, no source). */
    private static final double NEAR_NM = 600;

    /**
     * Stations are aligned anew when they are some degrees off the variation; more than this is a slip, degrees (common
     * practice, no source).
     */
    private static final double FAR_DEG = 8;

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

    /** Points far from all others, in the order of the chart. */
    List<Finding> farOff() {
        List<Waypoint> points = chart.waypoints();
        if (points.size() < FEWEST) {
            return List.of();
        }
        Position middle = middle(points);
        double[] distancesNm = points.stream()
                .mapToDouble(point -> middle.distanceNm(point.position()))
                .toArray();
        double[] sorted = distancesNm.clone();
        Arrays.sort(sorted);
        double farNm = Math.max(NEAR_NM, TIMES * sorted[sorted.length / 2]);
        List<Finding> findings = new ArrayList<>();
        for (int i = 0; i < points.size(); i++) {
            Waypoint point = points.get(i);
            if (distancesNm[i] <= farNm) {
                continue;
            }
            Optional<Position> meant = meant(point.position(), middle, farNm);
            if (meant.isPresent() || isAlone(point, points)) {
                findings.add(new Finding(
                        Oddity.FAR_OFF,
                        point.ident(),
                        lines.of(point),
                        String.format(
                                Locale.ROOT,
                                "%s at %s is %.0f NM from the middle of the chart%s",
                                point.ident(),
                                shown(point.position()),
                                distancesNm[i],
                                meant.map(other -> "; did you mean " + shown(other) + "?")
                                        .orElse("; latitude comes first, north and east are plus"))));
            }
        }
        return findings;
    }

    /** Where half of the points are near, by the median of each coordinate; longitudes are taken from the first point's. */
    private static Position middle(List<Waypoint> points) {
        double origin = points.get(0).position().longitudeDeg();
        double latitude = median(points.stream().mapToDouble(p -> p.position().latitudeDeg()));
        double longitude = origin
                + median(points.stream()
                        .mapToDouble(p -> Angles.turn(p.position().longitudeDeg() - origin)));
        return new Position(latitude, Angles.turn(longitude));
    }

    private static double median(DoubleStream values) {
        double[] sorted = values.sorted().toArray();
        return sorted[sorted.length / 2];
    }

    /** A far end of an airway has its neighbours. */
    private static boolean isAlone(Waypoint point, List<Waypoint> points) {
        return points.stream()
                .noneMatch(other -> other != point && other.position().distanceNm(point.position()) <= NEAR_NM);
    }

    /** Where a slip of the pen would have put the point among the others. */
    private static Optional<Position> meant(Position at, Position middle, double farNm) {
        Stream<Position> others = Math.abs(at.longitudeDeg()) <= 90
                ? Stream.of(new Position(at.longitudeDeg(), at.latitudeDeg()))
                : Stream.empty();
        Stream<Position> signs = Stream.of(
                new Position(at.latitudeDeg(), -at.longitudeDeg()),
                new Position(-at.latitudeDeg(), at.longitudeDeg()),
                new Position(-at.latitudeDeg(), -at.longitudeDeg()));
        return Stream.concat(others, signs)
                .filter(other -> middle.distanceNm(other) <= farNm)
                .findFirst();
    }

    private static String shown(Position at) {
        return "latitude " + plain(at.latitudeDeg()) + ", longitude " + plain(at.longitudeDeg());
    }

    private static String plain(double deg) {
        double rounded = Math.rint(deg * 1e6) / 1e6;
        return rounded == Math.rint(rounded) ? Long.toString((long) rounded) : Double.toString(rounded);
    }

    /** Stations aligned to magnetic north whose declination is far from the variation of a day. */
    List<Finding> declinations(LocalDate day) {
        return chart.stations().stream()
                .flatMap(station -> declination(station, lines.of(station), day).stream())
                .toList();
    }

    static Optional<Finding> declination(Station station, int line, LocalDate day) {
        if (station.declination().isEmpty() || !station.kind().hasRadials() || station.isAlignedToTrueNorth()) {
            return Optional.empty();
        }
        double east = station.declination().get().eastDeg();
        double today =
                MagneticModel.WMM2025.variation(station.position(), 0, day).eastDeg();
        if (Math.abs(Angles.turn(east - today)) <= FAR_DEG) {
            return Optional.empty();
        }
        boolean sign = east * today < 0;
        return Optional.of(new Finding(
                sign ? Oddity.DECLINATION_SIGN : Oddity.DECLINATION_OFF,
                station.ident(),
                line,
                String.format(
                        Locale.ROOT,
                        "%s has declination %s, but the variation there is %s on %s%s",
                        station.ident(),
                        eastOrWest(east),
                        eastOrWest(today),
                        day,
                        sign ? ": the sign looks wrong; east is plus, west is minus" : "; check it")));
    }

    private static String eastOrWest(double east) {
        return String.format(Locale.ROOT, "%.1f degrees %s", Math.abs(east), east < 0 ? "west" : "east");
    }
}
