package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;

import org.rejoin.bridge.geo.GeodesicLine;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * A vector onto a radial or a bearing with nothing said after it (FAA Order JO 7110.65, 5-6-2), and a radial that is the way to
 * a fix (4-4-1).
 */
class RadialAloneTest {

    private static AmendedRoute on(String filed, String words, double latitude, double longitude) {
        return OceanCase.of(filed, words, latitude, longitude).work();
    }

    private static List<Warning.Code> warnings(AmendedRoute route) {
        return route.warnings().stream().map(Warning::code).toList();
    }

    /** Pilot/Controller Glossary: inbound is toward the station. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "fly heading 100, intercept the BBB 220 radial inbound",
                "fly heading 100, intercept the 040 course to BBB"
            })
    void inbound_leads_to_the_station_and_ends_there(String words) {
        AmendedRoute route = on(OceanCase.ON_V40, words, 38.2, -55.2);
        assertThat(OceanCase.legs(route)).isEqualTo("VI, CF BBB");
        assertThat(route.openEnd()).contains(OceanCase.BBB);
        assertThat(warnings(route)).contains(Warning.Code.ROUTE_ENDS_SHORT);
        assertThat(OceanCase.legs(on(OceanCase.ON_V40, words + ", join V40, then as filed", 38.2, -55.2)))
                .contains("V40 DDD");
    }

    @Test
    void outbound_and_meeting_nothing_filed_it_is_flown_until_more_is_said() {
        AmendedRoute route =
                on(OceanCase.ON_V31, "fly heading 180, intercept the AAA 140 radial outbound", 38.0, -54.7);
        assertThat(OceanCase.legs(route)).isEqualTo("VI, FM");
        assertThat(route.intercept()).isPresent();
        assertThat(route.course().orElseThrow().direction()).isEqualTo(Course.Direction.FROM);
        assertThat(warnings(route)).contains(Warning.Code.ROUTE_ENDS_SHORT);
    }

    @Test
    void where_it_meets_the_filed_route_that_is_taken_and_said() {
        AmendedRoute alone = on(OceanCase.ON_V40, "fly heading 110, intercept the AAA 078 radial", 38.2, -55.0);
        AmendedRoute asFiled =
                on(OceanCase.ON_V40, "fly heading 110, intercept the AAA 078 radial, then as filed", 38.2, -55.0);
        assertThat(OceanCase.legs(alone)).isEqualTo(OceanCase.legs(asFiled)).contains("DDD");
        assertThat(alone.notes()).anyMatch(note -> note.contains("nothing is said after"));
        assertThat(asFiled.notes()).noneMatch(note -> note.contains("nothing is said after"));
    }

    /** EARLY is 38 NM from AAA; by hand its azimuth is that of the line, and the radial said is the nearest whole degree. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "proceed to EARLY via the AAA %s radial | VI, FC EARLY",
                "proceed direct EARLY via the AAA %s radial | VI, FC EARLY",
                "cleared to EARLY via the AAA %s radial | VI, FC EARLY",
                "cleared to EARLY via the AAA %s radial, hold west | VI, FC EARLY, HM"
            })
    void a_radial_is_the_way_to_a_fix_on_it(String words, String legs) {
        double azimuth = GeodesicLine.between(OceanCase.AAA.position(), OceanCase.EARLY.position())
                .initialCourse()
                .deg();
        String radial = String.format(Locale.ROOT, "%03d", Math.round(azimuth + 18));
        AmendedRoute route = on(OceanCase.ON_V40, words.formatted(radial), 37.9, -54.9);
        assertThat(OceanCase.legs(route)).isEqualTo(legs);
    }

    /** FAA Order JO 7110.65, 4-6-1: the hold is at the clearance limit. */
    @Test
    void a_hold_behind_the_way_to_the_limit_is_at_the_limit() {
        AmendedRoute route =
                on(OceanCase.ON_V31, "cleared to BBB via direct AAA, V31, hold southwest on V31", 37.8, -55.2);
        assertThat(OceanCase.legs(route)).isEqualTo("DF AAA, TF V31 BBB, HM");
        assertThat(route.holding().orElseThrow().fix()).isEqualTo(OceanCase.BBB);
    }
}
