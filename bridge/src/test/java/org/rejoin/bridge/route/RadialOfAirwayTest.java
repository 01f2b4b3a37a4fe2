package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.rejoin.bridge.geo.Position;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A radial that is an airway is that airway as far as its straight leg from the station goes, and a radial beyond. V71 lies
 * on the KIT 255.8 radial from KIT to KELPY, 30.4 NM out, and bends there. Numbers are from Vincenty's formulas with Newton's
 * method and the World Magnetic Model, worked outside the project.
 */
class RadialOfAirwayTest {

    /** Neighbours are alike: each two degrees are two miles of the heading's track. */
    @ParameterizedTest
    @CsvSource({
        "250, 17.974, 53.620, 69.39",
        "252, 19.949, 52.957, 71.38",
        "254, 21.877, 52.374, 73.38",
        "256, 23.766, 51.865, 75.38",
        "258, 25.631, 51.429, 77.38"
    })
    void met_beyond_the_leg_from_its_station_it_is_a_radial(int radial, double ahead, double out, double angle) {
        AmendedRoute route = NorthernChart.hears(
                        "fly heading 350, intercept the KIT " + radial + " radial, then as filed")
                .wind(270, 15)
                .work();
        Intercept met = route.intercept().orElseThrow();
        assertThat(met.distanceNm()).isCloseTo(ahead, within(0.01));
        assertThat(met.position().distanceNm(new Position(62.3, -31.5))).isCloseTo(out, within(0.005));
        assertThat(met.angleDeg()).isCloseTo(angle, within(0.02));
        assertThat(OceanCase.legs(route)).isEqualTo("VI, CF KIT, TF XKIT");
        assertThat(route.notes()).noneSatisfy(note -> assertThat(note).contains("is V71: its leg V71 HAL-WRACK"));
    }

    @Test
    void met_on_that_leg_it_is_the_airway() {
        AmendedRoute route = NorthernChart.hears("fly heading 035, intercept the KIT 256 radial, then as filed")
                .wind(270, 15)
                .work();
        Intercept met = route.intercept().orElseThrow();
        assertThat(met.distanceNm()).isCloseTo(44.994, within(0.02));
        assertThat(met.angleDeg()).isCloseTo(30.39, within(0.02));
        assertThat(OceanCase.legs(route)).isEqualTo("VI, TF V71 KIT, TF XKIT");
    }

    /** V71 leaves HAL on the 069.5 radial; heading 010 meets the 070 radial 7 NM past WRACK, where V71 has bent north. */
    @Test
    void outbound_a_radial_met_beyond_the_bend_leads_nowhere() {
        AmendedRoute route = NorthernChart.hears("fly heading 010, intercept the HAL 070 radial, then as filed")
                .wind(270, 15)
                .work();
        assertThat(route.intercept()).isEmpty();
        assertThat(route.warnings())
                .anySatisfy(warning -> assertThat(warning.text()).contains("does not meet the filed route between HAL"))
                .anySatisfy(
                        warning -> assertThat(warning.text()).contains("meets the HAL 070 radial 6.8 NM past WRACK"));
    }
}
