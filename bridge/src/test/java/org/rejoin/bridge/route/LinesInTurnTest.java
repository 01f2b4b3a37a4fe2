package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.rejoin.bridge.clearance.ClearanceException;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** One radial after another: the second is joined where the two cross, as an airway is. */
class LinesInTurnTest {

    private static OceanCase from(String words) {
        return OceanCase.of(OceanCase.ON_V31, words, 38.0, -55.6);
    }

    @Test
    void the_second_radial_is_joined_where_it_crosses_the_first() {
        // The BBB 227 radial is 210 true; the AAA 078 radial, 060 true, crosses it northeast of AAA.
        AmendedRoute then = from("direct AAA, AAA 078 radial outbound, then the BBB 227 radial inbound")
                .work();
        AmendedRoute until =
                from("direct AAA, AAA 078 radial outbound until the BBB 227 radial, BBB 227 radial inbound")
                        .work();
        assertThat(OceanCase.legs(then))
                .isEqualTo(OceanCase.legs(until))
                .startsWith("DF AAA, FC AAA078")
                .endsWith("CF BBB, TF XBBB");
        assertThat(then.legs().get(1).endsAt().orElseThrow().position())
                .isEqualTo(until.legs().get(1).endsAt().orElseThrow().position());
    }

    @Test
    void on_a_heading_first() {
        AmendedRoute route = OceanCase.of(
                        OceanCase.ON_V31,
                        "fly heading 108, intercept the AAA 018 radial outbound, then the BBB 267 radial inbound, then as filed",
                        38.3,
                        -55.3)
                .work();
        assertThat(OceanCase.legs(route)).matches("VI, FC AAA018\\d{3}, CF BBB, TF XBBB");
        Leg.CourseToFix second = (Leg.CourseToFix) route.legs().get(2);
        assertThat(second.course().deg()).isCloseTo(87, within(1e-6));
    }

    @Test
    void over_their_station_from_one_radial_to_another() {
        AmendedRoute route =
                from("fly heading 060, intercept the AAA 270 radial inbound, then the AAA 078 radial outbound")
                        .work();
        assertThat(OceanCase.legs(route)).startsWith("VI, CF AAA, F");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                // Which way the first is flown is not said: to the other there may be two.
                "intercept the AAA 078 radial and the BBB 267 radial",
                "intercept the AAA 018 radial, intercept the BBB 267 radial inbound"
            })
    void one_that_may_be_flown_either_way_does_not_lead_to_the_next(String words) {
        assertThatThrownBy(
                        () -> OceanCase.of(OceanCase.ON_V31, words, 38.3, -55.3).amended())
                .isInstanceOf(ClearanceException.class)
                .hasMessageContaining("does not say where the first is left");
    }

    @Test
    void one_that_is_not_crossed_ahead_is_said_by_its_name() {
        assertThatThrownBy(() -> from("direct AAA, AAA 078 radial outbound, then the CCC 360 radial inbound")
                        .amended())
                .hasMessageContaining("the CCC 360 radial lies behind, or is not met");
    }

    @Test
    void five_miles_east_of_a_fix_is_magnetic_there() {
        AmendedRoute route =
                from("direct five miles east of AAA, then direct BBB").work();
        // East by the radials of AAA: 090 less 18 is 072 true.
        assertThat(OceanCase.legs(route)).isEqualTo("DF AAA090005, TF BBB, TF XBBB");
        var place = route.legs().get(0).endsAt().orElseThrow().position();
        assertThat(OceanCase.AAA.position().to(place).initial().deg()).isCloseTo(72, within(1e-6));
        assertThat(OceanCase.AAA.position().distanceNm(place)).isCloseTo(5, within(1e-9));
        // Of a fix by today's variation there, some 17.5 west (World Magnetic Model).
        AmendedRoute fix =
                from("turn left direct five miles north of CLOSE").heading(108).work();
        var beside = fix.legs().get(0).endsAt().orElseThrow().position();
        double variation =
                fix.situation().variationAt(OceanCase.CLOSE.position()).eastDeg();
        assertThat(OceanCase.CLOSE.position().to(beside).initial().deg() - 360).isCloseTo(variation, within(1e-6));
        assertThat(fix.turn().orElseThrow().right()).isFalse();
        assertThat(fix.openEnd()).isPresent();
    }

    @Test
    void on_the_airway_it_is_the_place_of_the_airway() {
        assertThat(OceanCase.legs(from("direct ten miles northeast of AAA on V31, then as filed")
                        .work()))
                .matches("DF AAA061010, TF V31 BBB, TF XBBB");
        assertThatThrownBy(
                        () -> from("direct ten miles northwest of AAA on V31").amended())
                .hasMessageContaining("V31 has no point 10 miles northwest of AAA");
    }

    @Test
    void from_a_place_beside_a_fix_no_heading_is_begun() {
        assertThatThrownBy(() ->
                        from("direct five miles east of AAA, then heading 180").amended())
                .hasMessageContaining("after the way to a place beside AAA");
    }

    @Test
    void a_place_beside_a_fix_beyond_the_clearance_limit_is_not_dropped() {
        assertThatThrownBy(() -> from("cleared to AAA, direct AAA, direct five miles east of CLOSE")
                        .amended())
                .hasMessageContaining("is said, and the clearance ends at AAA before it comes to that");
    }

    @Test
    void as_filed_to_a_fix_and_from_there_as_said() {
        assertThat(OceanCase.legs(
                        from("as filed to AAA, then direct DDD, direct XBBB").work()))
                .isEqualTo("DF AAA, TF DDD, TF XBBB");
        assertThat(OceanCase.legs(from("as filed except after AAA direct XBBB").work()))
                .isEqualTo("DF AAA, TF XBBB");
        assertThat(OceanCase.legs(from("leave AAA direct XBBB").work())).isEqualTo("DF AAA, TF XBBB");
        assertThat(OceanCase.legs(from("leave AAA on track").work())).isEqualTo("DF AAA, TF V31 BBB, TF XBBB");
        assertThat(OceanCase.legs(from("after AAA, on course").work())).isEqualTo("DF AAA, TF V31 BBB, TF XBBB");
    }

    @Test
    void a_turn_by_degrees_from_the_heading_flown_onto_the_airway() {
        AmendedRoute route = OceanCase.of(OceanCase.ON_V31, "turn left 20 degrees to V31, then as filed", 38.6, -55.0)
                .heading(128)
                .work();
        assertThat(route.heading().orElseThrow().magnetic().deg()).isCloseTo(108, within(1e-9));
        assertThat(OceanCase.legs(route)).isEqualTo("VI, TF V31 BBB, TF XBBB");
        assertThatThrownBy(() -> OceanCase.of(OceanCase.ON_V31, "turn left 20 degrees to V31", 38.6, -55.0)
                        .amended())
                .hasMessageContaining("needs the heading flown now");
    }

    @Test
    void an_altitude_a_crossing_and_the_altitude_behind_it_are_in_force_in_that_order() {
        AmendedRoute route = from("maintain 8000, then cross AAA at 7000, then maintain 9000")
                .altitude(6000)
                .work();
        assertThat(route.clearance().altitudes())
                .extracting(turn -> turn.said().feet())
                .containsExactly(8000.0, 9000.0);
        assertThat(route.clearance().altitudeFt()).hasValue(8000);
        assertThat(route.clearance().altitudes().get(1).from().orElseThrow().passed())
                .isEqualTo("passing alfa alfa alfa");
        assertThat(route.warnsOf(Warning.Code.ALTITUDES_CONFLICT)).isFalse();
    }
}
