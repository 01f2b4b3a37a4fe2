package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;

import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;

import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * A station departed on a line of its own, how far it is followed, and a hold along it (FAA Order JO 7110.65, 4-4-1, 4-6-4;
 * Aeronautical Information Manual 5-3-8). Places are held against the reference geodesic.
 */
class DepartedOnALineTest {

    private static final double METRES_PER_NM = 1852;

    private static OceanCase from(String words) {
        return SouthernChart.hears(words, -51.15, 179.2);
    }

    private static double awayNm(Position point, GeodesicData there) {
        return point.distanceNm(new Position(there.lat2, there.lon2));
    }

    /** WIL 150 + 29 = 179 true; NB 075 and today's variation. The end of a line until ATC says more is not known. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "direct WIL, depart WIL on the 150 radial | WIL",
                "direct WIL, then the WIL 150 radial outbound | WIL",
                "direct NB, depart Nimbus on the 075 bearing | NB",
                "direct NB, after NB, intercept the 075 bearing from NB | NB"
            })
    void is_followed_until_atc_says_more(String words, String station) {
        boolean vor = station.equals("WIL");
        double latitude = vor ? -51.0 : -51.3;
        double longitude = vor ? 179.0 : -179.7;
        double azimuth = vor
                ? 179
                : 75
                        + MagneticModel.WMM2025
                                .variation(new Position(latitude, longitude), 0, LocalDate.of(2026, 6, 1))
                                .eastDeg();
        AmendedRoute route = from(words).work();
        assertThat(OceanCase.legs(route)).isEqualTo("DF " + station + ", FM");
        assertThat(route.departsOnRadial()).isTrue();
        assertThat(route.openEnd()).as("it leads to no fix").isEmpty();
        GeodesicData forty = Geodesic.WGS84.Direct(latitude, longitude, azimuth, 40 * METRES_PER_NM);
        assertThat(awayNm(route.legs().get(1).line().orElseThrow().pointAt(40), forty))
                .isLessThan(1e-3);
    }

    /** Twenty miles out on the true azimuth of the radial is where it is left. */
    @Test
    void a_radial_is_left_at_its_distance() {
        AmendedRoute route = from("direct WIL, depart WIL on the 075 radial until 20 DME, direct OKA, then as filed")
                .work();
        assertThat(OceanCase.legs(route)).isEqualTo("DF WIL, FC WIL075020, TF OKA, TF XOKA");
        GeodesicData twenty = Geodesic.WGS84.Direct(-51.0, 179.0, 104, 20 * METRES_PER_NM);
        assertThat(awayNm(route.legs().get(1).endsAt().orElseThrow().position(), twenty))
                .isLessThan(1e-3);
        GeodesicData on = Geodesic.WGS84.Inverse(twenty.lat2, twenty.lon2, -51.6, -178.6);
        assertThat(route.legs().get(2).groundPath().orElseThrow().lengthNm())
                .isCloseTo(on.s12 / METRES_PER_NM, within(1e-3));
        AmendedRoute open =
                from("direct WIL, depart WIL on the 075 radial until 20 DME").work();
        assertThat(open.openEnd()).map(point -> point.ident()).contains("WIL075020");
    }

    /** Toward WIL along its own radial: 075 + 180 = 255 to set, 255 + 29 = 284 true less what the meridians turn. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "direct WIL, depart WIL on the 075 radial until 20 DME, hold west on the WIL 075 radial at 20 DME",
                "direct WIL, depart WIL on the 075 radial, hold west on the WIL 075 radial at 20 DME",
                "direct WIL, then the WIL 075 radial outbound, hold west on the WIL 075 radial at 20 DME",
                "direct WIL075020, hold west on the 075 radial of WIL at the 20 DME fix"
            })
    void a_hold_at_a_distance_is_flown_along_its_radial(String words) {
        AmendedRoute route = from(words).work();
        Holding hold = route.holding().orElseThrow();
        GeodesicData twenty = Geodesic.WGS84.Direct(-51.0, 179.0, 104, 20 * METRES_PER_NM);
        assertThat(awayNm(hold.fix().position(), twenty)).isLessThan(1e-3);
        assertThat(hold.inbound().deg())
                .as("west of the fix is the side of WIL: inbound is away from it")
                .isEqualTo(75);
        assertThat(hold.inboundTrue().deg()).isCloseTo((twenty.azi2 + 360) % 360, within(0.01));
        assertThat(route.legs()).last().isInstanceOf(Leg.HoldAtFix.class);
    }

    @Test
    void what_is_not_said_of_a_hold_is_asked_for() {
        assertThatThrownBy(() -> from("hold ten miles south of WIL").amended())
                .hasMessageContaining("on which line that is is not said")
                .hasMessageContaining("hold south on the 180 radial of WIL at ten DME");
        assertThatThrownBy(() -> from("direct KELPY, at OKA hold as published").amended())
                .hasMessageContaining("the chart shows no holding pattern at OKA");
        assertThatThrownBy(() -> from("direct KELPY, at MOR hold south").amended())
                .hasMessageContaining("MOR, where to hold, is not on the amended route");
    }

    @Test
    void two_lines_need_the_place_where_the_first_is_left() {
        assertThatThrownBy(() -> from("intercept the WIL 075 radial and the MOR 200 radial")
                        .amended())
                .hasMessageContaining("does not say where the first is left")
                .hasMessageContaining("until\" the other, a distance or a fix");
        assertThatThrownBy(() -> from("depart Nimbus on the 075 bearing, join V9, then as filed")
                        .amended())
                .hasMessageContaining("say for example \"direct NB\"");
    }
}
