package org.rejoin.console.drill;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;

import org.rejoin.bridge.chart.Airport;
import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.FiledRouteReader;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;

/** A chart to draw drills on: its airways as routes that can be filed. Not for several threads. */
public final class DrillChart {

    /** A longer route is not read by anybody. */
    private static final int MOST_POINTS = 6;

    /** An airport farther from the end of the airway is not the route's, nautical miles. */
    private static final double AIRPORT_NM = 40;

    /** Names closer than this must differ, nautical miles. */
    private static final double SAME_NAME_NM = 300;

    /** An NDB of the ordinary class H reaches so far, nautical miles (AIM 1-1-2, from memory); charts rarely tell the class. */
    private static final double NDB_NM = 50;

    private final Chart chart;
    private final String sha256;
    private final List<Airway> airways;
    private final List<Station> stations;
    private final Map<String, Optional<FiledRoute>> read = new HashMap<>();

    /** A chart to draw on, with the SHA-256 of its file, hexadecimal; an empty text where it has none. */
    public DrillChart(Chart chart, String sha256) {
        this.chart = chart;
        this.sha256 = sha256;
        this.airways = List.copyOf(chart.airways());
        this.stations = chart.stations().stream()
                .filter(station -> StationLines.isNdb(station)
                        || (station.kind().hasRadials() && station.declination().isPresent()))
                .toList();
    }

    /** {@return the chart itself} */
    public Chart chart() {
        return chart;
    }

    /** {@return what tells this version of the chart from others; hexadecimal; empty text where it has no file} */
    public String sha256() {
        return sha256;
    }

    boolean hasAirways() {
        return !airways.isEmpty();
    }

    /** Stations with radials or bearings within a distance, in the order of the chart. */
    List<Station> stationsWithin(Position place, double nm) {
        return stations.stream()
                .filter(station -> station.position().isWithin(nm, place))
                .toList();
    }

    /** Whether a point of the chart is as near as this to a place. */
    boolean hasPointWithin(double nm, Position place) {
        return chart.waypoints().stream().anyMatch(point -> point.position().isWithin(nm, place));
    }

    /** A route along some airway, either way. */
    Optional<FiledAirway> drawWay(Random random) {
        return airways.isEmpty() ? Optional.empty() : way(airways.get(random.nextInt(airways.size())), random);
    }

    /** A route along an airway that passes near a place. */
    Optional<FiledAirway> drawWayNear(Position place, double nm, Random random) {
        List<Airway> near = airways.stream()
                .filter(airway -> airway.points().stream()
                        .anyMatch(point -> point.position().isWithin(nm, place)))
                .toList();
        return near.isEmpty() ? Optional.empty() : way(near.get(random.nextInt(near.size())), random);
    }

    /** An airway of a route that is filed already, as far as it is flown along it. */
    Optional<FiledAirway> drawFiled(FiledRoute filed, Random random) {
        List<String> idents = filed.segments().stream()
                .flatMap(segment -> segment.airway().stream())
                .distinct()
                .toList();
        if (idents.isEmpty()) {
            return Optional.empty();
        }
        String ident = idents.get(random.nextInt(idents.size()));
        double minimum = chart.airways(ident).stream()
                .flatMap(airway -> airway.segments().stream())
                .flatMapToDouble(segment -> segment.minimumAltitudeFt(Airway.Direction.FORWARD).stream())
                .max()
                .orElse(0);
        return Optional.of(new FiledAirway(ident, filed, legsOn(ident, filed), minimum, Double.POSITIVE_INFINITY));
    }

    private static List<FiledRoute.Segment> legsOn(String airway, FiledRoute filed) {
        return filed.segments().stream()
                .filter(segment -> segment.airway().equals(Optional.of(airway)))
                .toList();
    }

    private Optional<FiledAirway> way(Airway airway, Random random) {
        boolean forward = random.nextBoolean();
        int points = airway.points().size();
        int length = Math.min(points, MOST_POINTS);
        int first = points == length ? 0 : random.nextInt(points - length + 1);
        Airway.Direction flown = forward ? Airway.Direction.FORWARD : Airway.Direction.BACKWARD;
        double minimum = 0;
        double maximum = Double.POSITIVE_INFINITY;
        for (int i = first; i + 1 < first + length; i++) {
            Airway.Segment segment = airway.segments().get(i);
            if (segment.direction() != Airway.Direction.BOTH && segment.direction() != flown) {
                return Optional.empty();
            }
            minimum = Math.max(minimum, segment.minimumAltitudeFt(flown).orElse(0));
            maximum = Math.min(maximum, segment.maximumAltitudeFt().orElse(Double.POSITIVE_INFINITY));
        }
        List<Waypoint> part = new ArrayList<>(airway.points().subList(first, first + length));
        if (!forward) {
            Collections.reverse(part);
        }
        double lowest = minimum;
        double highest = maximum;
        return filed(airway.ident(), part).flatMap(filed -> {
            List<FiledRoute.Segment> legs = legsOn(airway.ident(), filed);
            boolean sound = legs.size() == part.size() - 1
                    && new FiledRoute("", legs).points().equals(part);
            return sound
                    ? Optional.of(new FiledAirway(airway.ident(), filed, legs, lowest, highest))
                    : Optional.<FiledAirway>empty();
        });
    }

    private Optional<FiledRoute> filed(String airway, List<Waypoint> part) {
        Waypoint first = part.get(0);
        Waypoint last = part.get(part.size() - 1);
        Optional<Airport> from = airportNear(first, part.get(1));
        Optional<Airport> to = airportNear(last, part.get(part.size() - 2)).filter(it -> !from.equals(Optional.of(it)));
        String text = from.map(airport -> airport.ident() + " DCT ").orElse("")
                + first.ident() + " " + airway + " " + last.ident()
                + to.map(airport -> " DCT " + airport.ident()).orElse("");
        return read.computeIfAbsent(text, this::read);
    }

    private Optional<FiledRoute> read(String text) {
        try {
            return Optional.of(FiledRouteReader.read(text, chart))
                    .filter(filed -> filed.notes().isEmpty());
        } catch (ClearanceException e) {
            return Optional.empty();
        }
    }

    /** The airport the route may begin or end at: near, and no sharp turn away from the airway. */
    private Optional<Airport> airportNear(Waypoint end, Waypoint before) {
        TrueDirection arriving = before.position().to(end.position()).onward();
        Airport best = null;
        double least = AIRPORT_NM;
        for (Airport airport : chart.airports()) {
            if (!airport.position().isWithin(least, end.position())) {
                continue;
            }
            Geodesics.Inverse way = end.position().to(airport.position());
            double turn = Math.abs(arriving.turnTo(way.initial()));
            if (way.distanceNm() < least && way.distanceNm() > 5 && turn < 110) {
                best = airport;
                least = way.distanceNm();
            }
        }
        return Optional.ofNullable(best);
    }

    /** Whether a point is the only one of its ident, and of its spoken name if it is a station, around. */
    boolean isOnlyOneOfItsName(Waypoint point) {
        return chart.waypoints().stream()
                .filter(other -> !other.equals(point))
                .filter(other -> other.ident().equals(point.ident())
                        || (other instanceof Station one
                                && point instanceof Station two
                                && one.name().equalsIgnoreCase(two.name())))
                .noneMatch(other -> other.position().distanceNm(point.position()) < SAME_NAME_NM);
    }

    /** Whether an airway's ident means one airway around. */
    boolean isOnlyOneOfItsName(FiledAirway way) {
        Position place = way.points().get(0).position();
        return chart.airways(way.airway()).stream()
                        .filter(piece -> piece.points().stream()
                                .anyMatch(point -> point.position().distanceNm(place) < SAME_NAME_NM))
                        .count()
                == 1;
    }

    /** How far from a station a drill at this altitude uses it, nautical miles; a VOR without a class has no limit. */
    static OptionalDouble reachNm(Station station, double altitudeFt) {
        if (StationLines.isNdb(station)) {
            return OptionalDouble.of(NDB_NM);
        }
        return station.serviceClass()
                .map(kind -> OptionalDouble.of(kind.radiusNm(altitudeFt - station.elevationFt())))
                .orElse(OptionalDouble.empty());
    }

    static boolean reaches(Station station, double altitudeFt, double nm) {
        return reachNm(station, altitudeFt).orElse(nm) >= nm;
    }
}
