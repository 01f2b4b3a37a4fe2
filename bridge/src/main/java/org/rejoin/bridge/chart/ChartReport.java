package org.rejoin.bridge.chart;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

import org.rejoin.bridge.geo.Declination;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;

/** What a chart holds, and what is odd about it, as data for a command or a page to show. Immutable. */
public final class ChartReport {

    private final Chart chart;
    private final SourceLines lines;
    private final Map<Waypoint, Set<String>> airwaysOf = new LinkedHashMap<>();

    /** How much there is: stations by kind, airway names, the continuous pieces and the legs they have together. */
    public record Counts(
            Map<Station.Kind, Integer> stations, int fixes, int airports, int airways, int pieces, int legs) {}

    /** What is odd. */
    public enum Oddity {
        /** An airway goes to a point that the chart does not have among its own. */
        AIRWAY_POINT_MISSING,
        /** A station of radials has no declination, so that none of them can be used. */
        NO_DECLINATION,
        /** An airway leg of more than 300 NM. */
        LONG_LEG,
        /** Several points share an ident. */
        DUPLICATE_IDENT,
        /** A point lies far from all others. */
        FAR_OFF,
        /** A station's declination is more than 8 degrees from today's variation at its place. */
        DECLINATION_OFF,
        /** The same, and on the other side of north. */
        DECLINATION_SIGN
    }

    /**
     * Something odd.
     *
     * @param line in the file, from 1; 0 where it is not known
     * @param text one sentence without the line
     */
    public record Finding(Oddity oddity, String ident, int line, String text) {}

    /**
     * A point that was asked for.
     *
     * @param line in the file, from 1; 0 where it is not known
     * @param airways idents of those it is on, in the order of the file
     * @param holds patterns published there, in the order of the file
     */
    public record Found(Waypoint point, int line, List<String> airways, List<PublishedHold> holds) {}

    /**
     * A leg of an airway.
     *
     * @param distanceNm length of the geodesic, nautical miles
     * @param course true, at the first point toward the second
     * @param courseBack true, at the second point toward the first
     * @param guide the station by whose radials a chart prints the course at the first point, as {@link AirwayGuide}
     *     has it; empty where none guides, or the one that does has no radials, or true ones
     * @param publishedCourse the course as a chart prints it, magnetic as the guiding station was aligned; empty where
     *     none guides
     */
    public record Leg(
            Waypoint from,
            Waypoint to,
            double distanceNm,
            TrueDirection course,
            TrueDirection courseBack,
            Airway.Segment published,
            Optional<Station> guide,
            Optional<Radial> publishedCourse) {}

    /**
     * A continuous piece of an airway.
     *
     * @param line in the file, from 1; 0 where it is not known
     * @param legs one or more, in published order
     */
    public record Piece(String ident, int line, List<Leg> legs, double distanceNm) {}

    private ChartReport(Chart chart, SourceLines lines) {
        this.chart = chart;
        this.lines = lines;
        for (Airway airway : chart.airways()) {
            for (Waypoint point : airway.points()) {
                airwaysOf.computeIfAbsent(point, key -> new LinkedHashSet<>()).add(airway.ident());
            }
        }
    }

    /** The report of a chart. */
    public static ChartReport of(Chart chart, SourceLines lines) {
        return new ChartReport(chart, lines);
    }

    /** {@return how much there is, numbers of each kind of thing} */
    public Counts counts() {
        Map<Station.Kind, Integer> stations = new EnumMap<>(Station.Kind.class);
        for (Station.Kind kind : Station.Kind.values()) {
            stations.put(kind, 0);
        }
        chart.stations().forEach(station -> stations.merge(station.kind(), 1, Integer::sum));
        int names = (int) chart.airways().stream().map(Airway::ident).distinct().count();
        int legs = chart.airways().stream().mapToInt(a -> a.segments().size()).sum();
        return new Counts(
                stations,
                chart.fixes().size(),
                chart.airports().size(),
                names,
                chart.airways().size(),
                legs);
    }

    /**
     * Smallest part of the Earth between two parallels and two meridians that has all points, over 180 if that is less;
     * empty for a chart without points.
     */
    public Optional<Region.Bounds> bounds() {
        List<Position> all = chart.waypoints().stream().map(Waypoint::position).toList();
        if (all.isEmpty()) {
            return Optional.empty();
        }
        double south = all.stream().mapToDouble(Position::latitudeDeg).min().orElse(0);
        double north = all.stream().mapToDouble(Position::latitudeDeg).max().orElse(0);
        double[] longitudes =
                all.stream().mapToDouble(Position::longitudeDeg).sorted().toArray();
        // The widest stretch of longitude without a point is what the bounds leave out.
        int last = longitudes.length - 1;
        double widest = longitudes[0] + 360 - longitudes[last];
        double west = longitudes[0];
        double east = longitudes[last];
        for (int i = 1; i <= last; i++) {
            if (longitudes[i] - longitudes[i - 1] > widest) {
                widest = longitudes[i] - longitudes[i - 1];
                west = longitudes[i];
                east = longitudes[i - 1];
            }
        }
        return Optional.of(new Region.Bounds(south, west, north, east));
    }

    /**
     * What is odd about the chart, stations first, then airways, then idents, then what {@link #misfits} finds;
     * declinations are held against the variation of a day, 2025 to 2029 for the model to be exact.
     */
    public List<Finding> oddities(LocalDate day) {
        List<Finding> findings = new ChartOddities(chart, lines).find();
        findings.addAll(misfits(day));
        return findings;
    }

    /**
     * What cannot be where, or as, it is written: a point far from all others, a declination that is not that of its
     * place on a day.
     */
    public List<Finding> misfits(LocalDate day) {
        ChartOddities oddities = new ChartOddities(chart, lines);
        List<Finding> findings = new ArrayList<>(oddities.farOff());
        findings.addAll(oddities.declinations(day));
        return findings;
    }

    /**
     * What is wrong with the declination of one station on a day, without a line; empty where nothing is, or where it
     * has none.
     */
    public static Optional<Finding> declination(Station station, LocalDate day) {
        return ChartOddities.declination(station, 0, day);
    }

    /** Everything of an ident. */
    public List<Found> find(String ident) {
        return chart.waypoints(ident.toUpperCase(Locale.ROOT)).stream()
                .map(point -> new Found(
                        point,
                        lines.of(point),
                        List.copyOf(airwaysOf.getOrDefault(point, Set.of())),
                        chart.holds(point)))
                .toList();
    }

    /** {@return the holding patterns, in the order of the file} */
    public List<PublishedHold> holds() {
        return chart.holds();
    }

    /** The pieces of an airway. */
    public List<Piece> airway(String ident) {
        return chart.airways(ident.toUpperCase(Locale.ROOT)).stream()
                .map(airway -> {
                    List<Leg> legs = legs(airway);
                    double total = legs.stream().mapToDouble(Leg::distanceNm).sum();
                    return new Piece(airway.ident(), lines.of(airway), legs, total);
                })
                .toList();
    }

    /** At most three idents of points that one not on the chart may have meant, the closest first. */
    public List<String> identsNear(String ident) {
        return Spelling.near(ident, chart.idents());
    }

    /** At most three idents of airways that one not on the chart may have meant, the closest first. */
    public List<String> airwaysNear(String ident) {
        return Spelling.near(ident, chart.airways().stream().map(Airway::ident).toList());
    }

    private static Radial course(AirwayGuide guide, Declination declination) {
        Radial out = Radial.of(guide.station().position().to(guide.otherEnd()).initial(), declination);
        return guide.ahead() ? new Radial(out.deg() + 180) : out;
    }

    private static List<Leg> legs(Airway airway) {
        List<Leg> legs = new ArrayList<>();
        for (int i = 0; i < airway.segments().size(); i++) {
            Waypoint from = airway.points().get(i);
            Waypoint to = airway.points().get(i + 1);
            Geodesics.Inverse there = from.position().to(to.position());
            Optional<AirwayGuide> guide = AirwayGuide.of(airway, i, true, from.position())
                    .filter(each -> each.station().declination().isPresent()
                            && !each.station().isAlignedToTrueNorth());
            legs.add(new Leg(
                    from,
                    to,
                    there.distanceNm(),
                    there.initial(),
                    there.onward().reciprocal(),
                    airway.segments().get(i),
                    guide.map(AirwayGuide::station),
                    guide.map(each -> course(each, each.station().declination().orElseThrow()))));
        }
        return legs;
    }
}
