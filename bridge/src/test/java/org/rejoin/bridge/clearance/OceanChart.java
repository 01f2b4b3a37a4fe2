package org.rejoin.bridge.clearance;

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
import org.rejoin.bridge.geo.Declination;
import org.rejoin.bridge.geo.Position;

/** An invented chart in open ocean. */
final class OceanChart {

    static final Station AAA = vor("AAA", "Grey Petrel", 38.0, -55.0, -18.0);
    static final Station BBB = vor("BBB", "Cross Swell", 39.0, -53.8, -17.0);
    static final Station CCC = vor("CCC", "Kittiwake", 39.2, -55.0, -18.5);
    static final Station DDD = vor("DDD", "Doldrum", 38.4, -53.6, -17.5);
    static final Station NNB = new Station(
            "NNB",
            "Nimbus",
            Station.Kind.NDB,
            Optional.empty(),
            OptionalDouble.of(0.345),
            new Position(38.6, -54.9),
            Optional.empty(),
            OptionalDouble.of(0));
    /** Two of one ident, the second far away. */
    static final Station EEE_NEAR = vor("EEE", "Eider", 38.9, -55.6, -18.0);

    static final Station EEE_FAR = vor("EEE", "Ebb", -20.0, 5.0, -3.0);
    static final Fix ABCDE = new Fix("ABCDE", new Position(38.5, -54.41));
    static final Fix HADDY = new Fix("HADDY", new Position(38.8, -54.35));
    static final Airport XAAA = new Airport("XAAA", "Petrel Field", new Position(37.8, -55.2), OptionalDouble.of(20));
    static final Airport XBBB = new Airport("XBBB", "Swell Field", new Position(39.2, -53.6), OptionalDouble.of(30));

    static final Airway V31 = airway("V31", List.of(AAA, ABCDE, BBB), Airway.Direction.BOTH);
    static final Airway V40 = airway("V40", List.of(CCC, HADDY, DDD), Airway.Direction.BOTH);
    static final Airway V88 = airway("V88", List.of(BBB, DDD), Airway.Direction.BOTH);
    static final Airway V455 = airway("V455", List.of(AAA, ABCDE, CCC), Airway.Direction.BOTH);
    static final Airway J533 = airway("J533", List.of(CCC, EEE_NEAR), Airway.Direction.BOTH);
    static final Airway Q7 = airway("Q7", List.of(AAA, DDD), Airway.Direction.FORWARD);
    static final Airway UB10 = airway("UB10", List.of(AAA, CCC), Airway.Direction.BOTH);

    static final Chart CHART = new Chart(
            "open ocean",
            List.of(EEE_FAR, AAA, BBB, CCC, DDD, NNB, EEE_NEAR),
            List.of(ABCDE, HADDY),
            List.of(XAAA, XBBB),
            List.of(V31, V40, V88, V455, J533, Q7, UB10));

    static final String FILED_TEXT = "XAAA DCT AAA V31 BBB DCT XBBB";

    private OceanChart() {}

    static FiledRoute filed() {
        try {
            return FiledRouteReader.read(FILED_TEXT, CHART);
        } catch (ClearanceException e) {
            throw new AssertionError(e);
        }
    }

    private static Station vor(String ident, String name, double lat, double lon, double declination) {
        return new Station(
                ident,
                name,
                Station.Kind.VORTAC,
                Optional.of(Station.ServiceClass.H),
                OptionalDouble.of(113.4),
                new Position(lat, lon),
                Optional.of(new Declination(declination)),
                OptionalDouble.of(0));
    }

    private static Airway airway(String ident, List<Waypoint> points, Airway.Direction direction) {
        List<Airway.Segment> segments = new ArrayList<>();
        for (int i = 1; i < points.size(); i++) {
            segments.add(new Airway.Segment(OptionalDouble.empty(), direction));
        }
        return new Airway(ident, points, segments);
    }
}
