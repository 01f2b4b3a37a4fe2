package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;

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
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Wind;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Validation: FAA Order JO 7110.65, 4-2-5 a, gives several ways to say one amendment. The worked example of the paragraph,
 * laid out over invented ocean: filed V41 to a first VOR, V174 to a second, direct the airport; amended to V41 to an
 * intersection, V71 to the first VOR, the rest as it was.
 */
class EqualAmendmentsTest {

    private static final Station START = vor("AAA", 38.0, -55.0);
    private static final Fix WAVES = new Fix("WAVES", new Position(38.2, -54.4));
    private static final Fix NORTH = new Fix("NORTH", new Position(38.7, -54.0));
    private static final Station FIRST = vor("BBB", 38.4, -53.6);
    private static final Station SECOND = vor("CCC", 38.3, -52.8);
    private static final Airport FIELD =
            new Airport("XCCC", "Ocean Field", new Position(38.5, -52.4), OptionalDouble.of(20));
    private static final Chart CHART = new Chart(
            "open ocean",
            List.of(START, FIRST, SECOND),
            List.of(WAVES, NORTH),
            List.of(FIELD),
            List.of(
                    airway("V41", START, WAVES, FIRST),
                    airway("V71", WAVES, NORTH, FIRST),
                    airway("V174", FIRST, SECOND)));

    private static Station vor(String ident, double latitude, double longitude) {
        return new Station(
                ident,
                ident,
                Station.Kind.VORTAC,
                Optional.of(Station.ServiceClass.H),
                OptionalDouble.of(113.4),
                new Position(latitude, longitude),
                Optional.of(new Declination(-17)),
                OptionalDouble.of(0));
    }

    private static Airway airway(String ident, Waypoint... points) {
        List<Airway.Segment> segments = new ArrayList<>();
        for (int i = 1; i < points.length; i++) {
            segments.add(new Airway.Segment(OptionalDouble.empty(), Airway.Direction.BOTH));
        }
        return new Airway(ident, List.of(points), segments);
    }

    /** Each leg as "from airway to". */
    private static List<String> legs(String clearance) throws ClearanceException {
        FiledRoute filed = FiledRouteReader.read("AAA V41 BBB V174 CCC DCT XCCC", CHART);
        Situation situation = new Situation(
                START.position(), OptionalDouble.of(6000), 120, Optional.empty(), Wind.CALM, LocalDate.of(2026, 6, 1));
        return RouteAmender.amend(CHART, filed, ClearanceReader.read(clearance, CHART, filed), situation)
                .legs()
                .stream()
                .filter(leg -> leg instanceof Leg.TrackToFix)
                .map(leg -> leg.from().map(Waypoint::ident).orElse("?") + " "
                        + leg.airway().orElse("DCT") + " "
                        + leg.endsAt().map(Waypoint::ident).orElse("?"))
                .toList();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "change victor forty-one BBB to read victor forty-one WAVES, victor seventy-one BBB",
                "cleared via victor forty-one WAVES, victor seventy-one BBB, rest of route unchanged",
                "cleared to Ocean Field airport via V41 WAVES V71 BBB V174 CCC direct XCCC",
            })
    void threeWaysToSayOneAmendmentGiveTheSameLegs(String clearance) throws ClearanceException {
        assertThat(legs(clearance))
                .containsExactly("AAA V41 WAVES", "WAVES V71 NORTH", "NORTH V71 BBB", "BBB V174 CCC", "CCC DCT XCCC");
    }

    @Test
    void clearedDirectNeedsNoRestOfRouteUnchanged() throws ClearanceException { // 4-2-5 a3
        assertThat(legs("cleared direct BBB")).isEqualTo(legs("cleared direct BBB, rest of route unchanged"));
    }
}
