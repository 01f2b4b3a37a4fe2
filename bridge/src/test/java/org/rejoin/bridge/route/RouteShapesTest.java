package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;

import org.junit.jupiter.api.Test;

/** What a controller means and a pilot flies, shape by shape. */
final class RouteShapesTest {

    @Test
    void directionOfTheAirwayIsTheFiledOne() {
        String words = "fly heading 145, intercept the AAA 078 radial, join V40, then as filed";
        AmendedRoute back =
                OceanCase.of(OceanCase.V40_BACK, words, 38.60, -54.90).work();
        assertThat(OceanCase.legs(back)).isEqualTo("VI, FC AAA078064, TF V40 CCC, TF XCCC");
        assertThat(back.skipped()).extracting(Waypoint::ident).containsExactly("DDD");
        assertThat(back.computedFix().orElseThrow().turnDeg()).isCloseTo(65.7076 - 180, within(1e-4));
        AmendedRoute airway = OceanCase.of(
                        "XBBB DCT BBB V31 AAA DCT XAAA", "fly heading 110, intercept V31", 38.3, -55.7)
                .work();
        assertThat(OceanCase.legs(airway)).isEqualTo("VI, TF V31 AAA, TF XAAA");
        assertThat(airway.skipped()).extracting(Waypoint::ident).containsExactly("BBB");
    }

    @Test
    void wordsWinOverTheRule() {
        // BBB is on V88, so unsaid means inbound; V40 ends at DDD, where V88 ends too.
        String filed = "XCCC DCT CCC V40 DDD DCT XDDD";
        AmendedRoute inbound = OceanCase.of(filed, "intercept the CCC 170 radial, join V40, then as filed", 38.8, -55.3)
                .work();
        assertThat(inbound.course().orElseThrow().direction()).isEqualTo(Course.Direction.TO);
        assertThat(inbound.course().orElseThrow().courseToSet()).isEqualTo(new Radial(350));
        assertThat(OceanCase.legs(inbound)).isEqualTo("VI, CF CCC, TF V40 DDD, TF XDDD");
        assertThat(inbound.skipped()).isEmpty();
        AmendedRoute toward = OceanCase.of(
                        OceanCase.ON_V40, "intercept the AAA 078 radial inbound, join V40, then as filed", 38.9, -53.3)
                .work();
        assertThat(toward.course().orElseThrow().direction()).isEqualTo(Course.Direction.TO);
        assertThat(toward.course().orElseThrow().courseToSet()).isEqualTo(new Radial(258));
        assertThat(OceanCase.legs(toward)).isEqualTo("VI, CF AAA078064, TF V40 DDD, TF XDDD");
    }

    /** V55 crosses the AAA 078 radial twice: EARLY-BENDS and BENDS-CLOSE. */
    @Test
    void ofTwoCrossingsTheFirstAheadIsTakenAndSaid() {
        AmendedRoute route = OceanCase.of(
                        "EARLY V55 CLOSE",
                        "fly heading 145, intercept the AAA 078 radial, join V55, then as filed",
                        38.4,
                        -54.9)
                .work();
        long crossings = route.warnings().stream()
                .filter(warning -> warning.code() == Warning.Code.CHOICE_MADE)
                .count();
        assertThat(crossings).isEqualTo(1);
        assertThat(route.computedFix().orElseThrow().segment().to()).isEqualTo(OceanCase.BENDS);
        assertThat(OceanCase.legs(route)).endsWith("TF V55 BENDS, TF V55 CLOSE");
    }

    @Test
    void dogLegIsMetWhereTheTrackMeetsItFirst() {
        AmendedRoute route = OceanCase.of("EARLY V55 CLOSE", "fly heading 105, intercept V55", 38.5, -54.6)
                .work();
        assertThat(OceanCase.legs(route)).isEqualTo("VI, TF V55 BENDS, TF V55 CLOSE");
        assertThat(route.warnings())
                .anySatisfy(warning -> assertThat(warning.code()).isEqualTo(Warning.Code.CHOICE_MADE));
        AmendedRoute fromEast = OceanCase.of("EARLY V55 CLOSE", "fly heading 285, intercept V55", 38.5, -53.0)
                .work();
        assertThat(fromEast.intercept().orElseThrow().airwayLeg().orElseThrow().from())
                .isEqualTo(OceanCase.BENDS);
        assertThat(OceanCase.legs(fromEast)).isEqualTo("VI, TF V55 CLOSE");
    }

    @Test
    void anAirwayIsLeftForAFixOfItsOwnWhereItPassesIt() {
        assertThat(OceanCase.legs(
                        OceanCase.of("EARLY V55 CLOSE", "fly heading 105, intercept V55, direct BENDS", 38.5, -54.6)
                                .work()))
                .isEqualTo("VI, TF V55 BENDS, TF V55 CLOSE");
        assertThat(OceanCase.legs(OceanCase.of(
                                OceanCase.ON_V31,
                                "fly heading 080, maintain 6000 until established on V88, then direct BBB",
                                38.5,
                                -54.41)
                        .work()))
                .isEqualTo("VI, TF V88 BBB, TF XBBB");
    }

    @Test
    void namedEndOfTheAirwayTellsTheDirection() {
        AmendedRoute route = OceanCase.of(
                        OceanCase.ON_V40,
                        "fly heading 145, intercept the AAA 078 radial, join V40 to CCC, then as filed",
                        38.60,
                        -54.90)
                .work();
        assertThat(OceanCase.legs(route)).startsWith("VI, FC AAA078064, TF V40 CCC");
        AmendedRoute notFiled = OceanCase.of(
                        OceanCase.ON_V31, "fly heading 090, join V88 to BBB, then as filed", 38.7, -55.0)
                .work();
        assertThat(OceanCase.legs(notFiled)).isEqualTo("VI, TF V88 BBB, TF XBBB");
    }

    /** FAA Order JO 7110.65, 4-2-5: an amendment by a chain of airways. */
    @Test
    void chainOfAirways() {
        AmendedRoute route = OceanCase.of(
                        OceanCase.ON_V31,
                        "direct CCC, join V40 to DDD, join V88 to BBB, rest of route unchanged",
                        38.9,
                        -55.4)
                .work();
        assertThat(OceanCase.legs(route)).isEqualTo("DF CCC, TF V40 DDD, TF V88 BBB, TF XBBB");
        assertThat(route.skipped()).extracting(Waypoint::ident).containsExactly("AAA");
        assertThat(route.joinedAirway()).contains("V40");
        AmendedRoute onHeading = OceanCase.of(
                        OceanCase.ON_V31,
                        "fly heading 090, join V40 to DDD, join V88 to BBB, rest of route unchanged",
                        38.9,
                        -55.4)
                .work();
        assertThat(OceanCase.legs(onHeading)).isEqualTo("VI, TF V40 DDD, TF V88 BBB, TF XBBB");
    }

    @Test
    void directToAFixOfTheRoute() {
        AmendedRoute route = OceanCase.of(OceanCase.ON_V31, "proceed direct BBB, then as filed", 38.3, -55.7)
                .work();
        assertThat(OceanCase.legs(route)).isEqualTo("DF BBB, TF XBBB");
        assertThat(route.skipped()).extracting(Waypoint::ident).containsExactly("AAA");
        assertThat(route.courseLeg()).isZero();
        assertThatThrownBy(() -> OceanCase.of(OceanCase.ON_V31, "proceed direct DDD, then as filed", 38.3, -55.7)
                        .amended())
                .isInstanceOf(ClearanceException.class)
                .hasMessageContaining("DDD is not in the filed route");
    }

    @Test
    void bearingOfAnNdbIsByVariationOfToday() {
        AmendedRoute route = OceanCase.of(
                        OceanCase.ON_V40,
                        "fly heading 145, intercept the 078 bearing from NNB, join V40, then as filed",
                        38.60,
                        -54.90)
                .work();
        // NNB stands where AAA does: variation there that day -15.1185 at the ground (WorkedClearancesTest);
        // the bearing is worked out with that at the aircraft's 5000 ft, 0.003 degrees less.
        assertThat(MagneticModel.WMM2025
                        .variation(OceanCase.NNB.position(), 0, LocalDate.of(2026, 6, 1))
                        .eastDeg())
                .isCloseTo(-15.1185, within(1e-4));
        assertThat(route.course().orElseThrow().outbound().initialCourse().deg())
                .isCloseTo(78 - 15.1185, within(4e-3));
        // WorkedClearancesTest, "C, wrong: current variation for the radial": 3.621 NM from the fix of the radial.
        assertThat(route.computedFix()
                        .orElseThrow()
                        .fix()
                        .position()
                        .distanceNm(OceanCase.of(
                                        OceanCase.ON_V40,
                                        "fly heading 145, intercept the AAA 078 radial, join V40, then as filed",
                                        38.60,
                                        -54.90)
                                .work()
                                .computedFix()
                                .orElseThrow()
                                .fix()
                                .position()))
                .isCloseTo(3.621, within(5e-3));
    }

    @Test
    void proposesAHeadingOnlyWhenNobodyNamedOne() {
        String words = "intercept the AAA 078 radial, join V40, then as filed";
        AmendedRoute proposed =
                OceanCase.of(OceanCase.ON_V40, words, 38.60, -54.90).work();
        assertThat(proposed.heading().orElseThrow().origin()).isEqualTo(HeadingPlan.Origin.PROPOSED);
        assertThat(proposed.assignedHeading()).isEmpty();
        assertThat(proposed.intercept()).isPresent();
        AmendedRoute present = OceanCase.of(OceanCase.ON_V40, words, 38.60, -54.90)
                .heading(145)
                .work();
        assertThat(present.heading().orElseThrow().origin()).isEqualTo(HeadingPlan.Origin.PRESENT);
        assertThat(present.assignedHeading()).isEmpty();
    }

    @Test
    void onTheCourseAlreadyThereIsNothingToMeet() {
        // A point of the AAA 078 radial, 20 NM out.
        AmendedRoute route = OceanCase.of(
                        OceanCase.ON_V40,
                        "fly heading 100, intercept the AAA 078 radial, join V40, then as filed",
                        OceanCase.AAA
                                .position()
                                .destination(new TrueDirection(60), 20)
                                .latitudeDeg(),
                        OceanCase.AAA
                                .position()
                                .destination(new TrueDirection(60), 20)
                                .longitudeDeg())
                .work();
        assertThat(route.intercept().orElseThrow().distanceNm()).isZero();
        assertThat(route.legs().get(1).joinedAtNm()).isCloseTo(20, within(1e-6));
    }

    @Test
    void airwayOutOfTheRouteHasNoDirection() {
        assertThatThrownBy(() -> OceanCase.of(OceanCase.ON_V31, "fly heading 090, join V40", 38.7, -55.0)
                        .amended())
                .isInstanceOfSatisfying(
                        ClearanceException.class,
                        e -> assertThat(e.code()).isEqualTo(ClearanceException.Code.AIRWAY_NOT_IN_ROUTE));
    }

    @Test
    void windThatStopsTheAircraftIsSaid() {
        assertThatThrownBy(() -> OceanCase.of(OceanCase.ON_V31, "fly heading 110, intercept V31", 38.30, -55.70)
                        .wind(94.8, 119)
                        .amended())
                .isInstanceOf(ClearanceException.class)
                .hasMessageContaining("gets nowhere");
    }

    @Test
    void overAStationAndAtThePoleThereIsAnAnswer() {
        for (double[] at : new double[][] {{38, -55}, {39, -53.8}, {90, 0}, {-90, 0}, {89.99, 179.99}}) {
            for (String words : new String[] {
                "fly heading 110, intercept V31, resume own navigation",
                "fly heading 150, intercept the BBB 253 radial, join V31, then as filed",
                "intercept the BBB 253 radial, join V31, then as filed",
                "direct BBB, then as filed",
                "resume own navigation"
            }) {
                try {
                    AmendedRoute route =
                            OceanCase.of(OceanCase.ON_V31, words, at[0], at[1]).amended();
                    assertThat(route.legs()).isNotEmpty();
                    route.intercept().ifPresent(met -> {
                        assertThat(met.distanceNm()).isFinite().isNotNegative();
                        assertThat(met.leadNm()).isFinite();
                        assertThat(met.minutes()).isFinite();
                    });
                } catch (ClearanceException e) {
                    assertThat(e.code()).isEqualTo(ClearanceException.Code.CANNOT_BE_WORKED_OUT);
                }
            }
        }
    }
}
