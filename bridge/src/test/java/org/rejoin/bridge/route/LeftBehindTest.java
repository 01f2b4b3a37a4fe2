package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Heading 350 meets the BIT 022 radial 41.95 NM from BIT, a station of class L; the HAL 076 radial crosses it 30.17 NM out.
 * Numbers are from Vincenty's formulas with Newton's method and the World Magnetic Model, worked outside the project.
 */
class LeftBehindTest {

    @ParameterizedTest
    @ValueSource(
            strings = {
                "fly heading 350, intercept the BIT 022 radial until the HAL 076 radial, then direct WRACK, then as filed",
                "fly heading 350, intercept the BIT 022 radial until the HAL 076 radial, then the HAL 076 radial outbound,"
                        + " join V23 to KELPY"
            })
    void a_radial_left_behind_where_it_is_met_is_said(String words) {
        AmendedRoute route = NorthernChart.hears(words).work();
        assertThat(route.warnings())
                .anySatisfy(warning -> {
                    assertThat(warning.code()).isEqualTo(Warning.Code.CROSSING_BEHIND);
                    assertThat(warning.text())
                            .contains("the BIT 022 radial is met 11.8 NM past where it is left", "156 degrees");
                })
                .anySatisfy(warning -> {
                    assertThat(warning.code()).isEqualTo(Warning.Code.OUT_OF_SERVICE_VOLUME);
                    assertThat(warning.text()).contains("BIT 41.9 NM from the station", "(class L) ends at 40 NM");
                });
    }

    @Test
    void said_inbound_it_is_no_surprise() {
        assertThat(NorthernChart.hears("fly heading 350, intercept the BIT 022 radial inbound until the HAL 076 radial,"
                                + " then direct WRACK, then as filed")
                        .work()
                        .warnings())
                .extracting(Warning::code)
                .contains(Warning.Code.STEEP_INTERCEPT, Warning.Code.OUT_OF_SERVICE_VOLUME)
                .doesNotContain(Warning.Code.CROSSING_BEHIND);
    }

    /** The radials cross 82.96 NM from ORM and 46.33 NM from BIT. */
    @Test
    void the_station_that_says_where_a_radial_is_left_has_a_volume_too() {
        assertThat(NorthernChart.hears(
                                "fly heading 010, intercept the ORM 318 radial outbound until the BIT 016 radial, direct KELPY, then as filed")
                        .work()
                        .warnings())
                .extracting(Warning::text)
                .anySatisfy(text -> assertThat(text).contains("uses ORM 83.0 NM"))
                .anySatisfy(text -> assertThat(text).contains("uses BIT 46.3 NM"));
    }

    /** An arc leads onto a radial of its station at a right angle: neither way along it is back. */
    @Test
    void a_radial_met_at_a_right_angle_is_not_behind() {
        assertThat(NorthernChart.hears(
                                "fly heading 270, intercept the HAL 20 mile arc, arc northbound to the HAL 040 radial,"
                                        + " direct WRACK, then as filed")
                        .work()
                        .warnings())
                .extracting(Warning::code)
                .doesNotContain(Warning.Code.CROSSING_BEHIND);
    }
}
