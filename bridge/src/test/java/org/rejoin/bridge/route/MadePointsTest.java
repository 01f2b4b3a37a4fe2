package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Declination;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;

import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Points that no chart has: how they are named, and by what. */
class MadePointsTest {

    private static final double METRES_PER_NM = 1852;

    private static Waypoint first(AmendedRoute route) {
        return route.legs().get(0).endsAt().orElseThrow();
    }

    /**
     * A radial is by its station's declination: true azimuth, here of the reference geodesic from the station along the
     * airway, less the declination. A fix has none; its direction is by today's variation (of the World Magnetic Model,
     * checked against its published test values where it is read).
     */
    @ParameterizedTest
    @CsvSource({
        "north of OKA, -51.6, -178.6, -50.9, -178.7, 31.5",
        "southeast of TAR, -50.2, -179.0, -50.9, -178.7, 30.0",
        "northwest of BRINE, -50.9, -178.7, -50.2, -179.0, "
    })
    void a_point_of_an_airway_is_named_by_the_radial_and_not_by_the_true_azimuth(
            String side,
            double latitude,
            double longitude,
            double towardLatitude,
            double towardLongitude,
            @Nullable Double declination) {
        GeodesicData airway = Geodesic.WGS84.Inverse(latitude, longitude, towardLatitude, towardLongitude);
        double east = declination != null
                ? declination
                : MagneticModel.WMM2025
                        .variation(new Position(latitude, longitude), 6000, LocalDate.of(2026, 6, 1))
                        .eastDeg();
        long radial = Math.round((airway.azi1 - east + 720) % 360);
        Waypoint point = first(SouthernChart.hears("join V9 ten miles " + side + ", then as filed", -51.0, -179.6)
                .work());
        assertThat(point.ident())
                .isEqualTo(side.substring(side.lastIndexOf(' ') + 1) + String.format(Locale.ROOT, "%03d010", radial));
        GeodesicData ten = Geodesic.WGS84.Direct(latitude, longitude, airway.azi1, 10 * METRES_PER_NM);
        assertThat(point.position().distanceNm(new Position(ten.lat2, ten.lon2)))
                .as("ten miles out on the airway")
                .isLessThan(0.01);
    }

    /** From OKA the airway leaves on radial 323: that is north-west, though its true azimuth is 355. */
    @Test
    void the_side_of_a_station_is_named_by_its_radial() {
        assertThat(first(SouthernChart.hears("join V9 ten miles northwest of OKA, then as filed", -51.0, -179.6)
                                .work())
                        .ident())
                .isEqualTo("OKA323010");
        assertThat(first(SouthernChart.hears("join V9 ten miles west of OKA, then as filed", -51.0, -179.6)
                                .work())
                        .ident())
                .as("53 degrees off west by the radial, 85 by true north")
                .isEqualTo("OKA323010");
    }

    /** Radial and declination give the true azimuth: WIL 040 + 29 = 069, MOR 330 + 27 = 357, each of the reference geodesic. */
    @Test
    void a_point_made_where_two_radials_cross_is_said_by_both() {
        AmendedRoute route = SouthernChart.hears(
                        "fly heading 340, intercept the WIL 040 radial until the MOR 330 radial, then direct TAR, then as"
                                + " filed",
                        -51.0,
                        -179.6)
                .work();
        List<MadeFix> made = MadeFix.of(route, SouthernChart.CHART);
        assertThat(made).hasSize(1);
        assertThat(made.get(0).fix().ident()).isEqualTo("WIL040044");
        Position at = made.get(0).fix().position();
        GeodesicData wil = Geodesic.WGS84.Inverse(-51.0, 179.0, at.latitudeDeg(), at.longitudeDeg());
        GeodesicData mor = Geodesic.WGS84.Inverse(-50.9, -179.9, at.latitudeDeg(), at.longitudeDeg());
        assertThat(wil.azi1).isCloseTo(69, within(1e-6));
        assertThat((mor.azi1 + 360) % 360).isCloseTo(357, within(1e-6));
        assertThat(made.get(0).definitions())
                .extracting(way -> way.from().ident())
                .containsExactly("WIL", "MOR");
        assertThat(made.get(0).definitions().get(0).radial().deg()).isCloseTo(40, within(1e-6));
        assertThat(made.get(0).definitions().get(0).distanceNm()).isCloseTo(wil.s12 / METRES_PER_NM, within(1e-6));
        assertThat(made.get(0).definitions().get(1).radial().deg()).isCloseTo(330, within(1e-6));
        assertThat(made.get(0).definitions().get(1).byDme())
                .as("a VOR alone shows no miles")
                .isFalse();
    }

    @Test
    void points_of_the_chart_are_not_made() {
        assertThat(MadeFix.of(SouthernChart.hears("direct TAR", -51.0, -179.6).work(), SouthernChart.CHART))
                .isEmpty();
    }

    /** The pilot reads the distance off the DME, and that stands where its own antenna is. */
    @Test
    void the_miles_of_a_computed_fix_are_those_of_the_DME() {
        Station vor = OceanCase.AAA;
        GeodesicData apart = Geodesic.WGS84.Direct(38.0, -55.0, 200, 0.43 * METRES_PER_NM);
        Station apartDme = new Station(
                vor.ident(),
                vor.name(),
                vor.kind(),
                vor.serviceClass(),
                vor.frequencyMhz(),
                vor.position(),
                Optional.of(new Declination(-18)),
                OptionalDouble.of(0),
                Optional.of(new Position(apart.lat2, apart.lon2)));
        Chart chart = new Chart(
                "DME apart",
                List.of(apartDme, OceanCase.BBB, OceanCase.CCC, OceanCase.DDD),
                List.of(),
                List.of(OceanCase.XCCC, OceanCase.XDDD),
                List.of(OceanCase.airway("V40", 4000, OceanCase.CCC, OceanCase.DDD)));
        AmendedRoute route = OceanCase.of(
                        OceanCase.ON_V40,
                        "fly heading 060, intercept the AAA 078 radial, join V40, then as filed",
                        38.0,
                        -54.9)
                .chart(chart)
                .work();
        ComputedFix fix = route.computedFix().orElseThrow();
        Position at = fix.fix().position();
        double byDme =
                Geodesic.WGS84.Inverse(apart.lat2, apart.lon2, at.latitudeDeg(), at.longitudeDeg()).s12 / METRES_PER_NM;
        double byVor = Geodesic.WGS84.Inverse(38.0, -55.0, at.latitudeDeg(), at.longitudeDeg()).s12 / METRES_PER_NM;
        assertThat(byDme - byVor).as("the test tells them apart").isGreaterThan(0.2);
        assertThat(fix.definitions().get(0).distanceNm()).isCloseTo(byDme, within(1e-6));
        assertThat(fix.fix().ident()).isEqualTo(String.format(Locale.ROOT, "AAA078%03d", Math.round(byDme)));
    }

    /** Radial 090 of WIL is 119 true from the VOR; the arc is 15 NM about the DME: where both hold, the arc ends. */
    @Test
    void an_arc_about_a_DME_that_stands_apart_ends_on_the_radial_of_the_VOR() {
        GeodesicData apart = Geodesic.WGS84.Direct(-51.0, 179.0, 30, 0.43 * METRES_PER_NM);
        Chart chart = apart(apart);
        AmendedRoute route = OceanCase.of(
                        "WIL DCT XOKA",
                        "fly heading 030, intercept the WIL 15 mile arc, arc clockwise to the WIL 090 radial, then direct"
                                + " XOKA",
                        -51.1,
                        179.1)
                .chart(chart)
                .work();
        Leg.DmeArc arc = (Leg.DmeArc) route.legs().get(1);
        assertThat(arc.to().ident()).isEqualTo("WIL090015");
        Position at = arc.to().position();
        assertThat(Geodesic.WGS84.Inverse(-51.0, 179.0, at.latitudeDeg(), at.longitudeDeg()).azi1)
                .isCloseTo(119, within(1e-6));
        assertThat(Geodesic.WGS84.Inverse(apart.lat2, apart.lon2, at.latitudeDeg(), at.longitudeDeg()).s12
                        / METRES_PER_NM)
                .isCloseTo(15, within(1e-6));
        assertThat(arc.toRadial().deg()).isCloseTo(90, within(1e-6));
    }

    private static Chart apart(GeodesicData dme) {
        Chart plain = SouthernChart.CHART;
        List<Station> stations = plain.stations().stream()
                .map(station -> station.ident().equals("WIL")
                        ? new Station(
                                "WIL",
                                "Willow",
                                station.kind(),
                                station.serviceClass(),
                                OptionalDouble.of(113.4),
                                station.position(),
                                station.declination(),
                                OptionalDouble.of(100),
                                Optional.of(new Position(dme.lat2, dme.lon2)))
                        : station)
                .toList();
        return new Chart("apart", stations, plain.fixes(), plain.airports(), List.of());
    }

    @Test
    void a_point_said_by_radial_and_distance_is_where_the_DME_reads_it() {
        GeodesicData apart = Geodesic.WGS84.Direct(-51.0, 179.0, 100, 0.43 * METRES_PER_NM);
        Chart chart = apart(apart);
        Position at = first(OceanCase.of("WIL DCT XOKA", "direct the WIL 350 radial 20 mile fix", -51.0, -179.6)
                        .chart(chart)
                        .work())
                .position();
        GeodesicData dme = Geodesic.WGS84.Inverse(apart.lat2, apart.lon2, at.latitudeDeg(), at.longitudeDeg());
        GeodesicData vor = Geodesic.WGS84.Inverse(-51.0, 179.0, at.latitudeDeg(), at.longitudeDeg());
        assertThat(dme.s12 / METRES_PER_NM).isCloseTo(20, within(1e-6));
        assertThat(vor.azi1).as("radial 350, declination 29 east").isCloseTo(19, within(1e-6));
    }
}
