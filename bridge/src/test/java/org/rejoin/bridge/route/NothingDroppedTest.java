package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.io.ChartReader;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.FiledRouteReader;
import org.rejoin.bridge.clearance.Readback;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Wind;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Every instruction of a clearance is used, refused or warned about; none is dropped in silence. */
class NothingDroppedTest {

    private static final String YAML = """
            name: invented
            stations:
              - {ident: AAA, name: Alpha, kind: VORTAC, class: H, frequency_mhz: 113.4, latitude_deg: 30.0, longitude_deg: -45.0, declination_deg: -12.0, elevation_ft: 0}
              - {ident: CCC, name: Charlie, kind: VORTAC, class: H, frequency_mhz: 114.4, latitude_deg: 29.5, longitude_deg: -45.0, declination_deg: -12.0, elevation_ft: 0}
            fixes:
              - {ident: NORTH, latitude_deg: 30.9, longitude_deg: -44.2}
              - {ident: MIDDL, latitude_deg: 30.2, longitude_deg: -44.2}
              - {ident: SOUTH, latitude_deg: 29.2, longitude_deg: -44.2}
            airways:
              - {ident: V40, points: [NORTH, MIDDL, SOUTH], minimum_altitude_ft: 3000}
              - {ident: V41, points: [AAA, MIDDL, SOUTH, CCC]}
            """;

    private final Chart chart = chart();

    private static Chart chart() {
        try {
            return ChartReader.read(new ByteArrayInputStream(YAML.getBytes(StandardCharsets.UTF_8)), "chart")
                    .chart();
        } catch (java.io.IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    private AmendedRoute amend(String clearance) throws ClearanceException {
        FiledRoute filed = FiledRouteReader.read("NORTH V40 SOUTH", chart);
        return RouteAmender.amend(
                chart,
                filed,
                ClearanceReader.read(clearance, chart, filed),
                new Situation(
                        new Position(30.2, -44.9),
                        OptionalDouble.of(6000),
                        120,
                        Optional.empty(),
                        Wind.CALM,
                        LocalDate.of(2026, 6, 1)));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "fly heading 110, fly heading 140, intercept V40",
                "turn 30 degrees left, fly heading 140, intercept V40",
                "intercept the AAA 102 radial, intercept the CCC 080 radial, join V40",
                "intercept the AAA 102 radial, direct SOUTH"
            })
    void twoOfAKindAreRefused(String clearance) {
        assertThatThrownBy(() -> amend(clearance))
                .isInstanceOf(ClearanceException.class)
                .hasMessageContaining("clearance of its own");
    }

    @Test
    void aDirectAfterTheAirwayIsFlown() throws ClearanceException {
        assertThat(amend("fly heading 110, intercept the AAA 102 radial, join V40 to MIDDL, direct SOUTH")
                        .legs())
                .last()
                .satisfies(leg -> assertThat(leg.endsAt().orElseThrow().ident()).isEqualTo("SOUTH"));
    }

    @Test
    void aHoldEndsTheRouteUntilAtcSaysMore() throws ClearanceException {
        AmendedRoute route = amend("direct SOUTH, hold west of SOUTH");
        assertThat(route.legs()).last().isInstanceOf(Leg.HoldAtFix.class);
        assertThat(route.warnings()).extracting(Warning::code).contains(Warning.Code.CHOICE_MADE);
    }

    @Test
    void aCrossingBelowTheAirwayIsWarnedAbout() throws ClearanceException {
        assertThat(amend("cross SOUTH at 2000, fly heading 110, intercept V40, then as filed")
                        .warnings())
                .anySatisfy(warning -> {
                    assertThat(warning.code()).isEqualTo(Warning.Code.BELOW_MINIMUM_ALTITUDE);
                    assertThat(warning.text()).contains("SOUTH", "2000", "3000");
                });
    }

    @Test
    void airwaysThatShareTwoFixesNeedTheOneToChangeAt() {
        assertThatThrownBy(() -> amend("fly heading 110, join V40, join V41 to CCC"))
                .isInstanceOf(ClearanceException.class)
                .hasMessageContaining("MIDDL, SOUTH");
    }

    @Test
    void twoOfAKindMayNotChangePlacesInAReadback() throws ClearanceException {
        FiledRoute filed = FiledRouteReader.read("NORTH V40 SOUTH", chart);
        var clearance = ClearanceReader.read("join V40 to MIDDL, V41 to SOUTH", chart, filed);
        assertThat(Readback.check(clearance, "join V40 to MIDDL, V41 to SOUTH", chart, filed))
                .allMatch(element -> element.verdict() == Readback.Verdict.RIGHT);
        assertThat(Readback.check(clearance, "join V41 to MIDDL, V40 to SOUTH", chart, filed))
                .anyMatch(element -> element.verdict() == Readback.Verdict.WRONG);
    }
}
