package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.FiledRouteReader;
import org.rejoin.bridge.geo.Declination;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;

import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Courses of bent airways, limits, turns, crossings, speeds: what an amendment says beside its line. */
class WholeTaskTest {

    private static OceanCase on(String words) {
        return OceanCase.of(OceanCase.ON_V31, words, 38.1, -54.5);
    }

    private static List<Warning.Code> codes(AmendedRoute route) {
        return route.warnings().stream().map(Warning::code).toList();
    }

    /** AIM 5-3-6: guidance changes at a bend, else in the middle; a station off the stretch publishes nothing on it. */
    @Test
    void on_a_bent_airway_the_stretch_has_its_own_stations() {
        Station near = OceanCase.vor("NEA", 38.62, -54.0, -17);
        Fix bend = OceanCase.fix("BENDA", 38.5, -54.0);
        Fix middle = OceanCase.fix("MIDDA", 38.26, -54.5);
        Chart chart = new Chart(
                "bent",
                List.of(OceanCase.AAA, near),
                List.of(bend, middle),
                List.of(),
                List.of(OceanCase.airway("V12", 0, OceanCase.AAA, bend, near)));
        Leg.TrackToFix leg = Leg.TrackToFix.along(new FiledRoute.Segment(OceanCase.AAA, bend, Optional.of("V12")));
        double late = leg.path().lengthNm() - 1;
        Leg.TrackToFix joinedLate = new Leg.TrackToFix(OceanCase.AAA, bend, Optional.of("V12"), leg.path(), late);
        assertThat(leg.path().pointAt(late).distanceNm(near.position()))
                .as("NEA is much nearer")
                .isLessThan(10);
        PublishedCourse course = PublishedCourse.of(
                        joinedLate, chart, on("then as filed").situation())
                .orElseThrow();
        assertThat(course.station()).contains(OceanCase.AAA);
        assertThat(course.magneticDeg())
                .isCloseTo(
                        Radial.of(
                                        leg.path().initialCourse(),
                                        OceanCase.AAA.declination().orElseThrow())
                                .deg(),
                        within(1e-9));
        Leg.TrackToFix after = Leg.TrackToFix.along(new FiledRoute.Segment(bend, near, Optional.of("V12")));
        assertThat(PublishedCourse.of(after, chart, on("then as filed").situation())
                        .orElseThrow()
                        .station())
                .contains(near);
    }

    /** Its radials are true: whoever flies along one steers by the compass, and that is by the variation (here 15 west). */
    @Test
    void the_radial_of_a_station_aligned_to_true_north_is_no_magnetic_course() {
        Station magnetic = OceanCase.AAA;
        Station aligned = new Station(
                magnetic.ident(),
                magnetic.name(),
                magnetic.kind(),
                magnetic.serviceClass(),
                magnetic.frequencyMhz(),
                magnetic.position(),
                Optional.of(Declination.TRUE_NORTH),
                magnetic.publishedElevationFt());
        Situation situation = on("then as filed").situation();
        Chart chart = new Chart(
                "true north",
                List.of(aligned, OceanCase.BBB),
                List.of(),
                List.of(),
                List.of(OceanCase.airway("V31", 0, aligned, OceanCase.BBB)));
        Leg.TrackToFix along = Leg.TrackToFix.along(new FiledRoute.Segment(aligned, OceanCase.BBB, Optional.of("V31")));
        TrueDirection radial = along.path().initialCourse();
        double byCompass =
                radial.toMagnetic(situation.variationAt(aligned.position())).deg();
        assertThat(Math.abs(radial.deg() - byCompass)).isGreaterThan(10);
        for (Leg leg : List.of(along, new Leg.CourseFrom(aligned, new Radial(radial.deg()), along.path()))) {
            PublishedCourse course = PublishedCourse.of(leg, chart, situation).orElseThrow();
            assertThat(course.magneticDeg()).isCloseTo(byCompass, within(1e-9));
            assertThat(course.station()).isEmpty();
        }
    }

    @Test
    void a_straight_stretch_changes_over_in_the_middle() { // AIM 5-3-6
        Leg.TrackToFix whole =
                Leg.TrackToFix.along(new FiledRoute.Segment(OceanCase.AAA, OceanCase.BBB, Optional.of("V31")));
        for (double at : new double[] {1, 30, 45, 80}) {
            Leg.TrackToFix joined =
                    new Leg.TrackToFix(OceanCase.AAA, OceanCase.BBB, Optional.of("V31"), whole.path(), at);
            assertThat(PublishedCourse.of(
                                    joined, OceanCase.CHART, on("then as filed").situation())
                            .orElseThrow()
                            .station())
                    .contains(at < whole.path().lengthNm() / 2 ? OceanCase.AAA : OceanCase.BBB);
        }
    }

    @ParameterizedTest
    @CsvSource({"5, true", "25, false"})
    void a_published_changeover_point_counts(double at, boolean first) { // AIM 5-3-6
        Airway.Segment segment = new Airway.Segment(
                OptionalDouble.empty(),
                Airway.Direction.BOTH,
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.of(20),
                Optional.empty());
        Chart chart = new Chart(
                "published",
                List.of(OceanCase.AAA, OceanCase.BBB),
                List.of(),
                List.of(),
                List.of(new Airway("V31", List.of(OceanCase.AAA, OceanCase.BBB), List.of(segment))));
        Leg.TrackToFix out =
                Leg.TrackToFix.along(new FiledRoute.Segment(OceanCase.AAA, OceanCase.BBB, Optional.of("V31")));
        Leg.TrackToFix back =
                Leg.TrackToFix.along(new FiledRoute.Segment(OceanCase.BBB, OceanCase.AAA, Optional.of("V31")));
        double length = out.path().lengthNm();
        for (Leg.TrackToFix leg : List.of(
                new Leg.TrackToFix(OceanCase.AAA, OceanCase.BBB, Optional.of("V31"), out.path(), at),
                new Leg.TrackToFix(OceanCase.BBB, OceanCase.AAA, Optional.of("V31"), back.path(), length - at))) {
            assertThat(PublishedCourse.of(leg, chart, on("then as filed").situation())
                            .orElseThrow()
                            .station())
                    .contains(first ? OceanCase.AAA : OceanCase.BBB);
        }
    }

    @Test
    void the_radial_that_is_the_airway_is_flown_as_filed() {
        AmendedRoute route = on("fly heading 330, intercept the AAA 061 radial, join V31, then as filed")
                .work();
        assertThat(OceanCase.legs(route)).isEqualTo("VI, TF V31 BBB, TF XBBB");
        assertThat(route.course().orElseThrow().direction()).isEqualTo(Course.Direction.FROM);
        assertThat(route.notes()).anySatisfy(note -> assertThat(note).contains("is V31", "FROM the station"));
        AmendedRoute inbound = on("fly heading 330, intercept the AAA 061 radial inbound, join V31")
                .work();
        assertThat(OceanCase.legs(inbound))
                .as("said inbound it is flown inbound")
                .startsWith("VI, CF AAA");
    }

    @Test
    void the_route_ends_at_the_clearance_limit() {
        AmendedRoute route = on("cleared to BBB, direct AAA, then as filed").work();
        assertThat(OceanCase.legs(route)).isEqualTo("DF AAA, TF V31 BBB");
        assertThat(route.limit()).contains(OceanCase.BBB);
        assertThat(route.skipped())
                .as("what comes after the limit is not skipped")
                .doesNotContain(OceanCase.XBBB);
        assertThat(on("cleared to XBBB, direct AAA, then as filed").work().limit())
                .isEmpty();
    }

    /** Over an airport the flight ends; over a fix, also the last one filed, the aircraft waits for more. */
    @Test
    void a_limit_at_the_end_of_the_filed_route_is_said() {
        AmendedRoute airport = on("cleared to XBBB, direct AAA, then as filed").work();
        assertThat(airport.notes())
                .contains("the clearance limit, XBBB, is the end of the filed route: nothing of it is cut off");
        AmendedRoute fix = OceanCase.of(
                        "XAAA DCT AAA V31 BBB", "cleared to BBB, direct AAA, then as filed", 38.1, -54.5)
                .work();
        assertThat(fix.limit()).contains(OceanCase.BBB);
        assertThat(fix.legs().get(fix.legs().size() - 1).endsAt()).contains(OceanCase.BBB);
    }

    /** Nothing of a clearance is left out without a word. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "direct AAA, depart AAA heading 120, then as filed | no line leads from the heading on which AAA is departed",
                "direct AAA, depart AAA heading 120, intercept the 250 bearing from NNB | no line leads from the heading",
                "direct AAA, depart AAA on the 120 radial, join V31 | the AAA 120 radial does not cross V31",
                "direct CCC, depart AAA on the 078 radial, join V40 | AAA is not on the amended route",
                "direct BBB, intercept the AAA 120 radial, join V40 to DDD | and BBB is ",
                "direct AAA, depart AAA on the 120 radial, hold at AAA | AAA is departed besides",
                "direct AAA, hold at AAA, depart AAA heading 120 | AAA is departed besides",
                "hold at BBB until 1530, then as filed | what follows at 1530 is not begun by itself",
                "direct AAA, hold at AAA, depart AAA at 1530, direct BBB | what follows at 1530 is not begun by itself",
                "depart BBB at 1530, direct AAA | what follows at 1530 is not begun by itself"
            })
    void what_is_said_after_the_end_of_a_route_is_not_swallowed(String words, String why) {
        assertThatThrownBy(() -> on(words).work()).hasMessageContaining(why);
    }

    @Test
    void the_radial_departed_on_may_be_the_next_leg() {
        AmendedRoute route = on("direct AAA, depart AAA on the 061 radial, join V31, then as filed")
                .work();
        assertThat(route.departsOnRadial()).isFalse();
        assertThat(route.legs().get(1).airway()).contains("V31");
        assertThat(route.notes()).contains("the AAA 061 radial is V31 AAA-BBB itself");
    }

    /** The point is that of the same radial and airway, wherever the aircraft comes from. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "direct AAA, depart AAA on the 078 radial, join V40 to DDD",
                "direct AAA, intercept the AAA 078 radial outbound, join V40 to DDD",
                "depart AAA on the 078 radial, join V40 to DDD",
                "direct AAA, via the AAA 078 radial, V40 DDD",
                "after passing AAA, track the AAA 078 radial outbound, join V40 to DDD",
                "direct AAA, depart AAA on the 078 radial, join V40 to DDD, hold at DDD"
            })
    void over_a_station_its_radial_is_flown_to_the_airway(String words) {
        AmendedRoute route = OceanCase.of(OceanCase.ON_V31, words, 37.9, -55.2).work();
        AmendedRoute onHeading = OceanCase.of(
                        OceanCase.ON_V31, "fly heading 120, intercept the AAA 078 radial, join V40 to DDD", 38.2, -54.9)
                .work();
        assertThat(route.computedFix()
                        .orElseThrow()
                        .fix()
                        .position()
                        .distanceNm(onHeading.computedFix().orElseThrow().fix().position()))
                .isLessThan(1e-6);
        assertThat(OceanCase.legs(route)).startsWith("DF AAA, FC ");
        assertThat(route.course().map(Course::name))
                .isEqualTo(onHeading.course().map(Course::name));
        assertThat(route.firstCourse()).isEmpty();
    }

    /** "Route as filed up to the fix", and from there as said (7110.65 4-2-5 names the fix where the amendment begins). */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "after AAA, direct DDD | DF AAA, TF DDD",
                "after AAA, direct CCC, hold at CCC, expect further clearance 1530 | DF AAA, TF CCC, HM",
                "after passing BBB, direct DDD | DF AAA, TF V31 BBB, TF DDD",
                "direct CCC, after CCC, direct BBB, then as filed | DF CCC, TF BBB, TF XBBB",
                "direct CCC, join V40, after DDD, direct XBBB | DF CCC, TF V40 DDD, TF XBBB",
                "cleared to XBBB via CCC V40 DDD, direct | DF CCC, TF V40 DDD, TF XBBB",
                "cleared to XBBB via CCC, direct BBB, then as filed | DF CCC, TF BBB, TF XBBB",
                "rerouted via CCC, direct BBB | DF CCC, TF BBB, TF XBBB",
                "rerouted direct BBB | DF BBB, TF XBBB"
            })
    void after_a_fix_the_route_goes_on_as_said(String words, String legs) {
        AmendedRoute route = OceanCase.of(OceanCase.ON_V31, words, 37.9, -55.2).work();
        assertThat(OceanCase.legs(route)).isEqualTo(legs);
        assertThat(route.clearance().routeStays()).isFalse();
        assertThat(route.clearance().notes()).isEmpty();
    }

    @Test
    void depart_a_fix_on_a_heading_or_a_radial() {
        AmendedRoute heading = on("direct AAA, depart AAA heading 120").work();
        assertThat(OceanCase.legs(heading)).isEqualTo("DF AAA, VM");
        assertThat(heading.legs().get(1).from()).contains(OceanCase.AAA);
        assertThat(OceanCase.legs(on("direct AAA, depart AAA on the 078 radial").work()))
                .isEqualTo("DF AAA, FM");
        assertThatThrownBy(() -> on("direct AAA, depart DDD heading 120").amended())
                .hasMessageContaining("DDD is not on the amended route");
    }

    @ParameterizedTest
    @CsvSource({
        "turn right heading 345, 079, right, 266",
        "turn left heading 345, 079, left, 94",
        "fly heading 345, 079, left, 94",
        "turn 20 degrees left, 010, left, 20",
        "turn right heading 100, 079, right, 21"
    })
    void the_turn_is_in_the_answer(String words, double present, String way, double degrees) {
        AmendedRoute route = on(words).heading(present).work();
        TurnToHeading turn = route.turn().orElseThrow();
        assertThat(turn.right()).isEqualTo(way.equals("right"));
        assertThat(turn.degrees()).isCloseTo(degrees, within(1e-9));
        assertThat(turn.seconds()).as("3 degrees a second").isCloseTo(degrees / 3, within(1e-9));
        assertThat(codes(route).contains(Warning.Code.LONG_WAY_ROUND)).isEqualTo(degrees > 180);
    }

    @Test
    void a_direct_says_which_way_and_how_far_round() {
        AmendedRoute behind = on("direct AAA").heading(90).work();
        assertThat(behind.turn().orElseThrow().degrees()).isGreaterThan(150);
        AmendedRoute left = on("turn left direct AAA").heading(90).work();
        assertThat(left.turn().orElseThrow().right()).isFalse();
    }

    /**
     * Rate of climb table of the FAA's terminal procedures publication: ft/min = ft/NM x ground speed / 60 (form of the
     * table from memory).
     */
    @ParameterizedTest
    @CsvSource({"90, 200, 300", "120, 200, 400", "120, 400, 800", "150, 300, 750", "180, 250, 750"})
    void a_crossing_takes_what_the_rate_table_says(double knots, double ftPerNm, double ftPerMin) {
        AmendedRoute there = on("direct BBB, then as filed").speed(knots).work();
        double distance = there.legs().get(0).line().orElseThrow().lengthNm();
        long feet = Math.round((5000 + ftPerNm * distance) / 10) * 10;
        AmendedRoute route = on("direct BBB, cross BBB at " + feet).speed(knots).work();
        CrossingPlan plan = route.crossings().get(0);
        assertThat(plan.distanceNm().orElseThrow()).isCloseTo(distance, within(1e-9));
        assertThat(plan.ftPerNm().orElseThrow()).isCloseTo(ftPerNm, within(0.2));
        assertThat(plan.ftPerMin().orElseThrow()).isCloseTo(ftPerMin, within(0.6));
        assertThat(plan.climb()).isTrue();
    }

    /** The way along a route begins where the aircraft is, and there is no shorter one than straight to the fix. */
    @ParameterizedTest
    @ValueSource(strings = {"", "direct BBB, ", "direct AAA, then as filed, ", "disregard, "})
    void a_crossing_is_never_nearer_than_the_straight_line(String way) {
        for (double north = -0.6; north <= 0.61; north += 0.3) {
            Position here = new Position(38 + north, -54.7);
            CrossingPlan plan = OceanCase.of(OceanCase.ON_V31, way + "cross BBB at 9000", 38 + north, -54.7)
                    .work()
                    .crossings()
                    .get(0);
            if (plan.distanceNm().isPresent()) {
                assertThat(plan.distanceNm().getAsDouble())
                        .as("%s", north)
                        .isGreaterThanOrEqualTo(here.distanceNm(OceanCase.BBB.position()) - 0.5);
            }
            assertThat(plan.minutes().isPresent()).isEqualTo(plan.distanceNm().isPresent());
        }
    }

    @Test
    void a_crossing_before_a_fix_is_on_the_route_on_that_side() {
        AmendedRoute route = on("direct BBB, cross one zero miles southwest of BBB at and maintain 6000")
                .work();
        CrossingPlan plan = route.crossings().get(0);
        assertThat(plan.position().distanceNm(OceanCase.BBB.position())).isCloseTo(10, within(1e-6));
        assertThat(plan.place()).isEqualTo("10 NM southwest of BBB");
    }

    /** On the leg the distance is the geodesic to the fix; beside it the leg from abeam is no way that anybody flies. */
    @Test
    void how_far_a_crossing_is_counts_from_the_aircraft_and_not_from_abeam_it() {
        // 10 NM from AAA along V31, and from there 20 NM off to the right.
        GeodesicData leg = Geodesic.WGS84.Inverse(38.0, -55.0, 39.0, -53.8);
        GeodesicData ten = Geodesic.WGS84.Direct(38.0, -55.0, leg.azi1, 10 * 1852);
        GeodesicData off = Geodesic.WGS84.Direct(ten.lat2, ten.lon2, ten.azi2 + 90, 20 * 1852);
        CrossingPlan on = OceanCase.of(OceanCase.ON_V31, "cross BBB at 9000", ten.lat2, ten.lon2)
                .work()
                .crossings()
                .get(0);
        assertThat(on.distanceNm().orElseThrow()).isCloseTo(leg.s12 / 1852 - 10, within(0.001));
        AmendedRoute beside = OceanCase.of(OceanCase.ON_V31, "cross BBB at 9000", off.lat2, off.lon2)
                .work();
        assertThat(codes(beside)).contains(Warning.Code.CHOICE_MADE);
        assertThat(beside.crossings().get(0).leg()).isEqualTo(0);
        assertThat(beside.crossings().get(0).distanceNm()).isEmpty();
        assertThat(beside.crossings().get(0).minutes()).isEmpty();
        assertThat(beside.crossings().get(0).ftPerNm()).isEmpty();
        assertThat(beside.crossings().get(0).ftPerMin()).isEmpty();
    }

    @Test
    void crossings_that_do_not_work_are_warned_about() {
        assertThat(codes(on("direct BBB, cross DDD at 6000").work())).contains(Warning.Code.CROSSING_NOT_ON_ROUTE);
        assertThat(codes(on("direct BBB, cross AAA at 6000").work())).contains(Warning.Code.CROSSING_NOT_ON_ROUTE);
        assertThat(codes(on("direct BBB, cross BBB at FL450").work())).contains(Warning.Code.CROSSING_STEEP);
        assertThat(codes(on("direct BBB, cross BBB at or above 4000").work()))
                .doesNotContain(Warning.Code.CROSSING_STEEP);
        assertThat(codes(on("direct BBB, cross BBB at or above 9000, maintain 6000")
                        .work()))
                .contains(Warning.Code.ALTITUDES_CONFLICT);
        assertThat(codes(on("direct BBB, descend and maintain 6000, cross BBB at or above 9000")
                        .altitude(12_000)
                        .work()))
                .doesNotContain(Warning.Code.ALTITUDES_CONFLICT);
        assertThat(codes(on("climb and maintain 4000").work())).contains(Warning.Code.ALTITUDES_CONFLICT);
        assertThat(codes(on("descend and maintain 6000").work())).contains(Warning.Code.ALTITUDES_CONFLICT);
        assertThat(codes(on("cross BBB between 6000 and 8000, direct BBB").work()))
                .doesNotContain(Warning.Code.ALTITUDES_CONFLICT);
    }

    @Test
    void level_by_a_fix_is_a_crossing() {
        assertThat(on("direct BBB, climb to 9000, to be level by BBB").work().crossings())
                .singleElement()
                .satisfies(plan -> assertThat(plan.said().feet()).isEqualTo(9000));
    }

    @Test
    void speeds_that_cannot_be_flown() {
        assertThat(codes(on("direct BBB, maintain 250 knots").work())).contains(Warning.Code.SPEED_NOT_POSSIBLE);
        assertThat(codes(on("direct BBB, maintain 280 knots").speed(250).work()))
                .as("14 CFR 91.117: 250 knots below 10,000 ft")
                .contains(Warning.Code.SPEED_NOT_POSSIBLE);
        assertThat(codes(on("direct BBB, maintain 110 knots").work())).doesNotContain(Warning.Code.SPEED_NOT_POSSIBLE);
        assertThat(codes(on("direct BBB, cross BBB at 10000 at 250 knots").work()))
                .as("a speed at a crossing is flown by the same aircraft")
                .contains(Warning.Code.SPEED_NOT_POSSIBLE);
        assertThat(codes(on("direct BBB, cross BBB at 10000 at 280 knots")
                        .speed(250)
                        .work()))
                .as("the limit holds below 10,000 ft")
                .doesNotContain(Warning.Code.SPEED_NOT_POSSIBLE);
        assertThat(codes(on("direct BBB, cross BBB at 9000 at 280 knots")
                        .speed(250)
                        .work()))
                .contains(Warning.Code.SPEED_NOT_POSSIBLE);
        assertThat(codes(on("direct AAA, hold west of AAA on the 270 radial, maintain 210 knots")
                        .speed(220)
                        .work()))
                .contains(Warning.Code.SPEED_NOT_POSSIBLE);
    }

    @Test
    void over_a_station_a_course_inbound_to_it_has_ended() {
        assertThatThrownBy(() -> OceanCase.of(OceanCase.ON_V40, "direct AAA, inbound on the 258 course", 38.3, -54.9)
                        .work())
                .hasMessageContaining("direct AAA leads over AAA", "inbound ends", "say \"outbound\"");
    }

    @Test
    void an_altitude_alone_orders_no_turn() {
        AmendedRoute route =
                OceanCase.of(OceanCase.ON_V31, "maintain 6000", 38.9, -54.9).work();
        assertThat(route.legs()).noneMatch(Leg.DirectToFix.class::isInstance);
        assertThat(route.warnings())
                .anySatisfy(warning -> assertThat(warning.text())
                        .contains("the route does not change: go on as cleared. Shown is the filed route"));
    }

    @Test
    void a_position_with_its_numbers_changed_over_is_told() {
        AmendedRoute route = OceanCase.of(OceanCase.ON_V31, "direct AAA, then as filed", -54.5, 38.1)
                .work();
        assertThat(route.warnings()).anySatisfy(warning -> {
            assertThat(warning.code()).isEqualTo(Warning.Code.FAR_FROM_ROUTE);
            assertThat(warning.text()).contains("changed over");
        });
    }

    @Test
    void a_wind_stronger_than_the_airspeed_is_told() {
        assertThat(codes(on("direct BBB, then as filed").wind(330, 150).work())).contains(Warning.Code.STRONG_WIND);
    }

    @Test
    void the_magnetic_model_is_told_without_a_heading_too() {
        assertThat(codes(on("direct BBB, then as filed")
                        .on(java.time.LocalDate.of(2035, 1, 1))
                        .work()))
                .contains(Warning.Code.MAGNETIC_MODEL);
    }

    @Test
    void join_an_airway_so_many_miles_from_a_fix() {
        AmendedRoute route =
                on("join V31 ten miles northeast of AAA, then as filed").work();
        assertThat(OceanCase.legs(route)).matches("DF AAA\\d{3}010, TF V31 BBB, TF XBBB");
        assertThat(route.legs().get(0).endsAt().orElseThrow().position().distanceNm(OceanCase.AAA.position()))
                .isCloseTo(10, within(1e-6));
        assertThatThrownBy(() -> on("join V31 ten miles west of AAA").amended())
                .hasMessageContaining("no point 10 miles west of AAA");
    }

    @Test
    void an_altitude_beside_the_words_is_an_altitude_in_the_words() throws ClearanceException {
        FiledRoute filed = FiledRouteReader.read(OceanCase.ON_V31, OceanCase.CHART);
        Situation situation = on("").altitude(5000).situation();
        String words = "fly heading 330, intercept V31, then as filed";
        Clearance beside = ClearanceReader.read(words, OceanCase.CHART, filed).withAltitude(OptionalDouble.of(800));
        Clearance within = ClearanceReader.read(words + ", maintain 800", OceanCase.CHART, filed);
        assertThat(beside.instructions()).isEqualTo(within.instructions());
        AmendedRoute first = RouteAmender.amend(OceanCase.CHART, filed, beside, situation);
        AmendedRoute second = RouteAmender.amend(OceanCase.CHART, filed, within, situation);
        assertThat(first.warnings()).isEqualTo(second.warnings()).isNotEmpty();
        assertThat(OceanCase.legs(first)).isEqualTo(OceanCase.legs(second));
        Clearance other = within.withAltitude(OptionalDouble.of(6000));
        assertThat(other.altitudeFt()).hasValue(6000);
        assertThat(RouteAmender.amend(OceanCase.CHART, filed, other, situation).warnings())
                .filteredOn(warning -> warning.code() == Warning.Code.ALTITUDES_CONFLICT)
                .singleElement()
                .satisfies(warning -> assertThat(warning.text()).contains("800 ft and 6000 ft", "ask"));
    }

    /** Where it stands makes no difference to what is assigned, nor to what is said of it. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "maintain 7000 until BBB, direct BBB, then as filed",
                "maintain 4000 until established on V31",
                "direct BBB, cross BBB at or above 7000, then as filed",
                "direct BBB, cross BBB at 4500, then climb and maintain 9000",
                "climb and maintain 9000"
            })
    void beside_the_words_it_is_what_it_is_said_last(String words) throws ClearanceException {
        FiledRoute filed = FiledRouteReader.read(OceanCase.ON_V31, OceanCase.CHART);
        Situation situation = on("").altitude(5000).situation();
        Clearance beside = ClearanceReader.read(words, OceanCase.CHART, filed).withAltitude(OptionalDouble.of(6000));
        Clearance within = ClearanceReader.read(words + ", maintain 6000", OceanCase.CHART, filed);
        assertThat(beside.altitudes()).isEqualTo(within.altitudes());
        assertThat(beside.notes()).containsExactlyInAnyOrderElementsOf(within.notes());
        assertThat(RouteAmender.amend(OceanCase.CHART, filed, beside, situation).warnings())
                .isEqualTo(RouteAmender.amend(OceanCase.CHART, filed, within, situation)
                        .warnings());
    }

    /** An altitude that is in force from a crossing begins there: what is flown to it is no contradiction. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "8000 | cross BBB at 7000, then climb and maintain 9000 | false",
                "12000 | cross BBB at 7000, then climb and maintain 9000 | false",
                "12000 | cross BBB at or above 7000, then climb and maintain 9000 | false",
                "8000 | cross BBB at 9000, then descend and maintain 6000 | false",
                "8000 | cross BBB at or above 9000, then descend and maintain 6000 | false",
                "8000 | cross BBB at or above 9000, descend and maintain 6000 | false",
                "8000 | cross 5 miles southwest of BBB at 9000, cross BBB at 7000, then descend and maintain 6000 | false",
                "8000 | cross BBB at 7000, then descend and maintain 7500 | true",
                "8000 | cross BBB at 9000, then climb and maintain 8500 | true",
                "8000 | climb and maintain 9000, cross BBB at 7000, then climb and maintain 10000 | true",
                "30000 | descend now to FL270, cross BBB at or below 10000, descend and maintain 6000 | false",
                "5000 | cross BBB at 7000, then maintain 9000 | false",
                "8000 | cross BBB at 7000, then maintain 9000 | false",
                "11000 | cross BBB at 7000, then maintain 9000 | false",
                "5000 | cross BBB at or below 7000, then maintain 9000 | false",
                "8000 | cross BBB at or below 7000, then maintain 9000 | false",
                "11000 | cross BBB at or below 7000, then maintain 9000 | false",
                "5000 | cross BBB at 9000, then maintain 7000 | false",
                "8000 | cross BBB at 9000, then maintain 7000 | false",
                "11000 | cross BBB at 9000, then maintain 7000 | false",
                "5000 | cross BBB at or above 9000, then maintain 7000 | false",
                "8000 | cross BBB at or above 9000, then maintain 7000 | false",
                "11000 | cross BBB at or above 9000, then maintain 7000 | false",
                "5000 | cross BBB at 7000, maintain 9000 | false",
                "8000 | cross BBB at 7000, maintain 9000 | true",
                "11000 | cross BBB at 7000, maintain 9000 | true",
                "5000 | maintain 9000, cross BBB at 7000 | false",
                "8000 | maintain 9000, cross BBB at 7000 | true",
                "11000 | maintain 9000, cross BBB at 7000 | true",
                "5000 | cross BBB at 9000, maintain 7000 | true",
                "8000 | cross BBB at 9000, maintain 7000 | true",
                "11000 | cross BBB at 9000, maintain 7000 | false",
                "8000 | descend and maintain 6000, cross BBB at 9000 | true"
            })
    void altitudes_in_order_do_not_contradict_each_other(double feet, String words, boolean conflict) {
        assertThat(codes(on("direct BBB, " + words).altitude(feet).work()).contains(Warning.Code.ALTITUDES_CONFLICT))
                .isEqualTo(conflict);
    }
}
