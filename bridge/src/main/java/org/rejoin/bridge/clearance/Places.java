package org.rejoin.bridge.clearance;

import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Spelling;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.protocol.yaml.Slip;

/** Points of a chart in words, and what to suggest where a word names none. */
final class Places {

    /** Two points closer than this are one place for a route: a VOR and an NDB on one field. */
    static final double SAME_PLACE_NM = 1;

    /** So many idents are read at a glance. */
    private static final int LISTED = 6;

    private Places() {}

    /** "; did you mean ...?" from all idents of points; else some that the chart has. */
    static String suggestion(String ident, Chart chart) {
        return right(
                ident,
                Stream.<Collection<? extends Waypoint>>of(chart.stations(), chart.fixes(), chart.airports())
                        .flatMap(Collection::stream)
                        .map(Waypoint::ident)
                        .toList(),
                "points");
    }

    /** The same where only a station is of use. */
    static String stationSuggestion(String ident, Chart chart) {
        return right(ident, chart.stations().stream().map(Waypoint::ident).toList(), "stations");
    }

    /** "; did you mean ...?" from all idents of airways; else some that the chart has. */
    static String airwaySuggestion(String ident, Chart chart) {
        return right(ident, chart.airways().stream().map(Airway::ident).toList(), "airways");
    }

    /** What would be right in the place of an ident: what is spelled like it; else what the chart has, the likest first. */
    private static String right(String ident, Collection<String> known, String kind) {
        String near = Spelling.didYouMean(ident, known);
        if (!near.isEmpty()) {
            return near;
        }
        List<String> all = known.stream()
                .distinct()
                .sorted(Comparator.comparingInt((String each) -> Slip.edits(ident, each, true))
                        .thenComparing(Comparator.naturalOrder()))
                .toList();
        if (all.isEmpty()) {
            return "; the chart has no " + kind;
        }
        String listed = all.stream().limit(LISTED).collect(Collectors.joining(", "));
        return "; the chart has " + listed + (all.size() > LISTED ? " and " + (all.size() - LISTED) + " more" : "");
    }

    /** What a point is and where, for a sentence. */
    static String described(Waypoint point) {
        String kind = point.fold(station -> station.kind().name(), fix -> "fix", airport -> "airport");
        return String.format(
                Locale.ROOT,
                "%s %s at %.3f, %.3f",
                kind,
                point.ident(),
                point.position().latitudeDeg(),
                point.position().longitudeDeg());
    }

    /** Idents for a sentence, the first dozen. */
    static String idents(List<? extends Waypoint> points) {
        String listed = points.stream().limit(12).map(Waypoint::ident).collect(Collectors.joining(", "));
        return points.size() > 12 ? listed + " and " + (points.size() - 12) + " more" : listed;
    }

    /** The note for a choice among points of one ident; empty where they are one place. */
    static List<String> choice(String ident, Waypoint taken, List<? extends Waypoint> candidates) {
        boolean elsewhere =
                candidates.stream().anyMatch(other -> other.position().distanceNm(taken.position()) > SAME_PLACE_NM);
        return elsewhere
                ? List.of(ident + ": the chart shows " + candidates.size() + " points of that name, taken is the "
                        + described(taken) + ", the nearer to the route")
                : List.of();
    }

    /** The point nearest to any point of a route; the first of the candidates where they are equally far. */
    static <T extends Waypoint> T nearest(List<T> candidates, List<Waypoint> route) {
        return candidates.size() == 1 || route.isEmpty()
                ? candidates.get(0)
                : candidates.stream()
                        .min(Comparator.comparingDouble(candidate -> distanceNm(candidate, route)))
                        .orElseThrow();
    }

    private static double distanceNm(Waypoint candidate, List<Waypoint> route) {
        return route.stream()
                .mapToDouble(point -> point.position().distanceNm(candidate.position()))
                .min()
                .orElseThrow();
    }
}
