package org.rejoin.bridge.chart.io;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Airway.Direction;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.chart.io.ChartReader.Problem;
import org.rejoin.bridge.geo.Declination;
import org.rejoin.bridge.geo.Position;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Our chart file. Every place is invented and lies in open ocean. */
class YamlChartTest {

    private static final String CHART = """
            name: Test water
            stations:
              - {ident: AAA, name: Alpha Bank, kind: VORTAC, class: H, frequency_mhz: 113.4, latitude_deg: -40.0, longitude_deg: -120.0, declination_deg: 21.5, elevation_ft: 100}
              - {ident: BBB, kind: VOR, class: VL, latitude_deg: -40.0, longitude_deg: -118.0, declination_deg: 20}
              - {ident: NO, kind: NDB, frequency_mhz: 0.365, latitude_deg: -41, longitude_deg: -119}
              - {ident: DDD, kind: DME, latitude_deg: -41, longitude_deg: -118}
            fixes:
              - {ident: ABCDE, latitude_deg: -40.1, longitude_deg: -119.0}
            airports:
              - {ident: XAAA, name: Test Island, latitude_deg: -40.2, longitude_deg: -120.1, elevation_ft: 20}
              - ident: XBBB
                latitude_deg: -40.2
                longitude_deg: -117.9
            airways:
              - {ident: V31, points: [AAA, ABCDE, BBB], minimum_altitude_ft: 4000}
            """;

    private static ChartReader.Result read(String text) throws IOException {
        return ChartReader.read(new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)), "test.yaml");
    }

    private static List<Problem> problems(String text) throws IOException {
        return read(text).problems();
    }

    /** A chart with these stations, airways below, of which the first station is in line 2. */
    private static String stations(String... stations) {
        return "stations:\n  - " + String.join("\n  - ", stations) + "\n";
    }

    @Test
    void aNameMaySoundOtherwiseThanItIsWritten() throws Exception {
        String text = """
                fixes:
                  - {ident: AAAAA, latitude_deg: 1, longitude_deg: 1, says: "S K Y UW AH"}
                  - {ident: BBBBB, latitude_deg: 2, longitude_deg: 1, says: skew ah}
                  - {ident: CCCCC, latitude_deg: 3, longitude_deg: 1, says: "; reboot"}
                """;
        ChartReader.Result result = read(text);
        assertThat(result.chart().says())
                .containsExactlyInAnyOrderEntriesOf(java.util.Map.of("AAAAA", "S K Y UW AH", "BBBBB", "skew ah"));
        assertThat(result.chart().fixes()).hasSize(3);
        assertThat(result.problems())
                .singleElement()
                .satisfies(
                        problem -> assertThat(problem.toString()).contains("says is how the name sounds", "; reboot"));
    }

    @Test
    void aWholeChartIsReadWithoutAProblem() throws IOException {
        ChartReader.Result result = read(CHART);
        Chart chart = result.chart();
        assertThat(result.problems()).isEmpty();
        assertThat(chart.name()).isEqualTo("Test water");
        Station alpha = chart.stations("AAA").get(0);
        assertThat(alpha.name()).isEqualTo("Alpha Bank");
        assertThat(alpha.kind()).isEqualTo(Station.Kind.VORTAC);
        assertThat(alpha.serviceClass()).contains(Station.ServiceClass.H);
        assertThat(alpha.frequencyMhz()).hasValue(113.4);
        assertThat(alpha.position()).isEqualTo(new Position(-40, -120));
        assertThat(alpha.declination()).contains(new Declination(21.5));
        assertThat(alpha.elevationFt()).isEqualTo(100);
        assertThat(chart.stations("BBB").get(0).serviceClass()).contains(Station.ServiceClass.VL);
        assertThat(chart.stations("BBB").get(0).name()).isEqualTo("BBB");
        assertThat(chart.stations("NO").get(0).declination()).isEmpty();
        assertThat(chart.fixes()).hasSize(1);
        assertThat(chart.airports()).hasSize(2);
        Airway airway = chart.airway("V31").orElseThrow();
        assertThat(airway.points()).extracting(Waypoint::ident).containsExactly("AAA", "ABCDE", "BBB");
        assertThat(airway.segments())
                .containsOnly(new Airway.Segment(OptionalDouble.of(4000), Direction.BOTH))
                .hasSize(2);
    }

    /** As records of ARINC 424 can say: its radials are true directions, and are no oddity beside the day's variation. */
    @Test
    void aStationIsAlignedToTrueNorthWhereTheChartSaysSo() throws IOException {
        ChartReader.Result result = read("""
                stations:
                  - {ident: AAA, kind: VOR, latitude_deg: 70, longitude_deg: -50, aligned_to: TRUE_NORTH}
                  - {ident: BBB, kind: VOR, latitude_deg: 71, longitude_deg: -50, aligned_to: MAGNETIC_NORTH, declination_deg: -30}
                  - {ident: CCC, kind: VOR, latitude_deg: 72, longitude_deg: -50, aligned_to: true_north, declination_deg: 0}
                """);
        assertThat(result.problems()).isEmpty();
        assertThat(result.chart().stations("AAA").get(0).declination()).contains(Declination.TRUE_NORTH);
        assertThat(result.chart().stations("BBB").get(0).declination()).contains(new Declination(-30));
        assertThat(result.chart().stations("CCC").get(0).isAlignedToTrueNorth()).isTrue();
    }

    @Test
    void aFileAndAStreamGiveTheSame(@TempDir Path folder) throws IOException {
        Path file = folder.resolve("chart.yaml");
        Files.writeString(file, CHART);
        assertThat(ChartReader.read(file).chart().stations())
                .isEqualTo(read(CHART).chart().stations());
        Files.writeString(file, "\uFEFF" + CHART);
        assertThat(ChartReader.read(file).problems()).isEmpty();
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            kind: VOR, latitude_deg: 91, longitude_deg: 0, declination_deg: 0 | true | latitude_deg must be degrees north, -90 to 90, found "91"; are latitude and longitude swapped?
            kind: VOR, latitude_deg: 1, longitude_deg: -181, declination_deg: 0 | true | longitude_deg must be degrees east, -180 to 180, found "-181"
            kind: VOR, latitude_deg: N30, longitude_deg: 0, declination_deg: 0 | true | latitude_deg must be a number of degrees north, -90 to 90, found "N30"
            kind: VOR, latitude_deg: .nan, longitude_deg: 0, declination_deg: 0 | true | latitude_deg must be a number
            kind: VOR, longitude_deg: 0, declination_deg: 0 | true | latitude_deg is missing
            kind: VOR, latitude_deg: 0, longitude_deg: [1], declination_deg: 0 | true | found a list
            kind: VOR, latitude_deg: 0, longitude_deg: 0 | false | a VOR needs declination_deg
            kind: VORTAC, latitude_deg: 0, longitude_deg: 0, declination_deg: east | false | declination_deg must be a number of degrees east, -180 to 180, found "east"
            kind: VOR, latitude_deg: 0, longitude_deg: 0, aligned_to: TRUE_NORTH, declination_deg: -16 | false | aligned_to TRUE_NORTH has declination_deg 0, or none
            kind: NDB, latitude_deg: 0, longitude_deg: 0, aligned_to: TRUE_NORTH | false | NDB has no radials
            kind: VOR, latitude_deg: 0, longitude_deg: 0, aligned_to: GRID, declination_deg: 1 | false | aligned_to must be one of MAGNETIC_NORTH, TRUE_NORTH, found "GRID"
            kind: RADAR, latitude_deg: 0, longitude_deg: 0 | true | kind must be one of VOR, VORDME, VORTAC, NDB, DME, found "RADAR"
            latitude_deg: 0, longitude_deg: 0 | true | kind is missing
            kind: NDB, latitude_deg: 0, longitude_deg: 0, class: X | false | class must be one of T, L, H, VL, VH, found "X"
            kind: NDB, latitude_deg: 0, longitude_deg: 0, frequency_mhz: 365 | false | frequency_mhz must be MHz (kHz / 1000), 0.19 to 1.75, found "365"
            kind: NDB, latitude_deg: 0, longitude_deg: 0, elevation: 5 | false | unknown key "elevation", did you mean elevation_ft?
            kind: NDB, latitude_deg: 0, longitude_deg: 0, latitud_deg: 5 | false | unknown key "latitud_deg", did you mean latitude_deg?
            kind: NDB, latitude_deg: 0, longitude_deg: 0, zz: 5 | false | unknown key "zz"; known are ident, name, kind
            kind: NDB, latitude_deg: 0, longitude_deg: 0, name: {a: b} | false | name must be text, found a mapping
            kind: NDB, latitude_deg: 0, longitude_deg: 0, longitude_deg: 1 | false | key "longitude_deg" stands twice
            kind: NDB, latitude_deg: 0, longitude_deg: *a | false | alias""")
    void whatIsWrongWithAStationIsSaidWithItsLine(String rest, boolean fatal, String said) throws IOException {
        Problem first = problems(stations(
                        "{ident: AAA, kind: NDB, latitude_deg: 0, longitude_deg: 0}", "{ident: BBB, " + rest + "}"))
                .get(0);
        assertThat(first.line()).isEqualTo(3);
        assertThat(first.what()).contains(said);
        assertThat(first.fatal()).isEqualTo(fatal);
    }

    @Test
    void theLineIsThatOfTheValueInAnEntryOfSeveralLines() throws IOException {
        List<Problem> problems = problems("fixes:\n  - ident: ABCDE\n    latitude_deg: 91\n    longitude_deg: 181\n");
        assertThat(problems).extracting(Problem::line).containsExactly(3, 4);
    }

    @ParameterizedTest
    @ValueSource(strings = {"{latitude_deg: 0, longitude_deg: 0}", "{ident: , latitude_deg: 0, longitude_deg: 0}"})
    void anIdentIsNeeded(String fix) throws IOException {
        assertThat(problems("fixes:\n  - " + fix))
                .containsExactly(
                        new Problem(2, "fix without ident; add ident: and one to ten letters or digits", true));
    }

    @Test
    void anIdentInLowerCaseIsReadAndSaid() throws IOException {
        ChartReader.Result result = read("fixes:\n  - {ident: abcde, latitude_deg: 0, longitude_deg: 0}");
        assertThat(result.chart().waypoints("ABCDE")).hasSize(1);
        assertThat(result.problems()).hasSize(1);
    }

    @Test
    void goodEntriesSurviveBadOnes() throws IOException {
        ChartReader.Result result = read("""
                station: []
                fixes:
                  - {ident: ABCDE, latitude_deg: 1, longitude_deg: 1}
                  - ABCDF
                  - {ident: "AB DE", latitude_deg: 1, longitude_deg: 1}
                airports: none
                """);
        assertThat(result.chart().fixes()).hasSize(1);
        assertThat(result.problems()).extracting(Problem::line).containsExactly(1, 4, 5, 6);
        assertThat(result.problems().get(0).what()).contains("did you mean stations?");
    }

    @Test
    void anUnknownPointNamesAirwayPointAndLine() throws IOException {
        List<Problem> problems = problems(CHART + "  - ident: V32\n    points:\n      - AAA\n      - ABCDF\n");
        assertThat(problems)
                .containsExactly(new Problem(
                        19,
                        "airway V32: point \"ABCDF\" is no station, fix or airport of this chart, did you mean ABCDE?",
                        true));
    }

    @Test
    void ofTwoPointsOfOneIdentTheNearestToItsNeighboursIsTaken() throws IOException {
        Chart chart = read("""
                        airways:
                          - {ident: V1, points: [AAA, TWICE, BBB]}
                          - {ident: V2, points: [TWICE, CCC]}
                        fixes:
                          - {ident: TWICE, latitude_deg: 30, longitude_deg: -140}
                          - {ident: AAA, latitude_deg: -30, longitude_deg: 179.5}
                          - {ident: BBB, latitude_deg: -30, longitude_deg: -178.5}
                          - {ident: CCC, latitude_deg: 31, longitude_deg: -140}
                          - {ident: TWICE, latitude_deg: -30, longitude_deg: -179.5}
                        """).chart();
        assertThat(chart.airway("V1").orElseThrow().points().get(1).position().latitudeDeg())
                .isEqualTo(-30);
        assertThat(chart.airway("V2").orElseThrow().points().get(0).position().latitudeDeg())
                .isEqualTo(30);
    }

    @Test
    void altitudesAndDirectionsMayBeGivenLegByLeg() throws IOException {
        ChartReader.Result result = read(CHART
                + "  - {ident: V33, points: [AAA, ABCDE, BBB], minimum_altitude_ft: 3000,"
                + " minimum_altitudes_ft: [5000, null], direction: [forward, both]}\n"
                + "  - {ident: V34, points: [AAA, BBB], direction: backward}\n");
        assertThat(result.problems()).isEmpty();
        assertThat(result.chart().airway("V33").orElseThrow().segments())
                .containsExactly(
                        new Airway.Segment(OptionalDouble.of(5000), Direction.FORWARD),
                        new Airway.Segment(OptionalDouble.of(3000), Direction.BOTH));
        assertThat(result.chart().airway("V34").orElseThrow().segments())
                .containsExactly(new Airway.Segment(OptionalDouble.empty(), Direction.BACKWARD));
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            points: [AAA] | true | points must be a list of two idents or more
            points: AAA | true | points must be a list of two idents or more, as [AAA, ABCDE], found "AAA"
            minimum_altitude_ft: 4000 | true | points must be a list
            points: [AAA, AAA] | true | points AAA and AAA are at one place
            points: [AAA, BBB], minimum_altitude_ft: FL90 | false | minimum_altitude_ft must be a number of feet
            points: [AAA, BBB], minimum_altitudes_ft: [1, 2] | false | minimum_altitudes_ft must be a list of 1
            points: [AAA, BBB], direction: north | false | direction must be both, forward
            points: [AAA, BBB], via: BBB | false | unknown key "via\"""")
    void whatIsWrongWithAnAirwayIsSaidWithItsLine(String rest, boolean fatal, String said) throws IOException {
        List<Problem> problems = problems(CHART + "  - {ident: V32, " + rest + "}\n");
        assertThat(problems).hasSize(1);
        assertThat(problems.get(0).line()).isEqualTo(16);
        assertThat(problems.get(0).what()).startsWith("airway V32").contains(said);
        assertThat(problems.get(0).fatal()).isEqualTo(fatal);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            'fixes: [{ident: ABCDE'           | test.yaml: line 1, column 22
            'fixes:\n  - {ident: A: B: C}'    | test.yaml: line
            'fixes:\n\t- a'                   | test.yaml: line 2, column 1
            'just words'                      | expected a chart
            'a: b'                            | expected a chart
            '# nothing'                       | nothing but blanks or comments
            '[[[[[[[[[[[[[[[[[[[[[[]]]]]]]]]]]]]]]]]]]]]]' | nested deeper
            '- !!javax.script.ScriptEngineManager [x]' | expected a chart""")
    void whatIsNoChartIsRefusedInOneLine(String text, String said) {
        assertThatThrownBy(() -> read(text.replace("\\n", "\n").replace("\\t", "\t")))
                .isInstanceOf(IOException.class)
                .hasMessageContaining(said)
                .message()
                .doesNotContain("\n");
    }

    @Test
    void anotherEncodingIsRefusedWithItsPlace() {
        byte[] latin = "name: a\nfixes: # caf\u00e9\n".getBytes(StandardCharsets.ISO_8859_1);
        assertThatThrownBy(() -> ChartReader.read(new ByteArrayInputStream(latin), "test.yaml"))
                .isInstanceOf(IOException.class)
                .hasMessage("test.yaml: line 2, column 13: byte 0xE9 is not UTF-8; save the file as UTF-8");
        byte[] wide = CHART.getBytes(StandardCharsets.UTF_16);
        assertThatThrownBy(() -> ChartReader.read(new ByteArrayInputStream(wide), "test.yaml"))
                .isInstanceOf(IOException.class)
                .hasMessageContaining("UTF-8");
    }

    @Test
    void aFileThatIsNotThereIsSaid(@TempDir Path folder) {
        assertThatThrownBy(() -> ChartReader.read(folder.resolve("none.yaml")))
                .isInstanceOf(IOException.class)
                .hasMessageEndingWith("none.yaml does not exist");
        assertThatThrownBy(() -> ChartReader.read(folder)).hasMessageEndingWith("is not a file");
    }

    @Test
    void numbersMayBeWrittenInAnyUsualForm() throws IOException {
        Chart chart = read("fixes:\n  - {ident: ABCDE, latitude_deg: -.5, longitude_deg: +1.2e1}")
                .chart();
        assertThat(chart.fixes().get(0).position().latitudeDeg()).isEqualTo(-0.5, within(0.0));
        assertThat(chart.fixes().get(0).position().longitudeDeg()).isEqualTo(12, within(0.0));
    }

    @Test
    void holdingPatternsAreReadByTheirFix() throws IOException {
        ChartReader.Result result = read(CHART + """
                holds:
                  - {fix: ABCDE, inbound_course_magnetic_deg: 060, turns: left, leg_min: 1.5, max_speed_kt: 200}
                  - {fix: AAA, inbound_course_true_deg: 90, leg_nm: 10, minimum_altitude_ft: 5000}
                """);
        assertThat(result.problems()).isEmpty();
        Chart chart = result.chart();
        assertThat(chart.holds()).hasSize(2);
        assertThat(chart.holds(chart.waypoints("ABCDE").get(0))).singleElement().satisfies(hold -> {
            assertThat(hold.inboundMagnetic().deg()).as("060 is sixty").isEqualTo(60);
            assertThat(hold.right()).isFalse();
            assertThat(hold.legMinutes()).hasValue(1.5);
            assertThat(hold.legNm()).isEmpty();
            assertThat(hold.maximumSpeedKt()).hasValue(200);
        });
        assertThat(chart.holds(chart.waypoints("AAA").get(0))).singleElement().satisfies(hold -> {
            assertThat(hold.right()).as("right is the standard").isTrue();
            assertThat(hold.inboundTrueDeg()).hasValue(90);
            assertThat(hold.legNm()).hasValue(10);
            assertThat(hold.minimumAltitudeFt()).hasValue(5000);
        });
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "{inbound_course_magnetic_deg: 60} | hold without fix",
                "{fix: NONE, inbound_course_magnetic_deg: 60} | the chart has no point of that ident",
                "{fix: AAA} | one of the two",
                "{fix: AAA, inbound_course_magnetic_deg: 400} | degrees magnetic, 0 to 360",
                "{fix: AAA, inbound_course_magnetic_deg: 60, turns: both} | turns must be one of RIGHT, LEFT",
                "{fix: AAA, inbound_course_magnetic_deg: 60, leg_min: 1, leg_nm: 5} | the distance counts",
                "{fix: AAA, inbound_course_magnetic_deg: 60, leg_mins: 1} | did you mean leg_min"
            })
    void aHoldingPatternThatIsNotSoundIsTold(String entry, String problem) throws IOException {
        assertThat(problems(CHART + "holds:\n  - " + entry + "\n"))
                .anySatisfy(found -> assertThat(found.what()).contains(problem));
    }

    /** Flown the other way round it would be another hold. */
    @Test
    void aHoldingPatternWhoseTurnsAreNotUnderstoodIsLeftOut() throws IOException {
        ChartReader.Result result = read(CHART + """
                holds:
                  - {fix: ABCDE, inbound_course_magnetic_deg: 140, turns: lft, leg_min: 1}
                  - {fix: AAA, inbound_course_magnetic_deg: 60}
                """);
        assertThat(result.chart().holds()).singleElement().satisfies(hold -> {
            assertThat(hold.fix().ident()).isEqualTo("AAA");
            assertThat(hold.right()).isTrue();
        });
    }
}
