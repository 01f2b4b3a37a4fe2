package org.rejoin.bridge.clearance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.stream.Collectors;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Position;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Item 15 of the flight plan (ICAO Doc 4444, Appendix 2) and the plain form, over an invented chart. */
class FiledRouteReaderTest {

    private static FiledRoute read(String text) {
        try {
            return FiledRouteReader.read(text, OceanChart.CHART);
        } catch (ClearanceException e) {
            throw new AssertionError(text + ": " + e.getMessage(), e);
        }
    }

    private static ClearanceException refused(String text) {
        ClearanceException refused =
                catchThrowableOfType(ClearanceException.class, () -> FiledRouteReader.read(text, OceanChart.CHART));
        assertThat(refused).as(text).isNotNull();
        assertThat(refused.getMessage()).doesNotContain("\n");
        return refused;
    }

    private static String flown(FiledRoute route) {
        return route.segments().get(0).from().ident()
                + route.segments().stream()
                        .map(segment -> " " + segment.airway().orElse("DCT") + " "
                                + segment.to().ident())
                        .collect(Collectors.joining());
    }

    @ParameterizedTest
    @CsvSource({
        "XAAA DCT AAA V31 BBB DCT XBBB, XAAA DCT AAA V31 ABCDE V31 BBB DCT XBBB",
        "xaaa aaa v31 bbb xbbb, XAAA DCT AAA V31 ABCDE V31 BBB DCT XBBB",
        "AAA DCT BBB V88 DDD, AAA DCT BBB V88 DDD",
        "BBB V31 AAA, BBB V31 ABCDE V31 AAA",
        "N0120A060 AAA V31 BBB, AAA V31 ABCDE V31 BBB",
        "AAA/N0120A060 V31 BBB, AAA V31 ABCDE V31 BBB",
        "AAA/N0284A050 IFR V31 BBB VFR, AAA V31 ABCDE V31 BBB",
        "C/AAA/M082F290F350 V31 BBB, AAA V31 ABCDE V31 BBB",
        "38N055W AAA078064 DCT DDD, 38N055W DCT AAA078064 DCT DDD",
        "4602N07805W/N0500F350 DCT DDD, 4602N07805W DCT DDD",
        "AAA078064/N0350M0840 DCT DDD, AAA078064 DCT DDD",
        "AAA V31 BBB DCT, AAA V31 ABCDE V31 BBB",
        "AAA V31 V88 DDD, AAA V31 ABCDE V31 BBB V88 DDD",
        "AAA Q7 DDD, AAA Q7 DDD",
        "AAA UB10 CCC, AAA UB10 CCC"
    })
    void valid_routes_are_expanded(String text, String expected) {
        assertThat(flown(read(text))).isEqualTo(expected);
    }

    @Test
    void a_bearing_and_distance_is_a_radial_by_the_declination_of_its_station() {
        // Radial 078 and declination -18 is 060 true; published as case C of the worked clearances, rounded.
        Position fix = read("AAA078064 DCT DDD").points().get(0).position();
        assertThat(fix.latitudeDeg()).isCloseTo(38.528030901, within(1e-8));
        assertThat(fix.longitudeDeg()).isCloseTo(-53.822811699, within(1e-8));
    }

    @ParameterizedTest
    @CsvSource({
        "46N078W DCT AAA, 46, -78",
        "4620N07805W DCT AAA, 46.333333333, -78.083333333",
        "5230N02000W DCT AAA, 52.5, -20",
        "05S180E DCT AAA, -5, -180"
    })
    void coordinates_have_7_or_11_characters(String text, double latitude, double longitude) {
        Position position = read(text).points().get(0).position();
        assertThat(position.latitudeDeg()).isCloseTo(latitude, within(1e-8));
        assertThat(position.longitudeDeg()).isCloseTo(longitude, within(1e-8));
    }

    @ParameterizedTest
    @ValueSource(strings = {"N0485F330", "M082F330", "K0841S1130", "K0830F085", "N0485A045", "N0485M0840", "N0120VFR"})
    void speed_and_level_are_joined(String text) {
        assertThat(read(text + " AAA V31 BBB").notes())
                .singleElement()
                .asString()
                .startsWith(text);
    }

    @ParameterizedTest
    @CsvSource({
        "N0485 AAA V31 BBB, ROUTE_NOT_VALID, N0485",
        "N04850 AAA V31 BBB, ROUTE_NOT_VALID, N04850",
        "M82 AAA V31 BBB, ROUTE_NOT_VALID, M82",
        "M0082 AAA V31 BBB, ROUTE_NOT_VALID, M0082",
        "F85 AAA V31 BBB, ROUTE_NOT_VALID, F85",
        "A4500 AAA V31 BBB, ROUTE_NOT_VALID, A4500",
        "FL085 AAA V31 BBB, ROUTE_NOT_VALID, FL085",
        "N0485/F330 AAA V31 BBB, ROUTE_NOT_VALID, N0485/F330",
        "AAA V BBB, ROUTE_NOT_VALID, V",
        "AAA KODAP2A BBB, UNKNOWN_AIRWAY, KODAP2A",
        "AAA KODAP2AB BBB, ROUTE_NOT_VALID, KODAP2AB",
        "H DCT BBB, ROUTE_NOT_VALID, H",
        "ABCDEF DCT BBB, ROUTE_NOT_VALID, ABCDEF",
        "46N78W DCT AAA, ROUTE_NOT_VALID, 46N78W",
        "91N078W DCT AAA, ROUTE_NOT_VALID, 91N078W",
        "46N181W DCT AAA, ROUTE_NOT_VALID, 46N181W",
        "4660N07805W DCT AAA, ROUTE_NOT_VALID, 4660N07805W",
        "4620N7805W DCT AAA, ROUTE_NOT_VALID, 4620N7805W",
        "4620N18005W DCT AAA, ROUTE_NOT_VALID, 4620N18005W",
        "AAA18040 DCT BBB, ROUTE_NOT_VALID, AAA18040",
        "AAA370040 DCT BBB, ROUTE_NOT_VALID, AAA370040",
        "AAA180 DCT BBB, ROUTE_NOT_VALID, AAA180",
        "AAA078 DCT BBB, ROUTE_NOT_VALID, AAA078",
        "AAA/F330 DCT BBB, ROUTE_NOT_VALID, AAA/F330",
        "AAA/VFR DCT BBB, ROUTE_NOT_VALID, AAA/VFR",
        "C/48N050W/M082F290 DCT AAA, ROUTE_NOT_VALID, C/48N050W/M082F290",
        "V31 AAA, ROUTE_NOT_VALID, V31",
        "AAA V31, ROUTE_NOT_VALID, V31",
        "AAA V31 V40 DDD, ROUTE_NOT_VALID, V40",
        "AAA V31 V455 CCC, ROUTE_NOT_VALID, V455",
        "AAA V31 DDD, ROUTE_NOT_VALID, V31",
        "AAA V31 AAA, ROUTE_NOT_VALID, V31",
        "AAA 3800N05500 BBB, ROUTE_NOT_VALID, 3800N05500",
        "AAA DCT V31 BBB, ROUTE_NOT_VALID, V31",
        "AAA V31 DCT BBB, ROUTE_NOT_VALID, DCT",
        "DDD Q7 AAA, ROUTE_NOT_VALID, Q7",
        "AAA DCT QQQQQ, UNKNOWN_FIX, QQQQQ",
        "AAA V99 BBB, UNKNOWN_AIRWAY, V99",
        "ZZZ078064 DCT AAA, UNKNOWN_FIX, ZZZ078064",
        "NNB078064 DCT AAA, ROUTE_NOT_VALID, NNB078064"
    })
    void invalid_elements_are_named(String text, ClearanceException.Code code, String element) {
        ClearanceException refused = refused(text);
        assertThat(refused.code()).isEqualTo(code);
        assertThat(refused.getMessage()).contains(element);
        int column = refused.column().orElseThrow();
        assertThat(text.substring(column, column + refused.length())).isEqualTo(element);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "   ", "AAA", "DCT", "N0120A060", "AAA DCT", "DCT AAA"})
    void a_route_needs_two_points(String text) {
        assertThat(refused(text).code()).isEqualTo(ClearanceException.Code.ROUTE_NOT_VALID);
    }

    @Test
    void messages_say_what_would_be_right() {
        assertThat(refused("AAA V31 V455 CCC")).hasMessageContaining("AAA, ABCDE");
        assertThat(refused("AAA V31 DDD")).hasMessageContaining("AAA, ABCDE, BBB");
        assertThat(refused("AAA DCT ABCDF")).hasMessageContaining("did you mean ABCDE?");
        assertThat(refused("AAA V32 BBB")).hasMessageContaining("did you mean V31?");
        assertThat(refused("AAA/VFR DCT BBB")).hasMessageContaining("AAA VFR");
        assertThat(refused("DDD Q7 AAA")).hasMessageContaining("may not be flown from DDD to AAA");
    }

    @Test
    void points_side_by_side_are_read_as_direct_and_noted() {
        assertThat(read("AAA BBB").notes()).singleElement().asString().contains("AAA BBB", "direct");
        assertThat(read("38N055W 39N055W").notes()).isEmpty();
        assertThat(read("AAA DCT BBB").notes()).isEmpty();
    }

    @Test
    void of_two_points_of_one_ident_the_nearer_is_taken_and_said() {
        FiledRoute route = read("AAA DCT EEE DCT CCC");
        assertThat(route.points()).contains((Waypoint) OceanChart.EEE_NEAR);
        assertThat(route.notes()).singleElement().asString().contains("EEE", "2 points of that name", "38.900");
        assertThat(read("CCC J533 EEE").points()).isEqualTo(List.of(OceanChart.CCC, OceanChart.EEE_NEAR));
    }

    @Test
    void the_points_connect() {
        List<FiledRoute.Segment> segments = read(OceanChart.FILED_TEXT).segments();
        for (int i = 1; i < segments.size(); i++) {
            assertThat(segments.get(i).from()).isEqualTo(segments.get(i - 1).to());
        }
    }
}
