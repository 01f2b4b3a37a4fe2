package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.rejoin.console.cli.Ran.run;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

import com.fasterxml.jackson.databind.JsonNode;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** {@code chart} from the command line, over invented charts of open ocean. */
class ChartCommandTest {

    private static final String OCEAN = "src/main/resources/org/rejoin/console/lesson/open-ocean.yaml";
    private static final String ARINC = "../bridge/src/test/resources/org/rejoin/bridge/chart/io/ocean-sample.424";

    @TempDir
    Path folder = Path.of("");

    private String file(String text) throws IOException {
        return Files.writeString(folder.resolve("chart.yaml"), text).toString();
    }

    @Test
    void aGoodChartIsDescribed() {
        Ran ran = run("chart", OCEAN);
        assertThat(ran.exit()).isZero();
        assertThat(ran.err()).isEmpty();
        assertThat(ran.out())
                .contains("format    YAML", "stations  5 (VORDME 2, VORTAC 2, NDB 1)", "airways   2, 4 legs")
                .contains("south 37.3500, west -50.3500, north 38.9500, east -48.6000")
                .contains("Nothing odd.", "No problems.", Rejoin.CAUTION)
                .doesNotContain("cycle");
    }

    @Test
    void aStationAlignedToTrueNorthIsSaidToBe() throws IOException {
        Path chart = Path.of(file("""
                        stations:
                          - {ident: AAA, kind: VOR, latitude_deg: 70.0, longitude_deg: -50.0, aligned_to: TRUE_NORTH}
                        """));
        assertThat(run("chart", chart.toString()).out()).contains("Nothing odd.", "No problems.");
        assertThat(run("chart", "--find", "AAA", chart.toString()).out()).contains("true north");
    }

    /** Lessons and profiles are checked by this word. */
    @Test
    void aChartIsCheckedByThatWordToo() {
        Ran checked = run("chart", "check", OCEAN);
        assertThat(checked.exit()).isZero();
        assertThat(checked.out()).isEqualTo(run("chart", OCEAN).out());
        assertThat(run("chart", "--find", "PTL", "check", OCEAN).out())
                .isEqualTo(run("chart", "--find", "PTL", OCEAN).out());
        assertThat(run("chart", "check", "nowhere.yaml").err()).contains("nowhere.yaml does not exist");
        assertThat(run("chart", "check", "nowhere.yaml").exit()).isEqualTo(2);
        Ran twice = run("chart", OCEAN, "check", OCEAN);
        assertThat(twice.exit()).isEqualTo(2);
        assertThat(twice.err()).contains("named twice");
    }

    @Test
    void problemsAndOdditiesAreListedWithTheirLinesAndTheRestIsUsed() throws IOException {
        Ran ran = run("chart", file("""
                        stations:
                          - {ident: AAA, kind: VOR, latitude_deg: 38.0, longitude_deg: -50.0}
                          - {ident: BBB, kind: VORTAK, latitude_deg: 38.0, longitude_deg: -49.0, declination_deg: -17}
                        fixes:
                          - {ident: CCCCC, latitude_deg: 98.0, longitude_deg: -50.0}
                          - {ident: DDDDD, latitude_deg: 38.5, longitude_deg: -40.0}
                        airways:
                          - {ident: V1, points: [AAA, DDDDD]}
                        """));
        assertThat(ran.exit()).isZero();
        assertThat(ran.out())
                .contains("3 problems, 2 records left out:")
                .contains(
                        "line 3: station BBB:",
                        "VORTAC",
                        "line 5: fix CCCCC:",
                        "degrees north, -90 to 90,",
                        "(left out)")
                .contains("Odd (2):", "line 2: VOR AAA has no declination", "line 8: airway V1: leg AAA to DDDDD is")
                .contains("stations  1", "fixes     1");
    }

    @ParameterizedTest
    @CsvSource({
        "2026-06-10, NOT CURRENT on 2026-06-10",
        "2026-06-11, ': current on 2026-06-11'",
        "2026-07-08, ': current on 2026-07-08'",
        "2026-07-09, 'NOT CURRENT on 2026-07-09, when 2607 is'"
    })
    void anArincFileSaysItsCycle(String date, String said) {
        Ran ran = run("chart", ARINC, "--date", date);
        assertThat(ran.exit()).isZero();
        assertThat(ran.out())
                .contains("format    ARINC 424", "cycle     2606, 2026-06-11 to 2026-07-08", said)
                .contains("records   D 5, DB 1, EA 8, ER 13, PA 1, PC 1, PN 1")
                .contains("line 11: 2 points have the ident QUERN");
    }

    @Test
    void everythingOfAnIdentIsFound() throws IOException {
        assertThat(run("chart", OCEAN, "--find", "ptl").out())
                .contains("PTL  VORTAC Petrel  (line 4)", "N38°00.000' W050°00.000'  (38.000000, -50.000000)")
                .contains("declination  17.0 west", "frequency    113.40 MHz", "class        H", "airways      V31");
        assertThat(run("chart", OCEAN, "--find", "GNT").out()).contains("GNT  NDB Gannet", "365 kHz");
        JsonNode found = run("chart", ARINC, "--find", "QUERN", "--json").json().get("found");
        assertThat(found).hasSize(2);
        assertThat(found.get(0).get("kind").asText()).isEqualTo("fix");
        assertThat(found.get(0).get("line").asInt()).isEqualTo(10);
        assertThat(found.get(1).get("airways").toString()).isEqualTo("[\"A932\"]");
    }

    @Test
    void anAirwayIsShownLegByLeg() throws IOException {
        // 152.867 less the 12.0 east of QAA, the only station of the airway.
        Ran ran = run("chart", ARINC, "--airway", "t931");
        assertThat(ran.out())
                .containsPattern("QINTA +QAA +152.9 +141.2 +QAA +73.9 +both ways +3000 ft, max 17500 ft")
                .containsPattern("QAA +QUERN +070.2 +058.2 +QAA +88.0 +only to QAA +5000 ft");
        JsonNode pieces =
                run("chart", ARINC, "--airway", "V931", "--json").json().at("/airway/pieces");
        assertThat(pieces).hasSize(2);
        JsonNode back = pieces.at("/0/legs/1");
        assertThat(back.get("minimum_altitude_ft").asDouble()).isEqualTo(6000);
        assertThat(back.get("minimum_altitude_backward_ft").asDouble()).isEqualTo(4000);
        assertThat(pieces.at("/1/legs/0").has("guided_by")).isFalse();
        assertThat(pieces.at("/0/legs/0/guided_by").asText()).isEqualTo("QAA");
    }

    @Test
    void onlyARegionIsTaken() throws IOException {
        JsonNode box =
                run("chart", ARINC, "--within", "29,-147,33,-140", "--json").json();
        assertThat(box.at("/counts/airways").asInt()).isEqualTo(2);
        assertThat(box.at("/bounds/south_deg").asDouble()).isGreaterThan(29);
        JsonNode circle =
                run("chart", ARINC, "--within", "-8.5,-127.5,50", "--json").json();
        assertThat(circle.at("/counts/fixes").asInt()).isEqualTo(2); // the leg that touches it needs its far end
        assertThat(circle.at("/counts/legs").asInt()).isEqualTo(1);
    }

    @Test
    void jsonHasEverything() throws IOException {
        JsonNode chart = run("chart", ARINC, "--json", "--date", "2026-06-20").json();
        assertThat(chart.at("/format").asText()).isEqualTo("arinc_424");
        assertThat(chart.at("/cycle/current").asBoolean()).isTrue();
        assertThat(chart.at("/counts/stations/NDB").asInt()).isEqualTo(2);
        assertThat(chart.at("/records/ER").asInt()).isEqualTo(13);
        // The station whose declination is written T0000 stands to true north, and is none of them.
        assertThat(chart.get("oddities")).hasSize(3);
        assertThat(chart.at("/oddities/0/code").asText()).isEqualTo("LONG_LEG");
        assertThat(chart.get("problems")).isEmpty();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "--find PTT | did you mean PTL?",
                "--find V40 | --airway V40 shows it",
                "--airway V41 | did you mean V31 or V40?",
                "--airway ZZZ | no airway of that ident",
                "--within 38,-50 | neither SOUTH,WEST,NORTH,EAST",
                "--within a,b,c | LAT,LON,RADIUS_NM",
                "--within 39,-51,37,-48 | must be in order",
                "--within 38,-250,10 | longitude",
                "--within 38,-50,0 | radius",
                "--within -38,50,10 | nothing of",
                "--date tomorrow | YYYY-MM-DD",
                "--date 1900-01-01 | 2001 to 2098"
            })
    void whatIsWrongIsSaidInOneLine(String options, String said) {
        String[] words = options.split(" ", 2);
        Ran ran = run("chart", OCEAN, words[0], words[1]);
        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.out()).isEmpty();
        assertThat(ran.err().lines()).singleElement().asString().contains(said);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "'' | empty",
                "'just text' | expected a chart",
                "'# Title\n\n- [a page](of text): `not` a chart: at all' | is no chart: expected a chart in YAML",
                "'stations: [{ident: AAA}]' | line 1: station AAA",
                "'name: nothing' | no station, fix or airport",
                "'stations: [' | line 1"
            })
    void aFileOfNoUseIsRefused(String text, String said) throws IOException {
        Ran ran = run("chart", file(text));
        assertThat(ran.exit()).isEqualTo(2);
        assertThat(ran.err().lines()).singleElement().asString().contains("chart.yaml", said);
    }

    @Test
    void noFileIsBadUsageAndHelpCarriesTheCaution() {
        assertThat(run("chart").exit()).isEqualTo(2);
        assertThat(run("chart", folder.resolve("none").toString()).err()).contains("does not exist");
        Ran help = run("chart", "--help");
        assertThat(help.exit()).isZero();
        assertThat(help.out()).contains("--within", "--find", "--airway").contains("For simulation and training only.");
    }

    @Test
    void aFileDoesNotSteerTheTerminal() throws IOException {
        Ran ran = run("chart", file("name: \"a\\e[2Jb\"\nfixes: [{ident: AAAAA, latitude_deg: 1, longitude_deg: 2}]"));
        assertThat(ran.exit()).isZero();
        assertThat(ran.out()).contains("a?[2Jb").doesNotContain("\u001b");
    }
}
