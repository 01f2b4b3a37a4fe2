package org.rejoin.bridge.chart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Airway.Direction;
import org.rejoin.bridge.chart.Airway.Segment;
import org.rejoin.bridge.chart.ChartReport.Oddity;
import org.rejoin.bridge.geo.Declination;
import org.rejoin.bridge.geo.Position;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Reports, regions and cycles. Every place is invented and lies in open ocean. */
class ChartReportTest {

    private static final Segment LEG = new Segment(OptionalDouble.of(4000), Direction.BOTH);
    private static final Station AAA = station("AAA", -40, 179, Optional.of(new Declination(22)));
    private static final Station BBB = station("BBB", -40, -179, Optional.empty());
    private static final Fix ABCDE = new Fix("ABCDE", new Position(-40, -172));
    private static final Fix TWIN = new Fix("AAA", new Position(-41, 179));
    private static final Fix STRAY = new Fix("STRAY", new Position(-42, -172));
    private static final Chart CHART = new Chart(
            "Test water",
            List.of(AAA, BBB),
            List.of(ABCDE, TWIN),
            List.of(new Airport("XAAA", "Test Island", new Position(-39, 178), OptionalDouble.of(20))),
            List.of(
                    new Airway("V31", List.of(AAA, BBB, ABCDE), List.of(LEG, LEG)),
                    new Airway("V32", List.of(ABCDE, STRAY), List.of(LEG))));
    private static final ChartReport REPORT = ChartReport.of(CHART, new SourceLines());

    private static Station station(String ident, double north, double east, Optional<Declination> declination) {
        return new Station(
                ident,
                ident,
                Station.Kind.VOR,
                Optional.of(Station.ServiceClass.H),
                OptionalDouble.of(113.4),
                new Position(north, east),
                declination,
                OptionalDouble.of(0));
    }

    @Test
    void everythingIsCounted() {
        ChartReport.Counts counts = REPORT.counts();
        assertThat(counts.stations()).containsEntry(Station.Kind.VOR, 2).containsEntry(Station.Kind.NDB, 0);
        assertThat(counts.fixes()).isEqualTo(2);
        assertThat(counts.airports()).isEqualTo(1);
        assertThat(counts.airways()).isEqualTo(2);
        assertThat(counts.pieces()).isEqualTo(2);
        assertThat(counts.legs()).isEqualTo(3);
    }

    @Test
    void boundsAreTheNarrowerWayAroundTheEarth() {
        assertThat(REPORT.bounds()).contains(new Region.Bounds(-41, 178, -39, -172));
        Chart empty = new Chart("", List.of(), List.of(), List.of(), List.of());
        assertThat(ChartReport.of(empty, new SourceLines()).bounds()).isEmpty();
    }

    @Test
    void whatIsOddIsFound() {
        assertThat(REPORT.oddities(LocalDate.of(2026, 6, 1)))
                .extracting(ChartReport.Finding::oddity, ChartReport.Finding::ident)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple(Oddity.NO_DECLINATION, "BBB"),
                        org.assertj.core.groups.Tuple.tuple(Oddity.LONG_LEG, "V31"),
                        org.assertj.core.groups.Tuple.tuple(Oddity.AIRWAY_POINT_MISSING, "V32"),
                        org.assertj.core.groups.Tuple.tuple(Oddity.DUPLICATE_IDENT, "AAA"));
        assertThat(REPORT.oddities(LocalDate.of(2026, 6, 1)).get(3).text())
                .isEqualTo("2 points have the ident AAA, the closest two 60.0 NM apart");
    }

    @Test
    void anIdentIsFoundWithItsAirways() {
        assertThat(REPORT.find("aaa")).extracting(ChartReport.Found::point).containsExactly(AAA, TWIN);
        assertThat(REPORT.find("AAA").get(0).airways()).containsExactly("V31");
        assertThat(REPORT.find("AAA").get(1).airways()).isEmpty();
        assertThat(REPORT.find("ABCDE").get(0).airways()).containsExactly("V31", "V32");
        assertThat(REPORT.find("NONE")).isEmpty();
    }

    @Test
    void anAirwayIsDescribedLegByLeg() {
        ChartReport.Piece piece = REPORT.airway("v31").get(0);
        assertThat(piece.legs()).hasSize(2);
        ChartReport.Leg first = piece.legs().get(0);
        // Along a parallel in the south the geodesic bends south: courses are more than 90 and less than 270 degrees,
        // by half the convergence, 2 deg * sin(40) / 2.
        assertThat(first.course().deg()).isEqualTo(90 + 0.643, within(0.01));
        assertThat(first.courseBack().deg()).isEqualTo(270 - 0.643, within(0.01));
        assertThat(piece.distanceNm())
                .isEqualTo(first.distanceNm() + piece.legs().get(1).distanceNm());
        assertThat(REPORT.airway("V99")).isEmpty();
    }

    @Test
    void aRegionKeepsTheLegsThatTouchItAndTheirEnds() {
        // Only the middle of the leg BBB to ABCDE lies there.
        Region between = new Region.Bounds(-41, -176, -40, -175);
        Chart part = CHART.within(between);
        assertThat(part.airways()).hasSize(1);
        assertThat(part.waypoints()).extracting(Waypoint::ident).containsExactly("BBB", "ABCDE");
        assertThat(CHART.within(new Region.Circle(new Position(0, 0), 100)).waypoints())
                .isEmpty();
        Chart all = CHART.within(new Region.Bounds(-90, -180, 90, 180));
        assertThat(all.airways()).isEqualTo(CHART.airways());
        assertThat(all.waypoints()).isEqualTo(CHART.waypoints());
    }

    @Test
    void boundsMayCrossTheMeridianOf180() {
        Region.Bounds bounds = new Region.Bounds(-45, 170, -35, -170);
        assertThat(bounds.contains(new Position(-40, 180))).isTrue();
        assertThat(bounds.contains(new Position(-40, 169))).isFalse();
        assertThat(bounds.contains(new Position(-46, 180))).isFalse();
        assertThat(new Region.Bounds(-45, 170, -35, 180).contains(new Position(-40, 180)))
                .isTrue();
        assertThatThrownBy(() -> new Region.Bounds(1, 0, 0, 0)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Region.Circle(new Position(0, 0), 0)).isInstanceOf(IllegalArgumentException.class);
    }

    /** Published by ICAO: 2601 is 22 January 2026, and 2020 had 14 cycles. */
    @ParameterizedTest
    @CsvSource({
        "2601, 2026-01-22",
        "2606, 2026-06-11",
        "2609, 2026-09-03",
        "2001, 2020-01-02",
        "2014, 2020-12-31",
        "2501, 2025-01-23"
    })
    void cyclesAreTwentyEightDaysApart(String yycc, LocalDate effective) {
        AiracCycle cycle = AiracCycle.parse(yycc).orElseThrow();
        assertThat(cycle.effective()).isEqualTo(effective);
        assertThat(cycle).hasToString(yycc);
        assertThat(AiracCycle.of(effective)).isEqualTo(cycle);
        assertThat(AiracCycle.of(effective.plusDays(27))).isEqualTo(cycle);
        assertThat(AiracCycle.of(effective.minusDays(1))).isNotEqualTo(cycle);
        assertThat(AiracCycle.parse("2615")).isEmpty();
        assertThat(AiracCycle.parse("26 1")).isEmpty();
    }
}
