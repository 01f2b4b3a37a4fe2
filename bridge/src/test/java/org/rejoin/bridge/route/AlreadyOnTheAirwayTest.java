package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;

import org.rejoin.bridge.clearance.ClearanceException;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** On V71 between WRACK and KELPY, of XHAL DCT HAL V71 KIT DCT XKIT: nothing leads onto it, and what is behind is not skipped. */
class AlreadyOnTheAirwayTest {

    private static OceanCase here(String words) {
        return OceanCase.of(NorthernChart.FILED, words, 61.91, -32.675)
                .chart(NorthernChart.CHART)
                .altitude(8000)
                .speed(140)
                .heading(65)
                .wind(270, 0);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "via V71 | TF V71 KELPY, TF V71 KIT, TF XKIT",
                "resume own navigation via V71 | TF V71 KELPY, TF V71 KIT, TF XKIT",
                "intercept V71, then as filed | TF V71 KELPY, TF V71 KIT, TF XKIT",
                "via V71 KELPY, V23 SUDDY, direct XKIT | TF V71 KELPY, TF V23 SUDDY, TF XKIT"
            })
    void it_is_flown_from_here_with_no_heading_first(String words, String legs) {
        AmendedRoute route = here(words).work();
        assertThat(OceanCase.legs(route)).isEqualTo(legs);
        assertThat(route.legs().get(0).joinedAtNm()).isGreaterThan(1);
        assertThat(route.courseLeg()).isZero();
        assertThat(route.warnings())
                .extracting(Warning::code)
                .doesNotContain(Warning.Code.CHOICE_MADE, Warning.Code.SHALLOW_INTERCEPT);
    }

    @Test
    void an_assigned_heading_is_flown_first_all_the_same() {
        assertThat(OceanCase.legs(
                        here("fly heading 100, intercept V71, then as filed").work()))
                .startsWith("VI");
    }

    /** A little right of V71, which runs 065 and bends right at KELPY: on 068 one meets the leg behind the bend alone. */
    @ParameterizedTest
    @CsvSource({"068, true", "069, true", "040, false", "100, false"})
    void a_heading_that_leads_beside_it_is_asked_about(String heading, boolean asked) {
        AmendedRoute route = OceanCase.of(
                        NorthernChart.FILED,
                        "fly heading " + heading + ", intercept V71, then as filed",
                        61.905,
                        -32.665)
                .chart(NorthernChart.CHART)
                .altitude(8000)
                .speed(140)
                .heading(65)
                .wind(270, 0)
                .work();
        assertThat(route.warnings().toString().contains("it leads beside it"))
                .as(route.warnings().toString())
                .isEqualTo(asked);
    }

    @Test
    void a_heading_that_leads_off_it_does_not_reach_it_again() {
        AmendedRoute route =
                here("turn right heading 110, intercept V71, then as filed").work();
        assertThat(route.warnings())
                .extracting(Warning::code)
                .contains(Warning.Code.HEADING_DOES_NOT_REACH_COURSE)
                .doesNotContain(Warning.Code.CROSSING_BEHIND);
        assertThat(route.intercept()).isEmpty();
        assertThat(route.headingsThatMeet()).isEmpty();
    }

    @Test
    void a_turn_by_degrees_and_the_heading_it_ends_on_are_one() {
        AmendedRoute route = here("turn left 20 degrees, heading 045").work();
        assertThat(route.heading().orElseThrow().magnetic().deg()).isEqualTo(45);
        assertThatThrownBy(() -> here("turn left 20 degrees heading 090").amended())
                .isInstanceOf(ClearanceException.class)
                .hasMessageContaining("leads to heading 045, not 090");
    }

    @Test
    void what_is_behind_is_not_skipped() {
        assertThat(here("hold at KELPY as published").work().skipped()).isEmpty();
        assertThat(here("direct KIT").work().skipped())
                .extracting(point -> point.ident())
                .containsExactly("KELPY");
    }

    @Test
    void a_report_for_a_fix_that_is_left_out_is_warned_about() {
        assertThat(here("report KELPY, direct KIT").work().warnings())
                .extracting(Warning::code)
                .contains(Warning.Code.REPORT_NOT_ON_ROUTE);
        for (String words : List.of("report KELPY", "report Kittering, direct KIT", "report passing KIT")) {
            assertThat(here(words).work().warnings())
                    .extracting(Warning::code)
                    .doesNotContain(Warning.Code.REPORT_NOT_ON_ROUTE);
        }
    }

    /** P/CG "FLY RUNWAY HEADING": along the extended centerline of the runway of departure; no chart here shows one. */
    @ParameterizedTest
    @ValueSource(strings = {"fly runway heading", "fly runway heading, intercept V71, then as filed"})
    void runway_heading_far_from_any_airport_is_refused(String words) {
        assertThatThrownBy(() -> here(words).amended())
                .isInstanceOf(ClearanceException.class)
                .hasMessageContaining("no runway is known")
                .hasMessageContaining("fly present heading");
    }

    @Test
    void runway_heading_near_an_airport_is_the_heading_flown() {
        AmendedRoute route = OceanCase.of(NorthernChart.FILED, "fly runway heading", 61.42, -34.55)
                .chart(NorthernChart.CHART)
                .heading(65)
                .work();
        assertThat(OceanCase.legs(route)).isEqualTo("VM");
    }
}
