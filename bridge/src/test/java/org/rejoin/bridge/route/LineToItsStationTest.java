package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;

import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;

import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** A radial or a bearing that is flown to its station, and from there on as said (FAA Order JO 7110.65, 4-4-1 and 5-6-2). */
class LineToItsStationTest {

    private static final double METRES_PER_NM = 1852;

    /**
     * The true azimuth of the line at its station, by hand: MOR 200 + 27 = 227 by its declination; NB 230 and today's
     * variation of the World Magnetic Model, of which the published test values are checked where it is read. Where the
     * heading meets the line and how far it is to the station is held against the reference geodesic.
     */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "fly heading 280, intercept the MOR 200 radial inbound, after MOR direct BRINE, V9 OKA, then as filed | MOR | BRINE",
                "fly heading 280, intercept the MOR 200 radial inbound, direct BRINE, V9 OKA, then as filed | MOR | BRINE",
                "fly heading 280, intercept the MOR 200 radial, at MOR direct BRINE, V9 OKA, then as filed | MOR | BRINE",
                "fly heading 280, intercept the 230 bearing from NB inbound, after NB direct BRINE, V9 OKA, then as filed | NB | BRINE",
                "fly heading 280, intercept the 050 bearing to NB, then direct BRINE, V9 OKA, then as filed | NB | BRINE"
            })
    void is_left_there_for_the_next_fix(String words, String station, String next) {
        boolean vor = station.equals("MOR");
        double latitude = vor ? -50.9 : -51.3;
        double longitude = vor ? -179.9 : -179.7;
        double azimuth = vor
                ? 227
                : 230
                        + MagneticModel.WMM2025
                                .variation(new Position(latitude, longitude), 0, LocalDate.of(2026, 6, 1))
                                .eastDeg();
        AmendedRoute route =
                SouthernChart.hears(words, latitude - 0.25, longitude - 0.1).work();
        assertThat(OceanCase.legs(route)).isEqualTo("VI, CF " + station + ", TF " + next + ", TF V9 OKA, TF XOKA");
        Position met = route.intercept().orElseThrow().position();
        GeodesicData out = Geodesic.WGS84.Inverse(latitude, longitude, met.latitudeDeg(), met.longitudeDeg());
        assertThat((out.azi1 + 360) % 360).isCloseTo(azimuth, within(1e-6));
        assertThat(length(route.legs().get(1))).isCloseTo(out.s12 / METRES_PER_NM, within(1e-6));
        GeodesicData on = Geodesic.WGS84.Inverse(latitude, longitude, -50.9, -178.7);
        assertThat(length(route.legs().get(2))).isCloseTo(on.s12 / METRES_PER_NM, within(1e-6));
        assertThat(route.course().orElseThrow().direction()).isEqualTo(Course.Direction.TO);
        assertThat(route.warnings()).extracting(Warning::code).doesNotContain(Warning.Code.CHOICE_MADE);
    }

    private static double length(Leg leg) {
        return leg.groundPath().map(GroundPath::lengthNm).orElseThrow();
    }

    @Test
    void a_direct_to_its_own_station_is_the_way_along_it() {
        assertThat(OceanCase.legs(SouthernChart.hears(
                                "fly heading 280, intercept the MOR 200 radial, direct MOR, V5 BRINE, V9 OKA, then as filed",
                                -51.15,
                                -180.0)
                        .work()))
                .isEqualTo("VI, CF MOR, TF V5 BRINE, TF V9 OKA, TF XOKA");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "fly heading 280, intercept the MOR 200 radial, direct BRINE",
                "fly heading 280, intercept the MOR 200 radial outbound, direct BRINE"
            })
    void where_it_is_left_for_another_fix_is_to_be_said(String words) {
        assertThatThrownBy(() -> SouthernChart.hears(words, -51.15, -180.0).amended())
                .hasMessageContaining("where the radial or bearing is left for direct BRINE is not said")
                .hasMessageContaining("say \"until\" a radial, a distance or a fix");
    }

    @Test
    void a_fix_on_it_where_it_is_left_is_kept() {
        assertThatThrownBy(() -> SouthernChart.hears(
                                "fly heading 280, intercept the MOR 200 radial, after TAR, direct BRINE",
                                -51.15,
                                -180.0)
                        .amended())
                .hasMessageContaining("TAR lies")
                .hasMessageContaining("off the MOR 200 radial");
    }
}
