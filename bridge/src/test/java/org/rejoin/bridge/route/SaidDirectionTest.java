package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Which way along an airway the controller says binds. V23 runs NORDY, KELPY, SUDDY from north to south; numbers are from
 * Vincenty's formulas with Newton's method and the World Magnetic Model, worked outside the project.
 */
class SaidDirectionTest {

    /** Heading 010 meets V23 north of KELPY, 49.67 NM ahead, where the way to KELPY is 154 true. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "fly heading 010, join V23 northbound to KELPY, then as filed",
                "fly heading 010, join V23 northbound, then V71 KIT, then as filed",
                "fly heading 010, intercept V23 northbound, join V23 to KELPY, then as filed",
                "fly heading 010, join V23 northbound, after KELPY, V71 KIT, then as filed"
            })
    void a_heading_that_meets_the_airway_beyond_the_fix_does_not_join_it_northbound(String words) {
        AmendedRoute route = NorthernChart.hears(words).work();
        assertThat(OceanCase.legs(route)).isEqualTo("VI, TF V23 KELPY, TF V71 KIT, TF XKIT");
        assertThat(route.intercept()).isEmpty();
        assertThat(route.legs().get(1).from().orElseThrow().ident()).isEqualTo("SUDDY");
        assertThat(route.warnings()).extracting(Warning::code).contains(Warning.Code.HEADING_DOES_NOT_REACH_COURSE);
    }

    @Test
    void a_heading_that_meets_it_before_the_fix_does() {
        AmendedRoute route = NorthernChart.hears("fly heading 060, join V23 northbound to KELPY, then as filed")
                .work();
        Intercept met = route.intercept().orElseThrow();
        assertThat(met.distanceNm()).isCloseTo(18.033, within(0.005));
        assertThat(met.course().deg()).isCloseTo(350.652, within(0.005));
    }

    @Test
    void southbound_it_is_joined_beyond_the_fix() {
        AmendedRoute route = NorthernChart.hears("fly heading 010, join V23 southbound to KELPY, then as filed")
                .work();
        Intercept met = route.intercept().orElseThrow();
        assertThat(met.distanceNm()).isCloseTo(49.668, within(0.01));
        assertThat(met.course().deg()).isCloseTo(154.329, within(0.005));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "fly heading 060, join V23 northbound to SUDDY | V23 does not lead to SUDDY that way",
                "direct SUDDY, join V23 southbound at SUDDY, V71 KIT, then as filed | V23 does not lead to KELPY that way",
                "direct SUDDY, then V23 southbound KELPY | V23 does not lead to KELPY that way",
                "cleared to SUDDY, join V23 northbound | V23 does not lead to SUDDY that way",
                "intercept the BIT 022 radial outbound, join V23 northbound to KELPY | does not cross V23",
                "fly heading 350, join V71 southwestbound | V71 does not go that way"
            })
    void a_way_that_the_airway_does_not_lead_is_refused(String words, String why) {
        assertThatThrownBy(() -> NorthernChart.hears(words).amended()).hasMessageContaining(why);
    }

    /** Courses over the date line are taken the short way. */
    @Test
    void a_way_is_the_same_across_the_date_line() {
        OceanCase north = OceanCase.of("XWIL DCT WIL V7 TAR V9 OKA DCT XOKA", "join V7 eastbound", -50.9, 179.5)
                .chart(SouthernChart.CHART)
                .heading(0);
        assertThat(OceanCase.legs(north.work())).startsWith("VI, TF V7");
        assertThatThrownBy(() -> OceanCase.of(
                                "XWIL DCT WIL V7 TAR V9 OKA DCT XOKA", "join V7 westbound to TAR", -50.9, 179.5)
                        .chart(SouthernChart.CHART)
                        .heading(0)
                        .amended())
                .hasMessageContaining("V7 does not lead to TAR that way");
    }
}
