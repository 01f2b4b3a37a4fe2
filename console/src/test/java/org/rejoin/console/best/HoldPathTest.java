package org.rejoin.console.best;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.FiledRouteReader;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Holding;
import org.rejoin.bridge.route.RouteAmender;
import org.rejoin.bridge.route.Situation;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The best way round a hold against what a hold is: from the fix to the fix, on the inbound course, a minute inbound. */
class HoldPathTest {

    private static final double KT = 120;

    /** West of AAA, inbound 090 true, reached from a bearing from AAA. */
    private static AmendedRoute route(double fromDeg, Wind wind, String turns) throws Exception {
        FiledRoute filed = FiledRouteReader.read(Ocean.FILED, Ocean.CHART);
        Situation here = new Situation(
                Ocean.CHART.waypoints("AAA").get(0).position().destination(new TrueDirection(fromDeg), 10),
                OptionalDouble.of(6000),
                KT,
                Optional.empty(),
                wind,
                LocalDate.of(2026, 6, 1));
        return RouteAmender.amend(
                Ocean.CHART,
                filed,
                ClearanceReader.read(
                        "direct AAA, hold west of AAA on the 282 radial, " + turns + " turns", Ocean.CHART, filed),
                here);
    }

    private static List<Stretch> path(AmendedRoute route) {
        Holding hold = route.holding().orElseThrow();
        return HoldPath.of(
                hold,
                route.situation().variationAt(hold.fix().position()),
                new Air(KT, route.situation().wind()),
                hold.arrivalHeading()
                        .toTrue(route.situation().variationAt(hold.fix().position())));
    }

    @Test
    void inStillAirADirectEntryIsTheRacetrack() throws Exception {
        AmendedRoute route = route(270, Wind.CALM, "right");
        List<Stretch> path = path(route);
        // A minute out, a minute in, twice half a circle at 3 degrees a second (AIM 5-3-8).
        assertThat(path.stream().map(Stretch::seconds))
                .satisfiesExactly(
                        turn -> assertThat(turn).isCloseTo(60, within(0.1)),
                        out -> assertThat(out).isCloseTo(60, within(0.2)),
                        turn -> assertThat(turn).isCloseTo(60, within(0.1)),
                        in -> assertThat(in).isCloseTo(60, within(0.3)));
    }

    @ParameterizedTest
    @CsvSource({
        "270, 0, 0, right, DIRECT",
        "270, 20, 200, right, DIRECT",
        "270, 25, 330, left, DIRECT",
        "75, 15, 60, right, TEARDROP",
        "120, 20, 300, left, TEARDROP",
        "110, 20, 180, right, PARALLEL",
        "130, 0, 0, right, PARALLEL",
        "60, 10, 0, left, PARALLEL"
    })
    void itEndsOverTheFixOnTheInboundCourse(double from, double kt, double windFrom, String turns, String entry)
            throws Exception {
        AmendedRoute route = route(from, new Wind(new TrueDirection(windFrom), kt), turns);
        Holding hold = route.holding().orElseThrow();
        List<Stretch> path = path(route);
        assertThat(path).as("%s", hold.entry()).isNotEmpty();
        Stretch last = path.get(path.size() - 1);
        Offset end = hold.inboundLine().offset(last.at(last.seconds()));
        assertThat(end.crossTrackNm()).isCloseTo(0, within(1e-5));
        assertThat(end.alongTrackNm()).isCloseTo(Holding.INBOUND_LINE_NM, within(1e-5));
        if (hold.entry() == Holding.Entry.DIRECT) {
            assertThat(last.seconds()).isCloseTo(60, within(4.0));
        }
        // Each stretch begins where the one before it ends.
        for (int i = 1; i < path.size(); i++) {
            Stretch before = path.get(i - 1);
            assertThat(path.get(i).at(0).distanceNm(before.at(before.seconds())))
                    .isLessThan(1e-4);
        }
        assertThat(hold.entry().name()).isEqualTo(entry);
    }
}
