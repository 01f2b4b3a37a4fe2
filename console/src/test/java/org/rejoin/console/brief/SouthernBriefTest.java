package org.rejoin.console.brief;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.io.ChartReader;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.bridge.route.Situation;
import org.rejoin.console.words.RouteWords;

import com.fasterxml.jackson.databind.JsonNode;
import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a brief says where declinations are thirty degrees: north of the words is the north of the numbers. */
class SouthernBriefTest {

    private static final String YAML = """
            name: Southern date line
            stations:
              - {ident: WIL, name: Willow, kind: VORTAC, class: H, frequency_mhz: 113.4, latitude_deg: -51.0, longitude_deg: 179.0, declination_deg: 29.0, elevation_ft: 100}
              - {ident: TAR, name: Tarn, kind: VORDME, class: H, frequency_mhz: 114.1, latitude_deg: -50.2, longitude_deg: -179.0, declination_deg: 30.0, elevation_ft: 10}
              - {ident: OKA, name: Oakum, kind: VORTAC, class: H, frequency_mhz: 112.0, latitude_deg: -51.6, longitude_deg: -178.6, declination_deg: 31.5, elevation_ft: 10}
              - {ident: MOR, name: Morrow, kind: VOR, class: L, frequency_mhz: 115.3, latitude_deg: -50.9, longitude_deg: -179.9, declination_deg: 27.0, elevation_ft: 30}
            fixes:
              - {ident: BRINE, latitude_deg: -50.9, longitude_deg: -178.7}
            airways:
              - {ident: V9, points: [TAR, BRINE, OKA], minimum_altitude_ft: 5000}
              - {ident: V5, points: [WIL, MOR], minimum_altitude_ft: 4000}
            """;

    static Brief brief(String clearance, double latitudeDeg, double longitudeDeg)
            throws IOException, ClearanceException {
        Chart chart = ChartReader.read(new ByteArrayInputStream(YAML.getBytes(StandardCharsets.UTF_8)), "south.yaml")
                .chart();
        Situation situation = new Situation(
                new Position(latitudeDeg, longitudeDeg),
                OptionalDouble.of(6000),
                120,
                Optional.of(new MagneticDirection(60)),
                Wind.CALM,
                LocalDate.of(2026, 6, 1));
        return Brief.of(chart, "WIL DCT TAR V9 OKA", clearance, Optional.empty(), situation, List.of());
    }

    static String text(Brief brief) {
        return String.join("\n", BriefText.lines(brief, false, 200));
    }

    /** The 315 radial is north-west by definition: radials are counted from the station's own north. */
    @Test
    void a_hold_lies_where_its_radial_says() throws Exception {
        assertThat(text(brief("direct OKA, hold northwest of OKA on the 315 radial", -51.0, -179.6)))
                .contains("At OKA you hold, north-west of it");
        assertThat(text(brief("direct WIL030030, hold northeast on the 030 radial", -51.0, -179.6)))
                .contains("At WIL030030 you hold, north-east of it");
    }

    /** OKA is on course 104 in still air: 64 degrees right of heading 040, which lies 20 degrees left of the nose. */
    @Test
    void a_direct_when_able_is_turned_to_from_the_heading_until_then() throws Exception {
        assertThat(text(brief("fly heading 040, when able direct OKA", -51.0, -179.6)))
                .contains("from heading 040 turn right by 6")
                .doesNotContain("turn left by 20 degrees to it");
        assertThat(text(brief("direct OKA", -51.0, -179.6))).contains("NM away: turn right by 4");
    }

    /** Who is cleared to a fix and no farther asks for more in time: nothing is as filed from a fix that was not filed. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "direct MOR                                      | MOR",
                "direct WIL, V5 MOR                              | MOR",
                "fly heading 060, intercept V9, direct MOR       | MOR",
                "fly heading 060, intercept V9, V9 BRINE, direct MOR, direct WIL, direct MOR | MOR"
            })
    void a_route_that_ends_at_a_fix_not_filed_says_so(String words, String end) throws Exception {
        Brief brief = brief(words, -51.0, -179.6);
        assertThat(text(brief))
                .contains("Ends         " + end + ": no way on from there is cleared; ask for it before you are there")
                .contains("The cleared route ends at " + end)
                .contains("ROUTE_ENDS_SHORT")
                .doesNotContain("as filed from there");
        JsonNode json = BriefJson.of(brief, false);
        assertThat(json.path("route_ends_at").asText()).isEqualTo(end);
        assertThat(RouteWords.lines(brief.route()))
                .contains("the route ends at " + end + ": ask how it goes on from there");
    }

    @Test
    void a_route_back_on_the_filed_one_ends_where_that_does() throws Exception {
        for (String words :
                List.of("direct MOR, direct TAR", "fly heading 060, intercept V9", "direct MOR, direct OKA")) {
            Brief brief = brief(words, -51.0, -179.6);
            assertThat(BriefJson.of(brief, false).has("route_ends_at"))
                    .as(words)
                    .isFalse();
            assertThat(text(brief)).as(words).doesNotContain("ROUTE_ENDS_SHORT");
        }
        assertThat(text(brief("cleared to MOR via direct", -51.0, -179.6)))
                .as("a clearance limit is said as one")
                .doesNotContain("ROUTE_ENDS_SHORT")
                .contains("Your clearance ends at MOR");
    }

    /** East is 090, and 091 is the nearest of the eight to it. */
    @Test
    void the_aircraft_is_on_the_side_that_its_radial_says() throws Exception {
        assertThat(text(brief("direct OKA", -51.0, -179.6))).contains("east of MOR, on its 091 radial");
    }

    @Test
    void a_radial_points_where_its_number_says() throws Exception {
        assertThat(text(brief("fly heading 030, intercept the MOR 063 radial, join V9, then as filed", -51.0, -179.5)))
                .contains("The MOR 063 radial is a line from MOR toward the north-east");
    }

    /** The 063 radial of a declination of 27 runs 090 true; the way to MOR ends on the second azimuth of the reference. */
    @Test
    void over_a_station_the_turn_onto_its_radial_is_said() throws Exception {
        double arrives = Geodesic.WGS84.Inverse(-51.2, 179.9, -50.9, -179.9).azi2;
        String text = text(brief("direct MOR, depart MOR on the 063 radial, join V9, then as filed", -51.2, 179.9));
        assertThat(text)
                .contains(String.format(
                        Locale.ROOT, "Over MOR     turn right %.0f degrees to 063 FROM MOR", 90 - arrives))
                .contains("set 063 FROM MOR");
    }

    /** The point is 20 NM from WIL on true azimuth 350 + 29 - 360 = 19: 50 41.1 S, 179 10.2 E of the reference geodesic. */
    @Test
    void a_point_that_has_to_be_made_is_said_with_its_place() throws Exception {
        Brief brief = brief("direct the WIL 350 radial 20 mile fix, then direct TAR, then as filed", -51.0, -179.6);
        GeodesicData there = Geodesic.WGS84.Direct(-51.0, 179.0, 19, 20 * 1852);
        JsonNode made = BriefJson.of(brief, false).path("made_fixes");
        assertThat(made).hasSize(1);
        assertThat(made.path(0).path("name").asText()).isEqualTo("WIL350020");
        assertThat(made.path(0).path("latitude_deg").asDouble()).isCloseTo(there.lat2, within(1e-8));
        assertThat(made.path(0).path("longitude_deg").asDouble()).isCloseTo(there.lon2, within(1e-8));
        assertThat(made.path(0).path("definitions").path(0).path("distance_nm").asDouble())
                .isCloseTo(20, within(1e-5));
        assertThat(text(brief))
                .contains("Fix to make")
                .contains(String.format(Locale.ROOT, "%.6f, %.6f degrees", there.lat2, there.lon2))
                .contains("WIL radial 350.0 / 20.0 NM");
    }

    @Test
    void a_station_without_DME_gives_no_miles_to_fly_by() throws Exception {
        assertThat(text(brief("fly heading 030, intercept the MOR 063 radial, join V9, then as filed", -51.0, -179.5)))
                .contains("MOR radial 063.0 (", "NM away; it has no DME)")
                .doesNotContain("MOR radial 063.0 /", "MOR 063 radial at ");
    }
}
