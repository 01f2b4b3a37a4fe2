package org.rejoin.bridge.chart.io;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import java.util.regex.Pattern;

import org.rejoin.bridge.chart.Airport;
import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.PublishedHold;
import org.rejoin.bridge.chart.SourceLines;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Declination;
import org.rejoin.bridge.geo.Position;
import org.rejoin.protocol.yaml.YamlException;
import org.rejoin.protocol.yaml.YamlNode;
import org.rejoin.protocol.yaml.YamlText;

import org.jspecify.annotations.Nullable;

/** Our chart file: stations, fixes, airports, and airways that name them. */
final class YamlChart {

    private static final List<String> KEYS = List.of("name", "stations", "fixes", "airports", "airways", "holds");
    private static final String SAYS = "says";
    private static final String ALIGNED_TO = "aligned_to";
    private static final List<String> STATION_KEYS = List.of(
            "ident",
            "name",
            "kind",
            "class",
            "frequency_mhz",
            "latitude_deg",
            "longitude_deg",
            "declination_deg",
            ALIGNED_TO,
            "elevation_ft",
            SAYS);
    private static final List<String> FIX_KEYS = List.of("ident", "latitude_deg", "longitude_deg", SAYS);
    private static final List<String> AIRPORT_KEYS =
            List.of("ident", "name", "latitude_deg", "longitude_deg", "elevation_ft", SAYS);

    /** What a station's zero radial points to. */
    private enum North {
        /** Magnetic north as it was when the station was aligned, by its declination. */
        MAGNETIC_NORTH,
        /** True north, whatever the variation is. */
        TRUE_NORTH
    }

    /** Words, or phones; nothing else reaches a speech program. */
    private static final Pattern SOUNDS = Pattern.compile("[A-Za-z][A-Za-z' -]{0,79}");

    private static final Pattern SECTION =
            Pattern.compile("^[\"']?(stations|fixes|airports|airways|holds)[\"']?\\s*:", Pattern.MULTILINE);
    private static final double LOWEST_FT = -2_000;
    private static final double HIGHEST_FT = 30_000;

    private final Problems problems;
    private final SourceLines lines;
    private final List<Station> stations = new ArrayList<>();
    private final List<Fix> fixes = new ArrayList<>();
    private final List<Airport> airports = new ArrayList<>();
    private final Map<String, String> says = new LinkedHashMap<>();

    private YamlChart(Problems problems, SourceLines lines) {
        this.problems = problems;
        this.lines = lines;
    }

    /**
     * The chart that the text describes.
     *
     * @throws IOException if it is no YAML, or YAML of something else
     */
    static Chart read(String name, String text, Problems problems, SourceLines lines) throws IOException {
        YamlText read;
        try {
            read = YamlText.read(text);
        } catch (YamlException e) {
            // A slip of the pen is told where it is only in what was meant to be a chart.
            boolean slip = !e.isNotYaml() || SECTION.matcher(text).find();
            throw slip ? new IOException(name + ": " + e.getMessage(), e) : noChart(name, e);
        }
        read.slips().forEach(slip -> problems.noted(slip.line(), slip.said()));
        YamlNode root = read.root()
                .orElseThrow(() ->
                        new IOException(name + ": line 1, column 1: nothing but blanks or comments, expected a chart"));
        if (!(root instanceof YamlNode.Mapping mapping) || KEYS.stream().noneMatch(mapping.members()::containsKey)) {
            throw noChart(name, null);
        }
        return new YamlChart(problems, lines).chart(name, mapping);
    }

    private static IOException noChart(String name, @Nullable YamlException cause) {
        return new IOException(
                name
                        + " is no chart: expected a chart in YAML, with stations, fixes, airports and airways, or ARINC 424"
                        + " records of 132 columns",
                cause);
    }

    private Chart chart(String name, YamlNode.Mapping root) {
        YamlRecord.requireKnown(root, "chart", KEYS, problems);
        each(root, "stations", this::station);
        each(root, "fixes", this::fix);
        each(root, "airports", this::airport);
        // Points may stand after the airways that name them.
        YamlAirways airways = new YamlAirways(new Chart("", stations, fixes, airports, List.of()), problems);
        List<Airway> read = new ArrayList<>();
        each(
                root,
                "airways",
                node -> airways.read(node).ifPresent(airway -> {
                    lines.add(airway, node.line());
                    read.add(airway);
                }));
        YamlHolds holds = new YamlHolds(new Chart("", stations, fixes, airports, read), problems);
        List<PublishedHold> patterns = new ArrayList<>();
        each(root, "holds", node -> holds.read(node).ifPresent(patterns::add));
        return new Chart(title(root).orElse(name), stations, fixes, airports, read, patterns).saying(says);
    }

    private Optional<String> title(YamlNode.Mapping root) {
        YamlNode.Member member = root.given("name");
        if (member == null) {
            return Optional.empty();
        }
        if (member.value() instanceof YamlNode.Scalar scalar) {
            return Optional.of(scalar.text());
        }
        problems.noted(
                member.line(), "name must be text, found " + member.value().described());
        return Optional.empty();
    }

    private void each(YamlNode.Mapping root, String key, Consumer<YamlNode> read) {
        YamlNode.Member member = root.given(key);
        if (member == null) {
            return;
        }
        if (member.value() instanceof YamlNode.Sequence sequence) {
            sequence.items().forEach(read);
        } else {
            problems.dropped(
                    member.line(),
                    key + " must be a list, each line beginning with \"- \", found "
                            + member.value().described());
        }
    }

    private void station(YamlNode node) {
        YamlRecord.of(node, "station", STATION_KEYS, problems).ifPresent(entry -> {
            Optional<Position> position = entry.position();
            Optional<Station.Kind> kind = kind(entry);
            if (position.isPresent() && kind.isPresent()) {
                keep(
                        stations,
                        entry,
                        new Station(
                                entry.ident(),
                                entry.text("name").orElse(entry.ident()),
                                kind.get(),
                                entry.constant("class", List.of(Station.ServiceClass.values()), false),
                                frequency(entry, kind.get()),
                                position.get(),
                                declination(entry, kind.get()),
                                elevation(entry)));
            }
        });
    }

    private static Optional<Station.Kind> kind(YamlRecord entry) {
        List<Station.Kind> kinds = List.of(Station.Kind.values());
        if (entry.value("kind") == null) {
            entry.dropped(entry.line(), "kind is missing; add one of " + kinds);
            return Optional.empty();
        }
        return entry.constant("kind", kinds, true);
    }

    /** Bands: ICAO Annex 10 volume I, 3.3.2 (VOR) and 3.4.4 (NDB, 190 to 1750 kHz); paragraphs and figures from memory. */
    private static OptionalDouble frequency(YamlRecord entry, Station.Kind kind) {
        return kind == Station.Kind.NDB
                ? entry.number("frequency_mhz", 0.19, 1.75, "MHz (kHz / 1000)")
                : entry.number("frequency_mhz", 108, 118, "MHz");
    }

    private static Optional<Declination> declination(YamlRecord entry, Station.Kind kind) {
        OptionalDouble east = entry.number("declination_deg", -180, 180, "degrees east");
        boolean trueNorth = entry.constant(ALIGNED_TO, List.of(North.values()), false)
                .filter(north -> north == North.TRUE_NORTH)
                .isPresent();
        if (trueNorth && kind.hasRadials() && east.orElse(0) == 0) {
            return Optional.of(Declination.TRUE_NORTH);
        }
        if (trueNorth) {
            entry.noted(
                    entry.line(),
                    kind.hasRadials()
                            ? "aligned_to TRUE_NORTH has declination_deg 0, or none; with the one given no radial of it can be"
                                    + " used"
                            : "aligned_to is of a VOR, VORDME or VORTAC: " + kind + " has no radials");
            return Optional.empty();
        }
        if (east.isPresent()) {
            return Optional.of(new Declination(east.getAsDouble()));
        }
        if (kind.hasRadials() && entry.value("declination_deg") == null) {
            entry.noted(
                    entry.line(),
                    "a " + kind + " needs declination_deg, degrees east; without it no radial of it can be used");
        }
        return Optional.empty();
    }

    private void fix(YamlNode node) {
        YamlRecord.of(node, "fix", FIX_KEYS, problems)
                .ifPresent(entry ->
                        entry.position().ifPresent(position -> keep(fixes, entry, new Fix(entry.ident(), position))));
    }

    private void airport(YamlNode node) {
        YamlRecord.of(node, "airport", AIRPORT_KEYS, problems)
                .ifPresent(entry -> entry.position()
                        .ifPresent(position -> keep(
                                airports,
                                entry,
                                new Airport(
                                        entry.ident(),
                                        entry.text("name").orElse(entry.ident()),
                                        position,
                                        elevation(entry)))));
    }

    private <T extends Waypoint> void keep(List<T> list, YamlRecord entry, T point) {
        list.add(point);
        lines.add(point, entry.line());
        entry.text(SAYS).ifPresent(sounds -> {
            if (SOUNDS.matcher(sounds).matches()) {
                says.put(point.ident(), sounds);
            } else {
                entry.noted(
                        entry.line(),
                        "says is how the name sounds: other words (skew ah) or phones (S K Y UW AH), found \"" + sounds
                                + "\"");
            }
        });
    }

    private static OptionalDouble elevation(YamlRecord entry) {
        return entry.number("elevation_ft", LOWEST_FT, HIGHEST_FT, "feet");
    }
}
