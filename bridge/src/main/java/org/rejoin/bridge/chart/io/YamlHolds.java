package org.rejoin.bridge.chart.io;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.PublishedHold;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.protocol.yaml.YamlNode;

/** The holding patterns of our chart file, each named by its fix. */
record YamlHolds(Chart points, Problems problems) {

    private static final List<String> KEYS = List.of(
            "fix",
            "inbound_course_magnetic_deg",
            "inbound_course_true_deg",
            "turns",
            "leg_min",
            "leg_nm",
            "minimum_altitude_ft",
            "maximum_altitude_ft",
            "max_speed_kt");

    /** Right is the standard (Aeronautical Information Manual 5-3-8). */
    private enum Turns {
        RIGHT,
        LEFT
    }

    Optional<PublishedHold> read(YamlNode node) {
        return YamlRecord.of(node, "hold", "fix", KEYS, problems).flatMap(this::hold);
    }

    private Optional<PublishedHold> hold(YamlRecord entry) {
        List<Waypoint> shown = points.waypoints(entry.ident());
        if (shown.isEmpty()) {
            entry.dropped(entry.line(), "the chart has no point of that ident");
            return Optional.empty();
        }
        OptionalDouble magnetic = entry.number("inbound_course_magnetic_deg", 0, 360, "degrees magnetic");
        OptionalDouble trueDeg = entry.number("inbound_course_true_deg", 0, 360, "degrees true");
        if (magnetic.isPresent() == trueDeg.isPresent()) {
            entry.dropped(
                    entry.line(),
                    "give inbound_course_magnetic_deg or inbound_course_true_deg, one of the two, in degrees");
            return Optional.empty();
        }
        Optional<Turns> turns = entry.constant("turns", List.of(Turns.values()), true);
        if (entry.value("turns") != null && turns.isEmpty()) {
            return Optional.empty();
        }
        OptionalDouble minutes = entry.number("leg_min", 0.1, 30, "minutes");
        OptionalDouble miles = entry.number("leg_nm", 0.1, 100, "nautical miles");
        if (minutes.isPresent() && miles.isPresent()) {
            entry.noted(entry.line(), "leg_min and leg_nm are both given; the distance counts");
        }
        return Optional.of(new PublishedHold(
                shown.get(0),
                new Radial(magnetic.orElseGet(trueDeg::getAsDouble)),
                trueDeg,
                turns.orElse(Turns.RIGHT) == Turns.RIGHT,
                miles.isPresent() ? OptionalDouble.empty() : minutes,
                miles,
                entry.number("minimum_altitude_ft", -2000, 60_000, "feet"),
                entry.number("maximum_altitude_ft", -2000, 60_000, "feet"),
                entry.number("max_speed_kt", 60, 500, "knots")));
    }
}
