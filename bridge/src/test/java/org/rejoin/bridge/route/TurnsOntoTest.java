package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;

import org.rejoin.bridge.clearance.Instruction.TurnDirection;
import org.rejoin.bridge.geo.Angles;

import org.junit.jupiter.api.Test;

/** "Turn left onto V31", against the turn that the route makes there. */
class TurnsOntoTest {

    private static AmendedRoute north(String words) {
        // North of V31, which runs 043 true; heading 108 is 090 true.
        return OceanCase.of(OceanCase.ON_V31, words, 38.6, -55.0).work();
    }

    private static List<String> turns(AmendedRoute route) {
        return route.warnings().stream()
                .filter(warning -> warning.code() == Warning.Code.LONG_WAY_ROUND)
                .map(Warning::text)
                .toList();
    }

    @Test
    void the_other_turn_than_the_one_ordered_is_warned_about() {
        AmendedRoute route = north("fly heading 108, turn right onto V31, then as filed");
        assertThat(route.intercept().orElseThrow().turnsRight()).isFalse();
        double turn = route.intercept().orElseThrow().angleDeg();
        assertThat(turns(route))
                .singleElement()
                .asString()
                .startsWith(
                        "\"turn right\" onto V31: from heading 108 the turn onto it is left, " + Angles.degrees(turn))
                .contains("to the right it would go the long way round, " + Angles.degrees(360 - turn));
        assertThat(OceanCase.legs(route)).isEqualTo("VI, TF V31 BBB, TF XBBB");
    }

    @Test
    void the_right_one_is_not() {
        assertThat(turns(north("fly heading 108, turn left onto V31, then as filed")))
                .isEmpty();
        assertThat(turns(north("fly heading 108, turn left to intercept V31, then as filed")))
                .isEmpty();
    }

    @Test
    void a_heading_that_meets_nothing_has_no_turn_to_judge() {
        AmendedRoute route = north("fly heading 360, turn right onto V31, then as filed");
        assertThat(route.warnsOf(Warning.Code.HEADING_DOES_NOT_REACH_COURSE)).isTrue();
        assertThat(turns(route)).isEmpty();
    }

    @Test
    void from_a_radial_onto_the_airway_it_is_the_turn_at_the_fix() {
        // The AAA 078 radial is 060 true, V40 runs southeast.
        String words = "direct AAA, then the AAA 078 radial outbound, turn %s onto V40, then as filed";
        AmendedRoute left = OceanCase.of(OceanCase.ON_V40, String.format(words, "left"), 38.0, -55.6)
                .work();
        AmendedRoute right = OceanCase.of(OceanCase.ON_V40, String.format(words, "right"), 38.0, -55.6)
                .work();
        assertThat(turns(left))
                .singleElement()
                .asString()
                .startsWith("\"turn left\" onto V40: from the line before it the turn onto it is right");
        assertThat(turns(right)).isEmpty();
    }

    @Test
    void onto_a_radial_and_onto_an_arc() {
        String radial = "fly heading 108, turn %s to intercept the BBB 227 radial inbound";
        assertThat(turns(north(String.format(radial, "right"))))
                .singleElement()
                .asString()
                .contains("BBB 227 radial");
        assertThat(turns(north(String.format(radial, "left")))).isEmpty();
        // From the west onto the arc, clockwise: a left turn to fly north about.
        String arc = "fly heading 108, turn %s onto the AAA 15 mile arc, arc clockwise to the 360 radial";
        assertThat(turns(OceanCase.of(OceanCase.ON_V31, String.format(arc, "right"), 38.0, -55.6)
                        .work()))
                .singleElement()
                .asString()
                .contains("onto the AAA arc");
        assertThat(turns(OceanCase.of(OceanCase.ON_V31, String.format(arc, "left"), 38.0, -55.6)
                        .work()))
                .isEmpty();
    }

    @Test
    void on_course_it_is_the_turn_to_the_fix_that_leads_back() {
        // BBB, the end of the nearest leg, lies north-northeast: left of a heading east.
        AmendedRoute left = OceanCase.of(OceanCase.ON_V31, "turn left on course", 38.2, -54.2)
                .heading(90)
                .work();
        assertThat(left.turn().orElseThrow().right()).isFalse();
        assertThat(turns(left)).isEmpty();
        AmendedRoute right = OceanCase.of(OceanCase.ON_V31, "turn right on course", 38.2, -54.2)
                .heading(90)
                .work();
        assertThat(OceanCase.legs(right)).isEqualTo("DF BBB, TF XBBB");
        assertThat(right.turn().orElseThrow().right()).isTrue();
        assertThat(turns(right)).singleElement().asString().contains("the turn right to direct BBB");
        assertThat(turns(OceanCase.of(OceanCase.ON_V31, "turn right on course direct BBB", 38.2, -54.2)
                        .heading(90)
                        .work()))
                .isEqualTo(turns(right));
    }

    @Test
    void the_side_ordered_for_a_direct_is_that_of_the_route() {
        for (String words : List.of("turn left direct BBB", "turn left on course")) {
            AmendedRoute route =
                    OceanCase.of(OceanCase.ON_V31, words, 38.2, -54.2).work();
            assertThat(route.orderedTurn()).as(words).isEqualTo(TurnDirection.LEFT);
            // Also where the heading flown is known.
            AmendedRoute known = OceanCase.of(OceanCase.ON_V31, words, 38.2, -54.2)
                    .heading(90)
                    .work();
            assertThat(known.orderedTurn()).as(words).isEqualTo(TurnDirection.LEFT);
        }
    }

    @Test
    void on_a_leg_of_the_route_it_is_the_turn_to_its_course() {
        // Over V31, which runs 061 by the compass, on heading 100.
        AmendedRoute right = OceanCase.of(OceanCase.ON_V31, "turn right on course", 38.5, -54.404)
                .heading(100)
                .work();
        assertThat(OceanCase.legs(right)).isEqualTo("TF V31 BBB, TF XBBB");
        assertThat(turns(right))
                .singleElement()
                .asString()
                .contains("the turn right to the course goes the long way round");
        assertThat(turns(OceanCase.of(OceanCase.ON_V31, "turn left on course", 38.5, -54.404)
                        .heading(100)
                        .work()))
                .isEmpty();
    }

    @Test
    void at_a_fix_it_is_the_turn_there() {
        // From the west to AAA on 090 true, and from there along V31 on 043: a left turn.
        AmendedRoute route = OceanCase.of(OceanCase.ON_V31, "at AAA turn left on course", 38.0, -55.6)
                .heading(108)
                .work();
        assertThat(turns(route)).isEmpty();
        assertThat(turns(OceanCase.of(OceanCase.ON_V31, "direct AAA, turn right on course", 38.0, -55.6)
                        .heading(300)
                        .work()))
                .singleElement()
                .asString()
                .contains("\"turn right\" onto the course: from the line before it the turn onto it is left");
    }
}
