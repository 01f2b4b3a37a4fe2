package org.rejoin.bridge.route;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Airport;
import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.FiledRouteReader;
import org.rejoin.bridge.geo.Declination;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;

/**
 * One clearance on an invented chart in open ocean. AAA to DDD, V31 and V40 are those of {@link WorkedClearancesTest};
 * the rest is for shapes that it has no case of.
 */
final class OceanCase {

    static final Station AAA = vor("AAA", 38.0, -55.0, -18.0);
    static final Station BBB = vor("BBB", 39.0, -53.8, -17.0);
    static final Station CCC = vor("CCC", 39.2, -55.0, -18.5);
    static final Station DDD = vor("DDD", 38.4, -53.6, -17.5);
    static final Station EEE = vor("EEE", 72.5, 179.5, 0);
    static final Station NNB = new Station(
            "NNB",
            "Nimbus",
            Station.Kind.NDB,
            Optional.empty(),
            OptionalDouble.of(0.345),
            new Position(38.0, -55.0),
            Optional.empty(),
            OptionalDouble.of(0));
    static final Fix FFF = fix("FFFFF", 73.1, -179.0);
    static final Fix GGG = fix("GGGGG", 71.9, -179.4);
    static final Fix EARLY = fix("EARLY", 38.1, -54.2);
    static final Fix BENDS = fix("BENDS", 38.9, -54.0);
    static final Fix CLOSE = fix("CLOSE", 38.2, -53.2);
    static final Airport XAAA = airport("XAAA", 37.8, -55.3);
    static final Airport XBBB = airport("XBBB", 39.2, -53.6);
    static final Airport XCCC = airport("XCCC", 39.4, -55.3);
    static final Airport XDDD = airport("XDDD", 38.2, -53.4);

    static final Chart CHART = new Chart(
            "open ocean",
            List.of(AAA, BBB, CCC, DDD, EEE, NNB),
            List.of(FFF, GGG, EARLY, BENDS, CLOSE),
            List.of(XAAA, XBBB, XCCC, XDDD),
            List.of(
                    airway("V31", 6000, AAA, BBB),
                    airway("V40", 4000, CCC, DDD),
                    airway("V72", 0, FFF, GGG),
                    // Over the AAA 078 radial, and back over it.
                    airway("V55", 3000, EARLY, BENDS, CLOSE),
                    airway("V88", 3000, BBB, DDD)));

    static final String ON_V31 = "XAAA DCT AAA V31 BBB DCT XBBB";
    static final String ON_V40 = "XCCC DCT CCC V40 DDD DCT XDDD";
    static final String V40_BACK = "XDDD DCT DDD V40 CCC DCT XCCC";

    private final String filed;
    private final String words;
    private final Position at;
    private double altitudeFt = 5000;
    private double speedKt = 120;
    private Wind wind = Wind.CALM;
    private LocalDate date = LocalDate.of(2026, 6, 1);
    private Optional<MagneticDirection> heading = Optional.empty();
    private Chart chart = CHART;

    private OceanCase(String filed, String words, Position at) {
        this.filed = filed;
        this.words = words;
        this.at = at;
    }

    static OceanCase of(String filed, String words, double latitudeDeg, double longitudeDeg) {
        return new OceanCase(filed, words, new Position(latitudeDeg, longitudeDeg));
    }

    OceanCase wind(double fromDeg, double knots) {
        wind = new Wind(new TrueDirection(fromDeg), knots);
        return this;
    }

    OceanCase altitude(double feet) {
        altitudeFt = feet;
        return this;
    }

    OceanCase heading(double magneticDeg) {
        heading = Optional.of(new MagneticDirection(magneticDeg));
        return this;
    }

    OceanCase on(LocalDate day) {
        date = day;
        return this;
    }

    OceanCase chart(Chart other) {
        chart = other;
        return this;
    }

    OceanCase speed(double knots) {
        speedKt = knots;
        return this;
    }

    Situation situation() {
        return new Situation(at, OptionalDouble.of(altitudeFt), speedKt, heading, wind, date);
    }

    AmendedRoute amended() throws ClearanceException {
        FiledRoute route = FiledRouteReader.read(filed, chart);
        return RouteAmender.amend(chart, route, ClearanceReader.read(words, chart, route), situation());
    }

    AmendedRoute work() {
        try {
            return amended();
        } catch (ClearanceException e) {
            throw new AssertionError(e.code() + ": " + e.getMessage(), e);
        }
    }

    static String legs(AmendedRoute route) {
        List<String> legs = new ArrayList<>();
        for (Leg leg : route.legs()) {
            legs.add((leg.pathTerminator() + " " + leg.airway().orElse("") + " "
                            + leg.endsAt().map(Waypoint::ident).orElse(""))
                    .trim()
                    .replaceAll(" +", " "));
        }
        return String.join(", ", legs);
    }

    static Station vor(String ident, double latitudeDeg, double longitudeDeg, double declinationDeg) {
        return new Station(
                ident,
                ident,
                Station.Kind.VORTAC,
                Optional.of(Station.ServiceClass.H),
                OptionalDouble.of(113.4),
                new Position(latitudeDeg, longitudeDeg),
                Optional.of(new Declination(declinationDeg)),
                OptionalDouble.of(0));
    }

    static Fix fix(String ident, double latitudeDeg, double longitudeDeg) {
        return new Fix(ident, new Position(latitudeDeg, longitudeDeg));
    }

    private static Airport airport(String ident, double latitudeDeg, double longitudeDeg) {
        return new Airport(ident, ident, new Position(latitudeDeg, longitudeDeg), OptionalDouble.of(0));
    }

    static Airway airway(String ident, double minimumFt, Waypoint... points) {
        List<Airway.Segment> segments = new ArrayList<>();
        for (int i = 1; i < points.length; i++) {
            segments.add(new Airway.Segment(
                    minimumFt > 0 ? OptionalDouble.of(minimumFt) : OptionalDouble.empty(), Airway.Direction.BOTH));
        }
        return new Airway(ident, List.of(points), segments);
    }
}
