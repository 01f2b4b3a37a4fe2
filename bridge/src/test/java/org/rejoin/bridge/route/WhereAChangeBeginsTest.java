package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.GroundPath;

import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * A change of the route begins where the old and the new routing part (FAA Order JO 7110.65, 4-2-5 a: the changed portion is
 * said, the rest is as it was). What leads from a fix leads over it, wherever the aircraft is.
 */
class WhereAChangeBeginsTest {

    private static final double METRES_PER_NM = 1852;

    /** Ten miles before WIL on the filed direct from XWIL. */
    private static OceanCase beforeWil(String words) {
        GeodesicData toWil = Geodesic.WGS84.Inverse(-51.0, 179.0, -51.2, 178.7);
        GeodesicData at = Geodesic.WGS84.Direct(-51.0, 179.0, toWil.azi1, 10 * METRES_PER_NM);
        return SouthernChart.hears(words, at.lat2, at.lon2);
    }

    /** Ten miles past WIL on V7. */
    private static OceanCase pastWil(String words) {
        GeodesicData onward = Geodesic.WGS84.Inverse(-51.0, 179.0, -50.45, 179.9);
        GeodesicData at = Geodesic.WGS84.Direct(-51.0, 179.0, onward.azi1, 10 * METRES_PER_NM);
        return SouthernChart.hears(words, at.lat2, at.lon2);
    }

    private static List<String> choices(AmendedRoute route) {
        return route.warnings().stream()
                .filter(warning -> warning.code() == Warning.Code.CHOICE_MADE)
                .map(Warning::text)
                .toList();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "change V7 TAR V9 OKA to read V5 BRINE V9 OKA",
                "cleared via V5 BRINE V9 OKA, rest of route unchanged",
                "after WIL, V5 BRINE, V9 OKA, then as filed"
            })
    void an_airway_begins_where_it_leaves_the_filed_route(String words) {
        AmendedRoute route = beforeWil(words).work();
        assertThat(OceanCase.legs(route)).isEqualTo("TF WIL, TF V5 MOR, TF V5 BRINE, TF V9 OKA, TF XOKA");
        assertThat(route.skipped()).extracting(Waypoint::ident).containsExactly("KELPY", "TAR");
        assertThat(route.joinedAirway()).contains("V5");
        assertThat(choices(route)).isEmpty();
        assertThat(route.legs().get(0).groundPath().orElseThrow().lengthNm()
                        - route.legs().get(0).joinedAtNm())
                .as("still to fly to WIL")
                .isCloseTo(10, within(1e-4));
    }

    /** V88 meets the filed route at BBB, ahead; nobody assigned the heading that leads to it across. */
    @Test
    void an_airway_that_is_met_ahead_on_the_route_is_not_joined_across_without_a_word() {
        assertThat(choices(OceanCase.of(OceanCase.ON_V31, "via V88 BBB, then as filed", 38.5, -54.41)
                        .heading(80)
                        .work()))
                .singleElement()
                .asString()
                .contains("no heading is assigned", "leaves the filed route here");
    }

    @Test
    void a_direct_begins_where_the_old_portion_began() {
        AmendedRoute route =
                beforeWil("change V7 TAR to read direct MOR, direct TAR").work();
        assertThat(OceanCase.legs(route)).isEqualTo("TF WIL, TF MOR, TF TAR, TF V9 BRINE, TF V9 OKA, TF XOKA");
        assertThat(OceanCase.legs(beforeWil("change V9 OKA to read direct OKA").work()))
                .as("two fixes on")
                .isEqualTo("TF WIL, TF V7 KELPY, TF V7 TAR, TF OKA, TF XOKA");
    }

    @Test
    void past_the_place_a_direct_is_flown_from_here_and_an_airway_is_met_on_a_heading() {
        AmendedRoute direct =
                pastWil("change V7 TAR to read direct MOR, direct TAR").work();
        assertThat(OceanCase.legs(direct)).startsWith("DF MOR, TF TAR");
        assertThat(choices(direct)).anyMatch(text -> text.startsWith("WIL lies behind you on the filed route"));
        assertThat(OceanCase.legs(pastWil("change V7 TAR V9 OKA to read V7 KELPY, direct BRINE, V9 OKA")
                        .work()))
                .as("along the airway that is kept, and not back to where it began")
                .isEqualTo("TF V7 KELPY, TF BRINE, TF V9 OKA, TF XOKA");
        assertThat(OceanCase.legs(pastWil("fly heading 120, change V7 TAR V9 OKA to read V5 BRINE V9 OKA")
                        .work()))
                .startsWith("VI");
    }

    /** Far off the route, nearer to what comes after WIL: the way is over WIL all the same, and the warning says so. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "depart WIL on the 062 radial, join V9, then as filed | DF WIL, FC WIL062",
                "depart WIL heading 120                               | DF WIL, VM",
                "after WIL, direct BRINE, V9 OKA, then as filed       | DF WIL, TF BRINE, TF V9 OKA",
                "hold at WIL                                          | DF WIL, HM",
                "cleared to WIL                                       | DF WIL"
            })
    void what_leads_from_a_fix_leads_over_it(String words, String legs) {
        AmendedRoute route = SouthernChart.hears(words, -51.1, 179.8).work();
        assertThat(OceanCase.legs(route)).startsWith(legs);
        assertThat(choices(route))
                .anySatisfy(text -> assertThat(text).contains("worked out here: direct WIL, where it leads. Ask."));
        GeodesicData reference = Geodesic.WGS84.Inverse(-51.1, 179.8, -51.0, 179.0);
        GroundPath direct = route.legs().get(0).groundPath().orElseThrow();
        assertThat(direct.lengthNm()).isCloseTo(reference.s12 / METRES_PER_NM, within(1e-6));
        assertThat(direct.finalCourse().deg()).isCloseTo((reference.azi2 + 360) % 360, within(1e-6));
        assertThat(route.skipped()).doesNotContain(route.filed().points().get(1));
    }

    @Test
    void over_the_fix_it_is_departed_at_once() {
        assertThat(OceanCase.legs(
                        SouthernChart.hears("depart WIL on the 062 radial, join V9, then as filed", -51.0, 179.0)
                                .work()))
                .startsWith("FC WIL062");
        assertThat(OceanCase.legs(SouthernChart.hears("after WIL, direct TAR", -51.0, 179.0)
                        .work()))
                .startsWith("TF TAR");
    }

    @Test
    void back_to_a_fix_behind_is_said() {
        AmendedRoute route = pastWil("hold at WIL").work();
        assertThat(OceanCase.legs(route)).isEqualTo("DF WIL, HM");
        assertThat(choices(route)).anyMatch(text -> text.startsWith("WIL lies behind you on the filed route"));
    }

    @Test
    void a_heading_before_it_is_flown_until_the_route_is_gone_on_with() {
        assertThat(choices(beforeWil("fly heading 150, after WIL, direct MOR, direct TAR")
                        .work()))
                .anyMatch(text -> text.startsWith("heading 150 is flown until you are told to go on to WIL"));
    }
}
