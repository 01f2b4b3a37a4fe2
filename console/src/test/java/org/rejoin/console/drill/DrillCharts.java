package org.rejoin.console.drill;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Airport;
import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.chart.io.ChartReader;
import org.rejoin.bridge.geo.Declination;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.console.lesson.LessonReader;

/** Invented charts in open ocean to draw drills on: the built-in one, and the same layout elsewhere. */
final class DrillCharts {

    private DrillCharts() {}

    static Chart ours() throws Exception {
        return LessonReader.read("radial-outbound").chart();
    }

    /** The layout of the built-in chart round another centre, declinations as far off today's variation as at home. */
    static Chart movedTo(String name, Position centre) throws Exception {
        Chart home = ours();
        Position from = home.stations("PTL").get(0).position();
        Map<String, Waypoint> moved = new HashMap<>();
        List<Station> stations = new ArrayList<>();
        List<Fix> fixes = new ArrayList<>();
        List<Airport> airports = new ArrayList<>();
        for (Station station : home.stations()) {
            Position there = move(from, centre, station.position());
            double off = station.declination().isEmpty()
                    ? 0
                    : station.declination().get().eastDeg() - variation(station.position());
            Station copy = new Station(
                    station.ident(),
                    station.name(),
                    station.kind(),
                    station.serviceClass(),
                    station.frequencyMhz(),
                    there,
                    station.declination().map(it -> new Declination(Math.rint(variation(there) + off))),
                    OptionalDouble.of(0));
            stations.add(copy);
            moved.put(copy.ident(), copy);
        }
        for (Fix fix : home.fixes()) {
            Fix copy = new Fix(fix.ident(), move(from, centre, fix.position()));
            fixes.add(copy);
            moved.put(copy.ident(), copy);
        }
        for (Airport airport : home.airports()) {
            airports.add(new Airport(
                    airport.ident(), airport.name(), move(from, centre, airport.position()), OptionalDouble.of(0)));
        }
        List<Airway> airways = home.airways().stream()
                .map(airway -> new Airway(
                        airway.ident(),
                        airway.points().stream()
                                .map(point -> Optional.ofNullable(moved.get(point.ident()))
                                        .orElseThrow())
                                .toList(),
                        airway.segments()))
                .toList();
        return new Chart(name, stations, fixes, airports, airways);
    }

    private static double variation(Position at) {
        return MagneticModel.WMM2025.variation(at, 0, DrillRequest.USUAL_DATE).eastDeg();
    }

    private static Position move(Position from, Position centre, Position point) {
        Geodesics.Inverse way = from.to(point);
        return way.distanceNm() < 0.01 ? centre : centre.destination(way.initial(), way.distanceNm());
    }

    /** Records of ARINC 424, read as a user's file would be: six VORs, two NDBs, one of them on an airway; layout of its own. */
    static Chart arinc() throws Exception {
        return ChartReader.read(Path.of("src/test/resources/org/rejoin/console/drill/ocean-drills.424"))
                .chart();
    }

    /** Two stations on one airway and none beside it. */
    static Chart tooFew() throws Exception {
        Chart home = ours();
        List<String> kept = List.of("PTL", "FUL");
        return new Chart(
                "Two stations",
                home.stations().stream().filter(it -> kept.contains(it.ident())).toList(),
                home.fixes().stream().filter(it -> it.ident().equals("SHEAR")).toList(),
                List.of(),
                home.airways().stream().filter(it -> it.ident().equals("V31")).toList());
    }
}
