package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;

import org.junit.jupiter.api.Test;

final class WarningsTest {

    private static final String RADIAL = "intercept the AAA 078 radial, join V40, then as filed";

    private static List<Warning.Code> codes(AmendedRoute route) {
        return route.warnings().stream().map(Warning::code).toList();
    }

    private static String text(AmendedRoute route, Warning.Code code) {
        return route.warnings().stream()
                .filter(warning -> warning.code() == code)
                .map(Warning::text)
                .findFirst()
                .orElse("");
    }

    @Test
    void headingThatNeverMeets() {
        AmendedRoute away = OceanCase.of(OceanCase.ON_V31, "fly heading 290, intercept V31", 38.30, -55.70)
                .work();
        assertThat(codes(away)).contains(Warning.Code.HEADING_DOES_NOT_REACH_COURSE, Warning.Code.CROSSING_BEHIND);
        assertThat(away.intercept()).isEmpty();
        AmendedRoute radial = OceanCase.of(OceanCase.ON_V40, "fly heading 325, " + RADIAL, 38.60, -54.90)
                .work();
        assertThat(codes(radial)).contains(Warning.Code.HEADING_DOES_NOT_REACH_COURSE, Warning.Code.CROSSING_BEHIND);
    }

    /** A heading along the airway, beside it: parallel lines. */
    @Test
    void parallelLines() {
        GeodesicLine airway = GeodesicLine.between(OceanCase.AAA.position(), OceanCase.BBB.position());
        Position beside = airway.start()
                .destination(new TrueDirection(airway.initialCourse().deg() + 90), 10);
        AmendedRoute route = OceanCase.of(
                        OceanCase.ON_V31,
                        "fly heading 058, intercept V31, resume own navigation",
                        beside.latitudeDeg(),
                        beside.longitudeDeg())
                .work();
        assertThat(codes(route)).contains(Warning.Code.HEADING_DOES_NOT_REACH_COURSE);
        assertThat(text(route, Warning.Code.HEADING_DOES_NOT_REACH_COURSE)).contains("10.0 NM away");
    }

    @Test
    void shallowAndSteep() {
        AmendedRoute shallow = OceanCase.of(OceanCase.ON_V31, "fly heading 075, intercept V31", 38.30, -54.90)
                .work();
        assertThat(codes(shallow)).contains(Warning.Code.SHALLOW_INTERCEPT);
        AmendedRoute steep = OceanCase.of(OceanCase.ON_V31, "fly heading 180, intercept V31", 38.80, -54.50)
                .work();
        assertThat(codes(steep)).contains(Warning.Code.STEEP_INTERCEPT).doesNotContain(Warning.Code.SHALLOW_INTERCEPT);
    }

    @Test
    void radialMetPastTheFix() {
        AmendedRoute route = OceanCase.of(OceanCase.ON_V40, "fly heading 180, " + RADIAL, 38.9, -53.5)
                .work();
        assertThat(codes(route)).contains(Warning.Code.CROSSING_BEHIND);
    }

    @Test
    void stationTooFar() {
        String words = "fly heading 145, " + RADIAL;
        assertThat(text(
                        OceanCase.of(OceanCase.ON_V40, words, 38.60, -54.90).work(),
                        Warning.Code.OUT_OF_SERVICE_VOLUME))
                .contains("64.1 NM", "class H", "40 NM at 5000 ft");
        assertThat(codes(OceanCase.of(OceanCase.ON_V40, words, 38.60, -54.90)
                        .altitude(15_000)
                        .work()))
                .doesNotContain(Warning.Code.OUT_OF_SERVICE_VOLUME);
        // Not for the published airway (Aeronautical Information Manual 1-1-8 c): AAA is 82 NM from BBB.
        assertThat(codes(OceanCase.of(OceanCase.ON_V31, "fly heading 110, intercept V31", 38.30, -55.70)
                        .work()))
                .doesNotContain(Warning.Code.OUT_OF_SERVICE_VOLUME);
    }

    @Test
    void belowTheMinimumOfTheAirway() {
        OceanCase low = OceanCase.of(OceanCase.ON_V31, "fly heading 110, intercept V31", 38.30, -55.70);
        assertThat(text(low.work(), Warning.Code.BELOW_MINIMUM_ALTITUDE)).contains("5000 ft", "6000 ft");
        assertThat(codes(low.altitude(6000).work())).doesNotContain(Warning.Code.BELOW_MINIMUM_ALTITUDE);
        // The altitude of the clearance counts, not that of the moment.
        assertThat(codes(OceanCase.of(
                                OceanCase.ON_V31,
                                "fly heading 110, climb and maintain 7000, intercept V31",
                                38.30,
                                -55.70)
                        .work()))
                .doesNotContain(Warning.Code.BELOW_MINIMUM_ALTITUDE);
    }

    /** Some airways have another minimum in each direction. */
    @Test
    void minimumOfTheDirectionFlown() {
        Airway oneHigh = new Airway(
                "V40",
                List.of(OceanCase.CCC, OceanCase.DDD),
                List.of(new Airway.Segment(
                        OptionalDouble.of(4000),
                        Airway.Direction.BOTH,
                        OptionalDouble.of(8000),
                        OptionalDouble.empty())));
        List<Airway> airways = new ArrayList<>(OceanCase.CHART.airways());
        airways.removeIf(airway -> airway.ident().equals("V40"));
        airways.add(oneHigh);
        Chart chart = new Chart(
                "one way high",
                OceanCase.CHART.stations(),
                OceanCase.CHART.fixes(),
                OceanCase.CHART.airports(),
                airways);
        String words = "fly heading 145, " + RADIAL;
        assertThat(codes(OceanCase.of(OceanCase.ON_V40, words, 38.60, -54.90)
                        .chart(chart)
                        .work()))
                .doesNotContain(Warning.Code.BELOW_MINIMUM_ALTITUDE);
        assertThat(text(
                        OceanCase.of(OceanCase.V40_BACK, words, 38.60, -54.90)
                                .chart(chart)
                                .work(),
                        Warning.Code.BELOW_MINIMUM_ALTITUDE))
                .contains("8000 ft");
    }

    @Test
    void linesThatCrossTooFlat() {
        AmendedRoute route = OceanCase.of(
                        "UPPER V31 LOWER", "intercept the CCC 145 radial, join V31, then as filed", 39.0, -54.8)
                .chart(flat())
                .work();
        assertThat(codes(route)).contains(Warning.Code.WEAK_FIX_GEOMETRY);
    }

    private static Chart flat() {
        return new Chart(
                "flat",
                List.of(OceanCase.CCC, OceanCase.DDD),
                List.of(OceanCase.fix("UPPER", 39.0, -54.5), OceanCase.fix("LOWER", 38.2, -53.9)),
                List.of(OceanCase.XCCC, OceanCase.XDDD),
                List.of(
                        OceanCase.airway("V40", 0, OceanCase.CCC, OceanCase.DDD),
                        OceanCase.airway(
                                "V31", 0, OceanCase.fix("UPPER", 39.0, -54.5), OceanCase.fix("LOWER", 38.2, -53.9))));
    }

    @Test
    void noRoomToTurn() {
        // 0.2 NM from the radial at right angles: the lead is 0.6 NM.
        Position near = new GeodesicLineBeside().at(30, -0.2);
        AmendedRoute late = OceanCase.of(
                        OceanCase.ON_V40, "fly heading 165, " + RADIAL, near.latitudeDeg(), near.longitudeDeg())
                .work();
        assertThat(text(late, Warning.Code.NO_ROOM_TO_TURN)).contains("flown through");
        // The radial is met a third of a mile before the fix.
        Position beside = new GeodesicLineBeside().at(63.8, -3);
        AmendedRoute rideTooShort = OceanCase.of(
                        OceanCase.ON_V40, "fly heading 165, " + RADIAL, beside.latitudeDeg(), beside.longitudeDeg())
                .work();
        assertThat(codes(rideTooShort)).contains(Warning.Code.NO_ROOM_TO_TURN);
    }

    /** Points beside the AAA 078 radial. */
    private static final class GeodesicLineBeside {
        private final GeodesicLine radial = GeodesicLine.from(OceanCase.AAA.position(), new TrueDirection(60), 100);

        Position at(double alongNm, double rightNm) {
            return radial.pointAt(alongNm)
                    .destination(new TrueDirection(radial.courseAt(alongNm).deg() + 90), rightNm);
        }
    }

    @Test
    void magneticModelOutOfItsYears() {
        OceanCase late = OceanCase.of(OceanCase.ON_V31, "fly heading 110, intercept V31", 38.30, -55.70);
        assertThat(codes(late.on(LocalDate.of(2031, 1, 1)).work())).contains(Warning.Code.MAGNETIC_MODEL);
    }
}
