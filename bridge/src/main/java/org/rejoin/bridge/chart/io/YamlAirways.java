package org.rejoin.bridge.chart.io;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.NearestChain;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.protocol.yaml.Slip;
import org.rejoin.protocol.yaml.YamlNode;

/** Reads the airways of our chart file once its points are known. */
final class YamlAirways {

    private static final List<String> KEYS =
            List.of("ident", "points", "minimum_altitude_ft", "minimum_altitudes_ft", "direction", "changeovers_nm");
    private static final double HIGHEST_FT = 60_000;
    private static final double LONGEST_NM = 1000;
    private static final double SAME_PLACE_NM = 0.001;

    private final Chart points;
    private final Problems problems;
    private final Set<String> idents;
    private final Map<String, Integer> lines = new HashMap<>();

    YamlAirways(Chart points, Problems problems) {
        this.points = points;
        this.problems = problems;
        this.idents = points.idents();
    }

    /** The airway, unless a problem leaves it out. */
    Optional<Airway> read(YamlNode node) {
        return YamlRecord.of(node, "airway", KEYS, problems).flatMap(this::airway);
    }

    private Optional<Airway> airway(YamlRecord entry) {
        Integer before = lines.putIfAbsent(entry.ident(), entry.line());
        if (before != null) {
            entry.noted(entry.line(), "stands in line " + before + " already; kept as another piece of that airway");
        }
        Optional<List<Waypoint>> resolved = points(entry);
        return resolved.map(list -> new Airway(entry.ident(), list, segments(entry, list.size() - 1)));
    }

    private Optional<List<Waypoint>> points(YamlRecord entry) {
        if (!(entry.value("points") instanceof YamlNode.Sequence sequence)
                || sequence.items().size() < 2) {
            YamlNode found = entry.value("points");
            entry.dropped(
                    found == null ? entry.line() : found.line(),
                    "points must be a list of two idents or more, as [AAA, ABCDE]"
                            + (found == null || found instanceof YamlNode.Sequence
                                    ? ""
                                    : ", found " + found.described()));
            return Optional.empty();
        }
        List<List<Waypoint>> candidates = new ArrayList<>();
        boolean known = true;
        for (YamlNode item : sequence.items()) {
            List<Waypoint> found = item instanceof YamlNode.Scalar scalar
                    ? points.waypoints(scalar.text().toUpperCase(Locale.ROOT))
                    : List.of();
            if (found.isEmpty()) {
                entry.dropped(item.line(), unknown(item));
                known = false;
            }
            candidates.add(found);
        }
        if (!known) {
            return Optional.empty();
        }
        List<Waypoint> chain = NearestChain.of(candidates);
        return apart(entry, sequence, chain) ? Optional.of(chain) : Optional.empty();
    }

    private String unknown(YamlNode item) {
        if (!(item instanceof YamlNode.Scalar scalar)) {
            return "a point must be an ident, found " + item.described();
        }
        return "point " + scalar.described() + " is no station, fix or airport of this chart"
                + Slip.closest(scalar.text(), idents)
                        .map(word -> ", did you mean " + word + "?")
                        .orElse("; add it to one of these lists");
    }

    /** A leg needs two different places, else it has no course. */
    private static boolean apart(YamlRecord entry, YamlNode.Sequence sequence, List<Waypoint> chain) {
        for (int i = 1; i < chain.size(); i++) {
            if (chain.get(i - 1).position().distanceNm(chain.get(i).position()) < SAME_PLACE_NM) {
                entry.dropped(
                        sequence.items().get(i).line(),
                        "points " + chain.get(i - 1).ident() + " and "
                                + chain.get(i).ident() + " are at one place; an airway leg needs two");
                return false;
            }
        }
        return true;
    }

    private static List<Airway.Segment> segments(YamlRecord entry, int count) {
        OptionalDouble all = entry.number("minimum_altitude_ft", 0, HIGHEST_FT, "feet");
        List<OptionalDouble> altitudes = numbers(entry, "minimum_altitudes_ft", all, count, HIGHEST_FT, "feet");
        List<OptionalDouble> changeovers =
                numbers(entry, "changeovers_nm", OptionalDouble.empty(), count, LONGEST_NM, "nautical miles");
        List<Airway.Direction> directions = directions(entry, count);
        List<Airway.Segment> segments = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            segments.add(new Airway.Segment(
                    altitudes.get(i),
                    directions.get(i),
                    altitudes.get(i),
                    OptionalDouble.empty(),
                    changeovers.get(i),
                    Optional.empty()));
        }
        return segments;
    }

    /** One number for each leg; null where the leg has none of its own. */
    private static List<OptionalDouble> numbers(
            YamlRecord entry, String key, OptionalDouble all, int count, double most, String unit) {
        List<OptionalDouble> numbers = new ArrayList<>(Collections.nCopies(count, all));
        YamlNode value = entry.value(key);
        if (value == null) {
            return numbers;
        }
        if (!(value instanceof YamlNode.Sequence sequence) || sequence.items().size() != count) {
            entry.noted(value.line(), key + " must be a list of " + count + ", one for each leg");
            return numbers;
        }
        for (int i = 0; i < count; i++) {
            YamlNode item = sequence.items().get(i);
            if (!(item instanceof YamlNode.Scalar scalar && scalar.absent())) {
                numbers.set(i, entry.number(key, item, 0, most, unit, false));
            }
        }
        return numbers;
    }

    /** One word for the whole airway, or a list with one for each leg. */
    private static List<Airway.Direction> directions(YamlRecord entry, int count) {
        List<Airway.Direction> directions = new ArrayList<>(Collections.nCopies(count, Airway.Direction.BOTH));
        YamlNode value = entry.value("direction");
        if (value instanceof YamlNode.Sequence sequence) {
            if (sequence.items().size() != count) {
                entry.noted(value.line(), "direction must be one word, or a list of " + count + ", one for each leg");
                return directions;
            }
            for (int i = 0; i < count; i++) {
                directions.set(i, direction(entry, sequence.items().get(i)));
            }
        } else if (value != null) {
            Collections.fill(directions, direction(entry, value));
        }
        return directions;
    }

    private static Airway.Direction direction(YamlRecord entry, YamlNode value) {
        if (value instanceof YamlNode.Scalar scalar) {
            for (Airway.Direction direction : Airway.Direction.values()) {
                if (direction.name().equalsIgnoreCase(scalar.text())) {
                    return direction;
                }
            }
        }
        entry.noted(
                value.line(),
                "direction must be both, forward (in the order of the points) or backward, found " + value.described());
        return Airway.Direction.BOTH;
    }
}
