package org.rejoin.bridge.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Position;

/**
 * A point of the amended route that the chart has not, and that has to be made: where it is, and what shows it.
 *
 * @param fix its name and place
 * @param definitions first what it is named by, then the radials that cut that one well, the best first
 */
public record MadeFix(Fix fix, List<RadialDistance> definitions) {

    /** More than this many are no help in a cockpit. */
    private static final int MOST = 4;

    /** Closer to a station than this nobody makes a fix by it, nautical miles (common practice, no source). */
    private static final double LEAST_NM = 0.1;

    /** Keeps its own copy. */
    public MadeFix {
        definitions = List.copyOf(definitions);
    }

    /** The points to be made for a route, in the order flown; often none. */
    public static List<MadeFix> of(AmendedRoute route, Chart chart) {
        Stream<Waypoint> ends = route.legs().stream().flatMap(leg -> leg.endsAt().stream());
        Stream<Waypoint> held = route.holding().stream().map(Holding::fix);
        return Stream.concat(ends, held)
                .distinct()
                .flatMap(point -> point.fold(station -> Stream.empty(), Stream::of, airport -> Stream.<Fix>empty()))
                .filter(fix -> !chart.waypoints(fix.ident()).contains(fix))
                .map(fix -> new MadeFix(fix, definitions(fix, route, chart)))
                .toList();
    }

    private static List<RadialDistance> definitions(Fix fix, AmendedRoute route, Chart chart) {
        Optional<ComputedFix> computed =
                route.computedFix().filter(each -> each.fix().equals(fix));
        if (computed.isPresent()) {
            return computed.get().definitions().stream()
                    .map(each -> new RadialDistance(each.station(), each.radial(), each.distanceNm()))
                    .toList();
        }
        Position at = fix.position();
        List<Station> usable = usable(at, route, chart);
        Optional<Waypoint> first = chart.waypoints().stream()
                .filter(point -> fix.ident().startsWith(point.ident()))
                .filter(point ->
                        RadialDistance.of(point, at, route.situation()).ident().equals(fix.ident()))
                .findFirst()
                .or(() -> usable.stream()
                        .min(Comparator.comparingDouble(
                                station -> station.position().distanceNm(at))));
        if (first.isEmpty()) {
            return List.of();
        }
        List<RadialDistance> all = new ArrayList<>();
        all.add(RadialDistance.of(first.get(), at, route.situation()));
        // A fix or an airport transmits nothing: any station is of use beside it.
        boolean line = first.get() instanceof Station;
        usable.stream()
                .filter(station -> !station.equals(first.get()))
                .filter(station -> !line
                        || crossingDeg(station, first.get(), at)
                                >= FixDefinitions.minimumDivergenceDeg(
                                        station.position().distanceNm(at)))
                .sorted(Comparator.comparingDouble(station -> -crossingDeg(station, first.get(), at)))
                .limit(MOST - 1)
                .forEach(station -> all.add(RadialDistance.of(station, at, route.situation())));
        return all;
    }

    /** VORs that reach there, and those that the clearance itself says to use there. */
    private static List<Station> usable(Position at, AmendedRoute route, Chart chart) {
        OptionalDouble altitude = route.situation().flownFt(route.clearance().altitudeFt());
        Set<Station> said = said(route);
        return chart.stations().stream()
                .filter(station ->
                        station.kind().hasRadials() && station.declination().isPresent())
                .filter(station -> {
                    double away = station.position().distanceNm(at);
                    OptionalDouble reach = FixDefinitions.serviceRadiusNm(station, altitude);
                    return away >= LEAST_NM
                            && (said.contains(station) || reach.isEmpty() || away <= reach.getAsDouble());
                })
                .toList();
    }

    private static Set<Station> said(AmendedRoute route) {
        return route.clearance().instructions().stream()
                .filter(Instruction.StationLine.class::isInstance)
                .map(Instruction.StationLine.class::cast)
                .flatMap(line -> line.until().stream())
                .flatMap(until -> until.<Stream<Station>>fold(
                        radial -> Stream.of(radial.station()),
                        distance -> Stream.of(distance.station()),
                        fix -> Stream.empty(),
                        airway -> Stream.empty()))
                .collect(Collectors.toCollection(LinkedHashSet::new));
    }

    private static double crossingDeg(Waypoint one, Waypoint other, Position at) {
        return Angles.acute(
                one.position().to(at).onward().turnTo(other.position().to(at).onward()));
    }
}
