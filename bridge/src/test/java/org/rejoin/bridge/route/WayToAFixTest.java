package org.rejoin.bridge.route;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.io.ChartReader;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The way to a fix, said behind it; an airway to the clearance limit; a published fix where a radial leads to the airway. */
class WayToAFixTest {

    private static final String FILED = "XKIT DCT KIT V50 MUR DCT XMUR";

    /** EPITA lies where it is put: 45.0, -39.3 on the chart as it is drawn, or where the ORC 010 radial crosses V50. */
    private static final String YAML = """
            name: Western ocean
            stations:
              - {ident: KIT, name: Kittiwake, kind: VORTAC, class: H, frequency_mhz: 114.2, latitude_deg: 45.0, longitude_deg: -40.0, declination_deg: -13.0, elevation_ft: 0}
              - {ident: EID, name: Eider, kind: VORDME, class: VH, frequency_mhz: 112.9, latitude_deg: 45.0, longitude_deg: -38.5, declination_deg: -15.0, elevation_ft: 0}
              - {ident: MUR, name: Murre, kind: VORTAC, class: H, frequency_mhz: 116.1, latitude_deg: 44.2, longitude_deg: -37.4, declination_deg: -14.0, elevation_ft: 0}
              - {ident: ORC, name: Orca, kind: VORDME, class: H, frequency_mhz: 113.6, latitude_deg: 44.5, longitude_deg: -39.5, declination_deg: -14.0, elevation_ft: 0}
            fixes:
              - {ident: EPITA, latitude_deg: %s, longitude_deg: %s}
              - {ident: SOLAN, latitude_deg: 44.6, longitude_deg: -37.9}
              - {ident: GANEX, latitude_deg: 44.4, longitude_deg: -38.6}
            airports:
              - {ident: XKIT, name: Kittiwake Field, latitude_deg: 45.1, longitude_deg: -40.4, elevation_ft: 20}
              - {ident: XMUR, name: Murre Island, latitude_deg: 44.0, longitude_deg: -37.1, elevation_ft: 20}
            airways:
              - {ident: V50, points: [KIT, EPITA, EID, SOLAN, MUR], minimum_altitude_ft: 5000}
            """;

    private static final Chart CHART = chart("45.0", "-39.3");

    private static Chart chart(String latitude, String longitude) {
        String yaml = YAML.formatted(latitude, longitude);
        try {
            return ChartReader.read(new ByteArrayInputStream(yaml.getBytes(StandardCharsets.UTF_8)), "west.yaml")
                    .chart();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Heading 090 makes good 083 true: V50 is met 65 NM ahead, beyond EID. */
    private static OceanCase hears(String words) {
        return OceanCase.of(FILED, words, 44.8, -39.9)
                .chart(CHART)
                .altitude(8000)
                .speed(140)
                .heading(90)
                .wind(300, 20);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "direct MUR via GANEX, direct XMUR | DF GANEX, TF MUR, TF XMUR",
                "direct GANEX via EID, direct MUR | DF EID, TF GANEX, TF MUR, TF XMUR",
                "proceed direct EID via EPITA | DF EPITA, TF EID, TF V50 SOLAN, TF V50 MUR, TF XMUR",
                "direct EID via direct EPITA | DF EPITA, TF EID, TF V50 SOLAN, TF V50 MUR, TF XMUR",
                "proceed to EID via V50 | VI, TF V50 EPITA, TF V50 EID, TF V50 SOLAN, TF V50 MUR, TF XMUR",
                "proceed to EID via V50 EID | VI, TF V50 EPITA, TF V50 EID, TF V50 SOLAN, TF V50 MUR, TF XMUR",
                "proceed to MUR via V50 SOLAN | VI, TF V50 SOLAN, TF MUR, TF XMUR",
                "direct GANEX via EPITA V50 EID, direct MUR | DF EPITA, TF V50 EID, TF GANEX, TF MUR, TF XMUR"
            })
    void to_a_fix_via_another_the_other_comes_first(String words, String legs) {
        assertThat(OceanCase.legs(hears(words).work())).isEqualTo(legs);
    }

    /** What leads on from a fix stays behind it, and so does what a comma parts from it. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "direct EPITA via V50 EID | DF EPITA, TF V50 EID, TF V50 SOLAN, TF V50 MUR, TF XMUR",
                "direct EPITA, via V50 EID | DF EPITA, TF V50 EID, TF V50 SOLAN, TF V50 MUR, TF XMUR",
                "direct EID, via GANEX, direct MUR | DF EID, TF GANEX, TF MUR, TF XMUR",
                "direct EID then via GANEX, direct MUR | DF EID, TF GANEX, TF MUR, TF XMUR"
            })
    void what_goes_on_from_a_fix_comes_after_it(String words, String legs) {
        assertThat(OceanCase.legs(hears(words).work())).isEqualTo(legs);
    }

    @Test
    void the_turn_that_is_said_begins_the_way() {
        AmendedRoute route = hears("turn right direct EID via EPITA").work();
        assertThat(OceanCase.legs(route)).startsWith("DF EPITA, TF EID");
        assertThat(route.turn().orElseThrow().right()).isTrue();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "cleared to EPITA via V50 | VI, TF V50 EPITA",
                "cleared to EID via V50 | VI, TF V50 EPITA, TF V50 EID"
            })
    void on_a_heading_nobody_assigned_an_airway_is_joined_before_the_clearance_limit(String words, String legs) {
        AmendedRoute route = hears(words).work();
        assertThat(OceanCase.legs(route)).isEqualTo(legs);
        assertThat(route.heading().orElseThrow().origin()).isEqualTo(HeadingPlan.Origin.PROPOSED);
        assertThat(route.intercept()).isPresent();
        assertThat(route.notes()).anyMatch(note -> note.contains("another is proposed"));
    }

    /** An order is kept, and said not to lead there; the route ends at the limit all the same. */
    @Test
    void an_assigned_heading_does_not_join_it_beyond_the_limit() {
        AmendedRoute route = hears("fly heading 090, cleared to EPITA via V50").work();
        assertThat(OceanCase.legs(route)).isEqualTo("VI, TF V50 EPITA");
        assertThat(route.intercept()).isEmpty();
        assertThat(route.warnings()).extracting(Warning::code).contains(Warning.Code.HEADING_DOES_NOT_REACH_COURSE);
    }

    /** The ORC 010 radial, 356 true, crosses the geodesic from KIT to EID at 45.00207, -39.549484; 0.001 of longitude is 0.04 NM. */
    @ParameterizedTest
    @ValueSource(strings = {"-39.5494837", "-39.5490139", "-39.5514837"})
    void a_published_fix_where_the_radial_crosses_the_airway_is_the_fix(String longitude) {
        Chart near = chart("45.00207", longitude);
        AmendedRoute route = hears("fly heading 060, intercept the ORC 010 radial, join V50, then as filed")
                .chart(near)
                .work();
        assertThat(OceanCase.legs(route)).isEqualTo("VI, FC EPITA, TF V50 EID, TF V50 SOLAN, TF V50 MUR, TF XMUR");
        assertThat(route.computedFix()).isEmpty();
        assertThat(MadeFix.of(route, near)).isEmpty();
        assertThat(route.warnings()).isEmpty();
        assertThat(route.notes()).anyMatch(note -> note.contains("EPITA, which is published there"));
    }

    /** 0.3 NM beyond the crossing, as far as 0.00705 of longitude here. */
    @Test
    void one_that_is_farther_away_is_not() {
        AmendedRoute route = hears("fly heading 060, intercept the ORC 010 radial, join V50, then as filed")
                .chart(chart("45.0020883", "-39.5424369"))
                .work();
        assertThat(route.computedFix()).isPresent();
        assertThat(route.legs().get(2).groundPath().orElseThrow().lengthNm()).isCloseTo(0.3, within(0.005));
    }

    /** "Via (airway)" leads to the limit (FAA Order JO 7110.65, 4-4-1), also where the airway is filed to begin there. */
    @Test
    void an_airway_leads_to_the_limit_on_it() {
        AmendedRoute route = hears("fly heading 030, cleared to KIT via V50").work();
        assertThat(OceanCase.legs(route)).isEqualTo("VI, TF V50 KIT");
        assertThat(route.limit().orElseThrow().ident()).isEqualTo("KIT");
        assertThat(route.warnings()).extracting(Warning::code).doesNotContain(Warning.Code.CHOICE_MADE);
    }

    /** The ORC 060 radial crosses V50 between EPITA and EID: beyond a limit at EPITA it is flown back, and that is said. */
    @Test
    void an_airway_met_beyond_the_limit_leads_back_to_it() {
        AmendedRoute route = hears("cleared to EPITA, fly heading 090, intercept the ORC 060 radial outbound, join V50")
                .work();
        assertThat(OceanCase.legs(route)).matches("VI, FC ORC060\\d+, TF V50 EPITA");
        assertThat(route.warnings())
                .filteredOn(warning -> warning.code() == Warning.Code.CHOICE_MADE)
                .extracting(Warning::text)
                .containsExactly(
                        "V50 is met beyond EPITA, the clearance limit, and flown back to it: ask if that is meant");
        assertThat(hears("cleared to EPITA, fly heading 090, intercept the ORC 007 radial outbound, join V50")
                        .work()
                        .warnings())
                .extracting(Warning::code)
                .doesNotContain(Warning.Code.CHOICE_MADE);
    }

    /** Heading 040 leads away from the radial; with a direct behind it that is said as without (FAA Order JO 7110.65, 5-6-2). */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "fly heading 040, intercept the ORC 320 radial inbound",
                "fly heading 040, intercept the ORC 320 radial inbound, direct MUR"
            })
    void a_radial_behind_the_aircraft_is_said(String words) {
        assertThat(hears(words).work().warnings())
                .extracting(Warning::text)
                .anySatisfy(text -> assertThat(text)
                        .matches("the line of this heading crosses the ORC 320 radial [\\d.]+ NM behind the aircraft"));
    }
}
