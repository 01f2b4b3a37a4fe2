package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** DME arcs and lines in a row, worked out (Instrument Flying Handbook, chapter 9). */
class ArcsTest {

    private static AmendedRoute arc(String words) {
        return OceanCase.of(OceanCase.ON_V31, words, 38.0, -55.6).work();
    }

    private static Leg.DmeArc leg(AmendedRoute route) {
        return (Leg.DmeArc) route.legs().get(1);
    }

    @Test
    void from_a_heading_round_the_station_onto_the_airway() {
        AmendedRoute route =
                arc("fly heading 108, intercept the AAA 15 mile arc, arc clockwise to join V31, then as filed");
        assertThat(OceanCase.legs(route)).isEqualTo("VI, AF AAA061015, TF V31 BBB, TF XBBB");
        Leg.DmeArc arc = leg(route);
        assertThat(arc.path().clockwise()).isTrue();
        assertThat(arc.to().position().distanceNm(OceanCase.AAA.position())).isCloseTo(15, within(1e-6));
        assertThat(arc.toRadial().deg()).isCloseTo(60.95, within(0.01));
        assertThat(route.intercept().orElseThrow().position().distanceNm(OceanCase.AAA.position()))
                .isCloseTo(15, within(1e-6));
        assertThat(route.joinedAirway()).contains("V31");
        assertThat(route.computedFix().orElseThrow().crossingAngleDeg()).isCloseTo(90, within(0.5));
    }

    @Test
    void straight_in_the_turn_onto_an_arc_is_a_right_angle_and_the_lead_is_its_radius() {
        // Half a per cent of the ground speed is the handbook's lead for 90 degrees; R tan 45 is exact.
        AmendedRoute route = arc("intercept the AAA 15 mile arc clockwise to the AAA 360 radial");
        Intercept met = route.intercept().orElseThrow();
        assertThat(met.angleDeg()).isCloseTo(90, within(3.0));
        assertThat(met.leadNm())
                .isCloseTo(Turn.standardRadiusNm(120) * Math.tan(Math.toRadians(met.angleDeg() / 2)), within(1e-9));
        assertThat(met.leadNm()).isCloseTo(0.005 * 120, within(0.1));
    }

    /**
     * The handbook's worked arc: inbound on the 325 radial, left onto the 10 mile arc, clockwise, rolls out on 055 in still
     * air (Instrument Flying Handbook, FAA-H-8083-15, intercepting a DME arc; read in a public transcription). The lead is
     * half a mile up to 150 kt there; exactly it is the radius of the turn.
     */
    @Test
    void the_worked_arc_of_the_handbook() {
        Position here = OceanCase.AAA.position().destination(new TrueDirection(325 - 18), 14);
        AmendedRoute route = OceanCase.of(
                        OceanCase.ON_V31,
                        "fly heading 145, intercept the AAA 10 mile arc, arc clockwise to the AAA 090 radial",
                        here.latitudeDeg(),
                        here.longitudeDeg())
                .work();
        // A heading by today's variation leads within a degree and a half along the radial by the station.
        Leg.DmeArc arc = leg(route);
        assertThat(arc.fromRadial().deg()).isCloseTo(325, within(1.5));
        assertThat(arc.path().courseAt(0).deg() + 18).isCloseTo(55, within(1.5));
        assertThat(route.intercept().orElseThrow().turnsRight()).isFalse();
        assertThat(route.intercept().orElseThrow().leadNm()).isCloseTo(0.5, within(0.2));
    }

    @Test
    void the_way_round_is_the_said_one() {
        double right = leg(arc("intercept the AAA 15 mile arc clockwise to the AAA 360 radial"))
                .path()
                .sweepDeg();
        double left = leg(arc("intercept the AAA 15 mile arc counterclockwise to the AAA 360 radial"))
                .path()
                .sweepDeg();
        assertThat(right).isPositive();
        assertThat(left).isNegative();
        assertThat(right - left).isCloseTo(360, within(1.0));
        assertThat(leg(arc("intercept the AAA 15 mile arc, arc north bound to the AAA 360 radial"))
                        .path()
                        .clockwise())
                .isTrue();
        assertThat(leg(arc("intercept the AAA 15 mile arc, arc southbound to the AAA 180 radial"))
                        .path()
                        .clockwise())
                .isFalse();
    }

    @Test
    void a_way_round_that_is_not_said_is_told() {
        AmendedRoute route = arc("intercept the AAA 15 mile arc, join V31");
        assertThat(route.warnings())
                .anySatisfy(warning -> assertThat(warning.text()).contains("which way round the arc is not said"));
    }

    /** From the west of AAA: north about it is clockwise to the 090 radial, south about it counterclockwise. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "intercept the 15 mile arc north of AAA to the 090 radial, inbound | true",
                "fly the 15 DME arc south of AAA to the 090 radial, inbound | false",
                "join the AAA 15 DME arc south to the 090 radial, inbound | false",
                "arc south of AAA, 15 DME, to the 180 radial, inbound | false",
                "arc northeast of AAA on the 15 mile arc to the 060 radial, inbound | true"
            })
    void the_side_of_the_station_tells_the_way_round(String words, boolean clockwise) {
        AmendedRoute route = arc(words);
        assertThat(leg(route).path().clockwise()).isEqualTo(clockwise);
        assertThat(Math.abs(leg(route).path().sweepDeg())).isLessThan(270);
        assertThat(route.warnsOf(Warning.Code.CHOICE_MADE)).isFalse();
        assertThat(route.notes())
                .anyMatch(
                        note -> note.contains("so the arc is flown " + (clockwise ? "clockwise" : "counterclockwise")));
    }

    @Test
    void an_arc_that_leads_past_the_other_side_is_warned_about() {
        AmendedRoute ordered = arc("intercept the 15 mile arc south of AAA, clockwise to the 360 radial, inbound");
        assertThat(leg(ordered).path().clockwise()).isTrue();
        assertThat(ordered.warnings())
                .anySatisfy(warning -> assertThat(warning.text())
                        .contains(
                                "the arc is flown on the other side: the clearance says south of AAA, and clockwise"));
        // Both ends lie northwest: nobody means to be led nearly round the station.
        AmendedRoute shorter = arc("intercept the 15 mile arc southeast of AAA to the 330 radial, inbound");
        assertThat(Math.abs(leg(shorter).path().sweepDeg())).isLessThan(90);
        assertThat(shorter.warnings())
                .anySatisfy(warning -> assertThat(warning.text()).contains("which way round the arc is not said"))
                .anySatisfy(warning -> assertThat(warning.text()).contains("flown on the other side"));
        assertThat(arc("intercept the 15 mile arc south of AAA, counterclockwise to the 180 radial, inbound")
                        .warnsOf(Warning.Code.CHOICE_MADE))
                .isFalse();
    }

    @Test
    void off_the_arc_along_a_radial_to_the_station() {
        AmendedRoute route = arc(
                "fly heading 108, intercept the AAA 15 mile arc clockwise, intercept the AAA 010 radial inbound, join V31");
        assertThat(OceanCase.legs(route)).isEqualTo("VI, AF AAA010015, CF AAA, TF V31 BBB, TF XBBB");
        assertThat(leg(route).toRadial().deg()).isCloseTo(10, within(1e-6));
    }

    @Test
    void the_radial_that_ends_an_arc_may_be_the_airway() {
        AmendedRoute route =
                arc("fly heading 108, intercept the AAA 15 mile arc, clockwise to the AAA 061 radial, join V31");
        assertThat(OceanCase.legs(route)).isEqualTo("VI, AF AAA061015, TF V31 BBB, TF XBBB");
        assertThat(route.legs().get(2).joinedAtNm()).isCloseTo(15, within(0.05));
    }

    @Test
    void off_the_arc_at_a_radial_direct_to_a_fix() {
        AmendedRoute route =
                arc("fly heading 108, intercept the AAA 15 mile arc, clockwise to the AAA 350 radial, then direct BBB");
        assertThat(OceanCase.legs(route)).isEqualTo("VI, AF AAA350015, TF BBB, TF XBBB");
    }

    @Test
    void a_radial_to_a_radial_then_direct() {
        AmendedRoute route = OceanCase.of(
                        OceanCase.ON_V31,
                        "fly heading 060, intercept the AAA 350 radial until the CCC 240 radial, then direct BBB",
                        38.1,
                        -55.4)
                .work();
        assertThat(OceanCase.legs(route)).startsWith("VI, FC AAA350").endsWith("TF BBB, TF XBBB");
        double fromCcc = OceanCase.CCC
                .position()
                .to(route.legs().get(1).endsAt().orElseThrow().position())
                .initial()
                .deg();
        assertThat(fromCcc).as("240 by a declination of 18.5 west").isCloseTo(221.5, within(1e-6));
    }

    @Test
    void a_radial_to_a_distance() {
        AmendedRoute route = OceanCase.of(
                        OceanCase.ON_V31,
                        "fly heading 060, intercept the AAA 350 radial until 40 DME, then direct BBB",
                        38.1,
                        -55.4)
                .work();
        assertThat(route.legs().get(1).endsAt().orElseThrow().position().distanceNm(OceanCase.AAA.position()))
                .isCloseTo(40, within(1e-6));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "intercept the NNB 15 mile arc clockwise, join V31 | gives no distance",
                "intercept the AAA 0 mile arc clockwise, join V31 | 1 to 200 miles",
                "intercept the AAA 15 mile arc clockwise to BBB | not on the",
                "intercept the AAA 15 mile arc clockwise, join V40 to DDD | does not cross it",
                "intercept the AAA 15 mile arc clockwise until 20 DME | not at a distance",
                "intercept the AAA 350 radial until 20 DME, then as filed | not in the filed route"
            })
    void what_makes_no_line_is_refused(String words, String why) {
        assertThatThrownBy(
                        () -> OceanCase.of(OceanCase.ON_V31, words, 38.0, -55.6).amended())
                .isInstanceOf(ClearanceException.class)
                .hasMessageContaining(why);
    }

    @Test
    void a_heading_that_misses_the_arc_says_which_would_not() {
        AmendedRoute route = arc("fly heading 020, intercept the AAA 15 mile arc clockwise to join V31");
        assertThat(route.warnings()).extracting(Warning::code).contains(Warning.Code.HEADING_DOES_NOT_REACH_COURSE);
        assertThat(route.headingsThatMeet()).isNotEmpty();
    }

    @Test
    void an_airway_before_a_line_is_not_dropped() {
        assertThatThrownBy(() -> arc("intercept V31, intercept the AAA 15 mile arc clockwise to the AAA 360 radial"))
                .hasMessageContaining("say first what is flown first");
    }
}
