package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.MagneticModel;
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

    /** A level is by another pressure than an altitude (14 CFR 91.121): it stays one in what is warned of. */
    @Test
    void aLevelIsWarnedOfAsOne() {
        AmendedRoute low = OceanCase.of(
                        OceanCase.ON_V31,
                        "fly heading 110, climb and maintain FL50, intercept V31, cross BBB at FL40",
                        38.30,
                        -55.70)
                .work();
        assertThat(low.warnings().stream()
                        .filter(warning -> warning.code() == Warning.Code.BELOW_MINIMUM_ALTITUDE)
                        .map(Warning::text))
                .satisfiesExactly(
                        flown -> assertThat(flown).contains("flown at the assigned FL050;", "6000 ft"),
                        crossed -> assertThat(crossed).contains("crossed at FL040,", "6000 ft"));
        assertThat(text(low, Warning.Code.ALTITUDES_CONFLICT)).contains("FL040", "maintain FL050");
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

    /** Fixes every six miles of a straight airway: met a third of a mile before one, the turn onto it ends past that one. */
    @Test
    void aTurnThatEndsPastAFixWhereTheAirwayGoesStraightOnIsNoWarning() {
        Fix first = OceanCase.fix("NOONE", 38.0, -54.0);
        Fix second = OceanCase.fix("NOTWO", 38.1, -54.0);
        Fix third = OceanCase.fix("NOTRE", 38.2, -54.0);
        Fix aside = OceanCase.fix("ASIDE", 38.15, -53.9);
        for (Fix last : List.of(third, aside)) {
            Chart chart = new Chart(
                    "straight or bent",
                    List.of(),
                    List.of(first, second, last),
                    List.of(),
                    List.of(OceanCase.airway("V50", 0, first, second, last)));
            // 110 magnetic is 93 true; abeam 38.095 north the airway, due north, is met at a right angle.
            AmendedRoute route = OceanCase.of(
                            "NOONE V50 " + last.ident(), "fly heading 110, intercept V50, then as filed", 38.099, -54.1)
                    .chart(chart)
                    .work();
            boolean warned = codes(route).contains(Warning.Code.NO_ROOM_TO_TURN);
            assertThat(warned).as("on to %s", last.ident()).isEqualTo(last.equals(aside));
        }
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

    /** What is advised does what it says: each heading in fives, inside and just outside. */
    @Test
    void headingsThatWouldMeet() {
        for (String course : List.of("intercept V40, resume own navigation", RADIAL)) {
            AmendedRoute away = OceanCase.of(OceanCase.ON_V40, "fly heading 325, " + course, 38.60, -54.90)
                    .work();
            assertThat(away.headingsThatMeet()).as(course).hasSize(1);
            HeadingRange range = away.headingsThatMeet().get(0);
            assertThat(text(away, Warning.Code.HEADING_DOES_NOT_REACH_COURSE)).contains(range.words());
            int from = (int) range.from().deg();
            int to = (int) range.to().deg();
            for (int heading = from - 5; heading <= to + 5; heading += 5) {
                List<Warning.Code> said = codes(OceanCase.of(
                                OceanCase.ON_V40,
                                String.format(Locale.ROOT, "fly heading %03d, ", heading) + course,
                                38.60,
                                -54.90)
                        .work());
                List<Warning.Code> against = new ArrayList<>(said);
                against.retainAll(List.of(
                        Warning.Code.HEADING_DOES_NOT_REACH_COURSE,
                        Warning.Code.SHALLOW_INTERCEPT,
                        Warning.Code.STEEP_INTERCEPT,
                        Warning.Code.CROSSING_BEHIND,
                        Warning.Code.NO_ROOM_TO_TURN));
                boolean inside = heading >= from && heading <= to;
                assertThat(against.isEmpty())
                        .as("%s %d: %s", course, heading, said)
                        .isEqualTo(inside);
            }
        }
    }

    @Test
    void pastWhatIsFlownTo() {
        // The aircraft is on the far side of BBB from where its radial lies.
        AmendedRoute past = OceanCase.of(
                        OceanCase.ON_V31, "fly heading 260, intercept the BBB 256 radial inbound", 39.3, -53.4)
                .work();
        assertThat(codes(past)).contains(Warning.Code.HEADING_DOES_NOT_REACH_COURSE);
        assertThat(text(past, Warning.Code.CROSSING_BEHIND)).contains("past BBB", "lies behind");
        AmendedRoute pastFix = OceanCase.of(
                        OceanCase.ON_V40,
                        "fly heading 325, intercept the AAA 078 radial inbound, join V40, then as filed",
                        38.35,
                        -54.5)
                .work();
        assertThat(text(pastFix, Warning.Code.CROSSING_BEHIND)).contains("past the computed fix");
    }

    @Test
    void theAltitudeOfTheClearanceCounts() {
        String words = "fly heading 145, " + RADIAL;
        assertThat(text(
                        OceanCase.of(OceanCase.ON_V40, words + ", descend and maintain 5000", 38.60, -54.90)
                                .altitude(15_000)
                                .work(),
                        Warning.Code.OUT_OF_SERVICE_VOLUME))
                .contains("40 NM at the assigned 5000 ft");
        assertThat(codes(OceanCase.of(OceanCase.ON_V40, words + ", climb and maintain 15000", 38.60, -54.90)
                        .work()))
                .doesNotContain(Warning.Code.OUT_OF_SERVICE_VOLUME);
    }

    /** The variation of a bearing is that of the station: two aircraft over each other are given one line. */
    @Test
    void bearingOfAnNdbIsOneLine() {
        String words = "fly heading 145, intercept the 078 bearing from NNB, join V40, then as filed";
        double low =
                bearing(OceanCase.of(OceanCase.ON_V40, words, 38.60, -54.90).altitude(0));
        double high =
                bearing(OceanCase.of(OceanCase.ON_V40, words, 38.60, -54.90).altitude(45_000));
        assertThat(low).isEqualTo(high);
        double variation = MagneticModel.WMM2025
                .variation(OceanCase.NNB.position(), OceanCase.NNB.elevationFt(), LocalDate.of(2026, 6, 1))
                .eastDeg();
        assertThat(low).isCloseTo(78 + variation, within(1e-9));
    }

    private static double bearing(OceanCase given) {
        return given.work().course().orElseThrow().outbound().initialCourse().deg();
    }

    @Test
    void airwayMetOverItsVeryEnd() {
        Position here = OceanCase.BBB.position().destination(new TrueDirection(130), 12);
        TrueDirection track = here.to(OceanCase.BBB.position()).initial();
        OceanCase over = OceanCase.of(
                OceanCase.ON_V31,
                "fly present heading, intercept V31, resume own navigation",
                here.latitudeDeg(),
                here.longitudeDeg());
        AmendedRoute route = over.heading(
                        track.toMagnetic(over.situation().variation()).deg())
                .work();
        assertThat(text(route, Warning.Code.NO_ROOM_TO_TURN)).contains("only over BBB", "ask for direct BBB");
    }

    @Test
    void speedAloneLeavesTheRouteAndTwoAreRefused() {
        AmendedRoute slower = OceanCase.of(OceanCase.ON_V31, "reduce speed to 90", 38.30, -54.90)
                .work();
        assertThat(OceanCase.legs(slower)).endsWith("TF XBBB");
        assertThat(slower.clearance().speed()).map(said -> said.knots()).contains(90.0);
        assertThatThrownBy(() -> OceanCase.of(
                                OceanCase.ON_V31,
                                "fly heading 110, intercept V31, maintain 90 knots, maintain 110 knots",
                                38.30,
                                -55.70)
                        .amended())
                .hasMessageContaining("2 speeds to hold");
    }

    @Test
    void windStrongerThanTheAircraft() {
        AmendedRoute blown = OceanCase.of(OceanCase.ON_V31, "fly heading 250, intercept V31", 38.30, -54.90)
                .wind(270, 130)
                .work();
        assertThat(text(blown, Warning.Code.STRONG_WIND)).contains("130 kt", "kt over the ground");
        assertThat(codes(OceanCase.of(OceanCase.ON_V31, "fly heading 075, intercept V31", 38.30, -54.90)
                        .wind(330, 40)
                        .work()))
                .doesNotContain(Warning.Code.STRONG_WIND);
    }

    /** Our own proposal must not be one that we warn against. */
    @Test
    void proposedHeadingIsNotTooSteep() {
        for (double longitude = -54.9; longitude < -53.8; longitude += 0.1) {
            for (double latitude = 37.9; latitude < 38.9; latitude += 0.1) {
                AmendedRoute route = OceanCase.of(OceanCase.ON_V40, RADIAL, latitude, longitude)
                        .work();
                assertThat(codes(route))
                        .as("%.1f %.1f", latitude, longitude)
                        .doesNotContain(Warning.Code.STEEP_INTERCEPT);
            }
        }
    }

    @Test
    void bearingOfAnNdbIsCalledOne() {
        assertThatThrownBy(() -> OceanCase.of(
                                OceanCase.ON_V40, "intercept the 080 bearing to NNB, join V40", 38.60, -54.90)
                        .amended())
                .hasMessageContaining("the 260 bearing from NNB does not cross V40")
                .hasMessageNotContaining("radial");
    }

    /** North is 360 wherever it is said (Aeronautical Information Manual 4-2-10: from memory). */
    @Test
    void northIs360() {
        for (String north : List.of("000", "360")) {
            AmendedRoute route = OceanCase.of(
                            OceanCase.ON_V31,
                            "fly heading " + north + ", intercept the AAA " + north + " radial, join V31",
                            38.30,
                            -54.80)
                    .work();
            assertThat(text(route, Warning.Code.HEADING_DOES_NOT_REACH_COURSE)).startsWith("heading 360");
            assertThat(route.course().orElseThrow().name()).isEqualTo("AAA 360 radial");
        }
    }

    /** At 300 kt 3 degrees a second need 39 degrees of bank: the turn is flown, and led, as one of 25 (ICAO Doc 8168). */
    @Test
    void theLeadOfAWarningIsTheLeadOfTheWords() {
        AmendedRoute route = OceanCase.of(OceanCase.ON_V31, "fly heading 180, intercept V31", 38.75, -54.5)
                .speed(300)
                .work();
        Intercept met = route.intercept().orElseThrow();
        double metresPerS = 300 * 1852 / 3600.0;
        double radiusNm = metresPerS * metresPerS / (9.80665 * Math.tan(Math.toRadians(25))) / 1852;
        double leadNm = radiusNm * Math.tan(Math.toRadians(met.angleDeg() / 2));
        assertThat(met.angleDeg()).isGreaterThan(90);
        assertThat(text(route, Warning.Code.STEEP_INTERCEPT))
                .contains(String.format(java.util.Locale.ROOT, "a lead of %.1f NM", leadNm));
    }

    @Test
    void aboveTheMaximumOfTheAirway() {
        Chart chart = withV31(new Airway.Segment(
                OptionalDouble.of(4000), Airway.Direction.BOTH, OptionalDouble.of(4000), OptionalDouble.of(17_500)));
        OceanCase high = OceanCase.of(
                        OceanCase.ON_V31, "fly heading 110, climb and maintain FL190, intercept V31", 38.30, -55.70)
                .chart(chart);
        assertThat(text(high.work(), Warning.Code.ABOVE_MAXIMUM_ALTITUDE)).contains("V31", "FL190", "17500 ft");
        assertThat(codes(OceanCase.of(
                                OceanCase.ON_V31,
                                "fly heading 110, climb and maintain 17500, intercept V31",
                                38.30,
                                -55.70)
                        .chart(chart)
                        .work()))
                .doesNotContain(Warning.Code.ABOVE_MAXIMUM_ALTITUDE);
        assertThat(text(
                        OceanCase.of(
                                        OceanCase.ON_V31,
                                        "fly heading 110, intercept V31, cross BBB at FL190",
                                        38.30,
                                        -55.70)
                                .chart(chart)
                                .work(),
                        Warning.Code.ABOVE_MAXIMUM_ALTITUDE))
                .contains("BBB", "17500 ft");
    }

    /** ARINC 424 writes UNKNN: there is a minimum, and nobody can tell from the file whether it is kept. */
    @Test
    void aMinimumThatIsNotKnownCannotBeJudged() {
        OptionalDouble none = OptionalDouble.empty();
        OceanCase low = OceanCase.of(OceanCase.ON_V31, "fly heading 110, intercept V31", 38.30, -55.70);
        for (Airway.Direction way : Airway.Direction.values()) {
            List<Warning.Code> codes = codes(low.chart(withV31(
                            new Airway.Segment(none, Airway.Direction.BOTH, none, none, none, Optional.of(way))))
                    .work());
            assertThat(codes.contains(Warning.Code.MINIMUM_ALTITUDE_UNKNOWN))
                    .as(way.name())
                    .isEqualTo(way != Airway.Direction.BACKWARD);
        }
        assertThat(codes(low.chart(withV31(new Airway.Segment(none, Airway.Direction.BOTH)))
                        .work()))
                .as("none is published")
                .doesNotContain(Warning.Code.MINIMUM_ALTITUDE_UNKNOWN);
    }

    private static Chart withV31(Airway.Segment segment) {
        List<Airway> airways = new ArrayList<>(OceanCase.CHART.airways());
        airways.removeIf(airway -> airway.ident().equals("V31"));
        airways.add(new Airway("V31", List.of(OceanCase.AAA, OceanCase.BBB), List.of(segment)));
        return new Chart(
                "another V31",
                OceanCase.CHART.stations(),
                OceanCase.CHART.fixes(),
                OceanCase.CHART.airports(),
                airways);
    }
}
