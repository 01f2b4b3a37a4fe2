package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
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
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Every instruction of a clearance is used, refused or warned about; none is dropped in silence. */
class NothingDroppedTest {

    private static final String YAML = """
            name: invented
            stations:
              - {ident: AAA, name: Alpha, kind: VORTAC, class: H, frequency_mhz: 113.4, latitude_deg: 30.0, longitude_deg: -45.0, declination_deg: -12.0, elevation_ft: 0}
              - {ident: CCC, name: Charlie, kind: VORTAC, class: H, frequency_mhz: 114.4, latitude_deg: 29.5, longitude_deg: -45.0, declination_deg: -12.0, elevation_ft: 0}
            fixes:
              - {ident: NORTE, latitude_deg: 30.9, longitude_deg: -44.2}
              - {ident: MIDDL, latitude_deg: 30.2, longitude_deg: -44.2}
              - {ident: SUDDY, latitude_deg: 29.2, longitude_deg: -44.2}
            airways:
              - {ident: V40, points: [NORTE, MIDDL, SUDDY], minimum_altitude_ft: 3000}
              - {ident: V41, points: [AAA, MIDDL, SUDDY, CCC]}
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
        FiledRoute filed = FiledRouteReader.read("NORTE V40 SUDDY", chart);
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
                "intercept the AAA 102 radial, direct SUDDY"
            })
    void twoOfAKindAreRefused(String clearance) {
        assertThatThrownBy(() -> amend(clearance))
                .isInstanceOf(ClearanceException.class)
                .hasMessageContaining("clearance of its own");
    }

    @Test
    void aDirectAfterTheAirwayIsFlown() throws ClearanceException {
        assertThat(amend("fly heading 110, intercept the AAA 102 radial, join V40 to MIDDL, direct SUDDY")
                        .legs())
                .last()
                .satisfies(leg -> assertThat(leg.endsAt().orElseThrow().ident()).isEqualTo("SUDDY"));
    }

    @Test
    void aHoldEndsTheRouteUntilAtcSaysMore() throws ClearanceException {
        AmendedRoute route = amend("direct SUDDY, hold west of SUDDY");
        assertThat(route.legs()).last().isInstanceOf(Leg.HoldAtFix.class);
        assertThat(route.warnings()).extracting(Warning::code).contains(Warning.Code.CHOICE_MADE);
    }

    /** A hold is left by a further clearance: FAA Order JO 7110.65, 4-6-1 and 4-6-4. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "direct MIDDL, hold west of MIDDL, then direct SUDDY",
                "direct MIDDL, hold west of MIDDL, V40 SUDDY",
                "direct MIDDL, hold west of MIDDL, after MIDDL direct SUDDY",
                "direct MIDDL, hold west of MIDDL, fly heading 180",
                "direct MIDDL, hold west of MIDDL, intercept the CCC 080 radial, join V40",
                "direct MIDDL, hold west of MIDDL, expect further clearance 1530, direct SUDDY",
                "direct MIDDL, hold west of MIDDL, cleared to SUDDY",
                "after MIDDL, direct AAA, hold west, direct SUDDY"
            })
    void aWayOnFromAHoldIsAClearanceOfItsOwn(String clearance) {
        assertThatThrownBy(() -> amend(clearance))
                .isInstanceOf(ClearanceException.class)
                .hasMessageContaining("is left when ATC clears you on")
                .hasMessageContaining("expect further clearance via");
    }

    @Test
    void whatIsSaidAfterOneCircuitIsFlown() throws ClearanceException {
        assertThat(OceanCase.legs(
                        amend("direct MIDDL, hold west of MIDDL, one circuit, then direct AAA, direct SUDDY")))
                .isEqualTo("DF MIDDL, HF, TF AAA, TF SUDDY");
    }

    @Test
    void asFiledAfterAHoldIsHowTheRouteGoesOnFromIt() throws ClearanceException {
        AmendedRoute route = amend("direct MIDDL, hold west of MIDDL, then as filed");
        assertThat(route.legs()).last().isInstanceOf(Leg.HoldAtFix.class);
        assertThat(route.notes())
                .contains(
                        "\"then as filed\": how the route goes on from the hold at MIDDL; it begins when ATC clears you out"
                                + " of the hold");
        assertThatThrownBy(() -> amend("direct CCC, hold south of CCC, then as filed"))
                .hasMessageContaining("CCC is not in the filed route");
    }

    @Test
    void theWayToAHoldMayBeSaidLast() throws ClearanceException {
        assertThat(OceanCase.legs(amend("hold west of MIDDL, proceed direct MIDDL")))
                .isEqualTo("DF MIDDL, HM");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "cleared to MIDDL via NORTE, V40, then direct SUDDY",
                "cleared to MIDDL via NORTE V40 SUDDY",
                "cleared to MIDDL via NORTE V40, depart SUDDY heading 180"
            })
    void nothingLeadsBeyondTheClearanceLimit(String clearance) {
        assertThatThrownBy(() -> amend(clearance))
                .isInstanceOf(ClearanceException.class)
                .hasMessageContaining("the clearance ends at MIDDL before it comes to that");
    }

    @Test
    void aHeadingSaidAfterAFixBeginsThereOnlyWhereThatIsSaid() throws ClearanceException {
        assertThatThrownBy(() -> amend("direct MIDDL, fly heading 180"))
                .isInstanceOf(ClearanceException.class)
                .hasMessageContaining("\"after MIDDL, fly heading one eight zero\"");
        assertThat(OceanCase.legs(amend("direct MIDDL, after MIDDL, fly heading 180")))
                .isEqualTo("DF MIDDL, VM");
        assertThat(OceanCase.legs(amend("when able direct MIDDL, fly heading 120, then as filed")))
                .startsWith("DF MIDDL");
    }

    @Test
    void aRadialAfterAnAirwayIsNotFlownBeforeIt() {
        assertThatThrownBy(() -> amend("join V40, intercept the AAA 102 radial"))
                .isInstanceOf(ClearanceException.class)
                .hasMessageContaining("say first what is flown first");
    }

    @Test
    void ownNavigationBeforeADirectEndsTheVectors() throws ClearanceException {
        assertThat(OceanCase.legs(amend("resume own navigation, direct CCC"))).isEqualTo("DF CCC");
        assertThatThrownBy(() -> amend("direct CCC, then as filed"))
                .hasMessageContaining("CCC is not in the filed route");
    }

    private static final List<String> SAID = List.of(
            "fly heading 110",
            "turn left heading 090",
            "fly heading 110 until SUDDY",
            "turn 20 degrees left",
            "vectors to intercept V40",
            "vector to MIDDL",
            "fly heading 110, intercept V40",
            "intercept the AAA 102 radial",
            "fly heading 110, intercept the AAA 102 radial inbound",
            "fly heading 110, intercept the AAA 102 radial until the CCC 060 radial",
            "intercept the AAA 15 mile arc, arc clockwise to the 120 radial",
            "join V40",
            "via V40 to MIDDL",
            "join V41 to CCC",
            "join V40 at MIDDL",
            "direct MIDDL",
            "direct CCC",
            "direct to the AAA 102 radial 20 mile fix",
            "cleared to MIDDL via V40",
            "cleared to SUDDY via MIDDL V40 SUDDY",
            "after NORTE, direct CCC",
            "after NORTE, fly heading 120",
            "depart NORTE heading 120",
            "direct AAA, depart AAA on the 102 radial",
            "direct AAA, then the AAA 102 radial outbound until 20 DME",
            "change V40 SUDDY to read direct CCC, direct SUDDY",
            "direct SUDDY, then as filed",
            "resume own navigation",
            "cleared to MIDDL",
            "direct MIDDL, hold west of MIDDL",
            "direct MIDDL, hold west of MIDDL, one circuit",
            "hold at MIDDL until 1530",
            "climb and maintain 7000",
            "cross MIDDL at 6000",
            "maintain 120 knots",
            "disregard",
            "expect V41 after MIDDL",
            "report passing MIDDL");

    /** What is appended is in the legs (as a pattern), or the clearance is refused; words of no clearance always are. */
    @ParameterizedTest
    @CsvSource({
        "then direct AAA, (DF|TF|CF) AAA",
        "V41 CCC, V41 CCC",
        "fly heading 200, VI|VM",
        "intercept the CCC 020 radial, FC|CF|FM",
        "depart SUDDY heading 180, VM$",
        "depart CCC on the 020 radial, FM$",
        "hold at CCC, HM$",
        "one five mile arc of CCC, AF",
        "after SUDDY direct CCC, TF CCC",
        "then as filed, (SUDDY|HM|VM|FM|VI)$",
        "squawk 1234, never",
        "flibber gibbet, never"
    })
    void whatIsAppendedToAnyClearanceIsFlownOrRefused(String appended, String inTheLegs) {
        for (String said : SAID) {
            AmendedRoute route;
            try {
                route = amend(said + ", " + appended);
            } catch (ClearanceException e) {
                assertThat(e.getMessage()).as(said + ", " + appended).isNotBlank();
                continue;
            }
            boolean limited = appended.contains("as filed") && route.limit().isPresent();
            if (!limited) {
                assertThat(OceanCase.legs(route)).as(said + ", " + appended).containsPattern(inTheLegs);
            }
        }
    }

    /** An airway that is left again, and a last leg to the filed end by another way, are not "as filed". */
    @Test
    void aRouteThatLeavesTheFiledOneAgainDoesNotResumeIt() throws ClearanceException {
        AmendedRoute left = amend("fly heading 110, intercept V40, direct CCC");
        assertThat(left.resumesAt()).isEqualTo(-1);
        assertThat(left.openEnd()).map(Waypoint::ident).contains("CCC");
        AmendedRoute back = amend("fly heading 110, intercept V40 to MIDDL, direct AAA, direct SUDDY");
        assertThat(back.resumesAt()).isEqualTo(-1);
        assertThat(back.openEnd()).isEmpty();
        AmendedRoute kept = amend("fly heading 110, intercept V40");
        assertThat(kept.resumesAt()).isEqualTo(1);
        assertThat(kept.openEnd()).isEmpty();
    }

    @Test
    void ofTwoLimitsTheLastCounts() throws ClearanceException {
        assertThat(amend("cleared to MIDDL via V40, cleared to SUDDY").limit())
                .map(Waypoint::ident)
                .contains("SUDDY");
    }

    @Test
    void aCrossingBelowTheAirwayIsWarnedAbout() throws ClearanceException {
        assertThat(amend("cross SUDDY at 2000, fly heading 110, intercept V40, then as filed")
                        .warnings())
                .anySatisfy(warning -> {
                    assertThat(warning.code()).isEqualTo(Warning.Code.BELOW_MINIMUM_ALTITUDE);
                    assertThat(warning.text()).contains("SUDDY", "2000", "3000");
                });
    }

    @Test
    void airwaysThatShareTwoFixesNeedTheOneToChangeAt() {
        assertThatThrownBy(() -> amend("fly heading 110, join V40, join V41 to CCC"))
                .isInstanceOf(ClearanceException.class)
                .hasMessageContaining("MIDDL, SUDDY");
    }

    @Test
    void twoOfAKindMayNotChangePlacesInAReadback() throws ClearanceException {
        FiledRoute filed = FiledRouteReader.read("NORTE V40 SUDDY", chart);
        var clearance = ClearanceReader.read("join V40 to MIDDL, V41 to SUDDY", chart, filed);
        assertThat(Readback.check(clearance, "join V40 to MIDDL, V41 to SUDDY", chart, filed))
                .allMatch(element -> element.verdict() == Readback.Verdict.RIGHT);
        assertThat(Readback.check(clearance, "join V41 to MIDDL, V40 to SUDDY", chart, filed))
                .anyMatch(element -> element.verdict() == Readback.Verdict.WRONG);
    }
}
