package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;

import com.fasterxml.jackson.databind.JsonNode;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** {@code brief} as a user runs it. Numbers computed with GeographicLib and WMM2025. */
final class BriefCommandTest extends CommandsInTurn {

    private static final String CHART = """
            name: check chart
            stations:
              - {ident: AAA, name: A & B, kind: VORTAC, class: H, frequency_mhz: 113.4, latitude_deg: 38.0, longitude_deg: -55.0, declination_deg: -18.0, elevation_ft: 0}
              - {ident: BBB, name: Bravo, kind: VORTAC, class: H, frequency_mhz: 114.4, latitude_deg: 39.0, longitude_deg: -53.8, declination_deg: -17.0, elevation_ft: 0}
              - {ident: CCC, name: Charlie, kind: VORTAC, class: H, frequency_mhz: 115.4, latitude_deg: 39.2, longitude_deg: -55.0, declination_deg: -18.5, elevation_ft: 0}
              - {ident: DDD, name: Delta, kind: VORTAC, class: H, frequency_mhz: 116.4, latitude_deg: 38.4, longitude_deg: -53.6, declination_deg: -17.5, elevation_ft: 0}
            airways:
              - {ident: V31, points: [AAA, BBB], minimum_altitude_ft: 4000}
              - {ident: V40, points: [CCC, DDD], minimum_altitude_ft: 4000}
            """;
    private static final String RADIAL_OUT = "fly heading 145, intercept the AAA 078 radial, join V40, then as filed";

    @TempDir
    Path directory = Path.of("");

    private Path chart = Path.of("");

    @BeforeEach
    void writeChart() throws IOException {
        chart = Files.writeString(directory.resolve("chart.yaml"), CHART);
    }

    private int brief(String filed, String clearance, String at, String... more) {
        List<String> args = new ArrayList<>(
                List.of("brief", "--chart", chart.toString(), "--filed", filed, "--clearance", clearance, "--at", at));
        args.addAll(List.of(more));
        return run(args.toArray(String[]::new));
    }

    private JsonNode json(String filed, String clearance, String at, String... more) throws IOException {
        List<String> args = new ArrayList<>(List.of("--json", "--date", "2026-06-01", "--altitude", "5000"));
        args.addAll(List.of(more));
        assertThat(brief(filed, clearance, at, args.toArray(String[]::new)))
                .as(err)
                .isZero();
        assertThat(out).doesNotContain("NaN", "null", "Infinity");
        return Ran.json(out);
    }

    @Test
    void aHoldFlownOnceOnTheWayLeavesTheClearanceLimitSaid() {
        String hold = "cleared to BBB via direct AAA V31 BBB, hold west of AAA on the 270 radial";
        assertThat(brief("AAA V31 BBB DCT CCC", hold + ", one circuit", "37.9,-55.2", "--heading", "45"))
                .as(err)
                .isZero();
        assertThat(out).contains("At AAA you fly the hold once", "Your clearance ends at BBB");
    }

    /** V40 stands in the file, last of twelve lines; one letter of a point too many is what keeps it off the chart. */
    @Test
    void anAirwayLeftOutForAMistypedPointIsRefusedWithItsLineAndItsFault() throws IOException {
        Files.writeString(chart, CHART.replace("[CCC, DDD]", "[CCC, DDDX]"));
        List<String> lines = Files.readAllLines(chart);
        int line = 1
                + lines.indexOf(lines.stream()
                        .filter(each -> each.contains("DDDX"))
                        .findFirst()
                        .orElseThrow());
        for (String filed : List.of("CCC V40 DDD", "AAA V31 BBB")) {
            assertThat(brief(filed, "intercept V40, then as filed", "38.60,-54.90"))
                    .isEqualTo(2);
            assertThat(err)
                    .contains("V40", "line " + line, "DDDX", "did you mean DDD?")
                    .doesNotContain("did you mean V31?", "not on the chart");
        }
    }

    @Test
    void aTurnOrderedOntoAnAirwayAPlaceBesideAFixAndATimeOfApproachAreInTheObject() throws IOException {
        JsonNode turn = json("AAA V31 BBB", "fly heading 108, turn right onto V31, then as filed", "38.6,-55.0");
        assertThat(turn.at("/clearance/turn_onto/0").textValue()).isEqualTo("right");
        JsonNode turns = json(
                "CCC V40 DDD",
                "fly heading 145, turn left onto the AAA 078 radial, turn right onto V40, then as filed",
                "38.6,-55.0");
        assertThat(turns.at("/clearance/turn_onto").toString()).isEqualTo("[\"left\",\"right\"]");
        assertThat(turn.at("/intercept/turn").textValue()).isEqualTo("left");
        assertThat(turn.at("/warnings").findValuesAsText("code")).contains("LONG_WAY_ROUND");
        JsonNode hold =
                json("AAA V31 BBB", "direct five miles east of AAA, direct BBB, hold south, EAC 1545", "37.9,-55.2");
        assertThat(hold.at("/clearance/direct/0").textValue()).isEqualTo("5 NM east of AAA");
        assertThat(hold.at("/legs/0/to").textValue()).isEqualTo("AAA090005");
        assertThat(hold.at("/clearance/expect_approach_clearance").textValue()).isEqualTo("1545");
        assertThat(hold.at("/clearance/not_followed").isMissingNode()).isTrue();
        assertThat(brief("AAA V31 BBB", "hold at BBB, south, EAC 1545", "37.9,-55.2"))
                .isEqualTo(2);
        assertThat(brief("AAA V31 BBB", "direct BBB, hold south, EAC 1545", "37.9,-55.2"))
                .as(err)
                .isZero();
        assertThat(out).contains("expect approach clearance 1545").doesNotContain("further clearance at");
        JsonNode in = json("AAA V31 BBB", "direct BBB, hold south, EAC in 20 minutes", "37.9,-55.2");
        assertThat(in.at("/clearance/expect_approach_clearance").textValue()).isEqualTo("in 20 minutes");
        assertThat(in.at("/clearance/not_followed").isMissingNode()).isTrue();
        assertThat(in.at("/notes").toString()).doesNotContain("behind the hold");
    }

    @Test
    void whatTheChartHasNotIsSaidWithItsPlaceAndWithWhatItHas() {
        assertThat(brief("AAA V99 BBB", "direct BBB", "38.6,-55.0")).isEqualTo(2);
        assertThat(err.lines().findFirst().orElseThrow())
                .startsWith(
                        "UNKNOWN_AIRWAY: in the filed route, word 2: airway V99 is not on the chart; the chart has V31");
        assertThat(brief("AAA V31 BBB", "intercept V99, then as filed", "38.6,-55.0"))
                .isEqualTo(2);
        assertThat(err.lines().findFirst().orElseThrow())
                .startsWith(
                        "UNKNOWN_AIRWAY: in the clearance, word 2: airway V99 is not on the chart; the chart has V31");
        assertThat(brief("AAA V31 BBB", "fly heading 100, wibble the V31", "38.6,-55.0"))
                .isEqualTo(2);
        assertThat(err.lines().findFirst().orElseThrow())
                .startsWith("NOT_UNDERSTOOD: in the clearance, word 4: \"wibble");
    }

    /** A DME alone has no radials: where its arc is left is a magnetic bearing from it. */
    @Test
    void aPlaceFromAStationOfDmeAloneIsABearing() throws IOException {
        Files.writeString(
                chart,
                CHART.replace(
                        "airways:", "  - {ident: DMX, kind: DME, latitude_deg: 38.6, longitude_deg: -54.3}\nairways:"));
        String arc = "fly heading 110, intercept the DMX 12 mile arc clockwise, join V31, then as filed";
        JsonNode object = json("AAA V31 BBB", arc, "38.6,-55.0");
        JsonNode definition = object.at("/computed_fix/definitions/0");
        assertThat(definition.at("/station").textValue()).isEqualTo("DMX");
        assertThat(definition.has("radial_deg")).isFalse();
        assertThat(definition.at("/bearing_deg").isNumber()).isTrue();
        assertThat(object.at("/legs/1/to_bearing_deg").isNumber()).isTrue();
        assertThat(brief("AAA V31 BBB", arc, "38.6,-55.0")).as(err).isZero();
        assertThat(out).contains("DMX bearing", "leave the arc at its").doesNotContainPattern("DMX[^\\n]* radial");
    }

    @Test
    void objectHasAllThatWasWorkedOut() throws IOException {
        JsonNode object = json("CCC V40 DDD", RADIAL_OUT, "38.60,-54.90");
        assertThat(object.at("/clearance/heading_magnetic_deg").doubleValue()).isEqualTo(145);
        assertThat(object.at("/clearance/intercept/station").textValue()).isEqualTo("AAA");
        assertThat(object.at("/clearance/intercept/radial_deg").doubleValue()).isEqualTo(78);
        assertThat(object.at("/clearance/join_airway").textValue()).isEqualTo("V40");
        assertThat(object.at("/clearance/then").textValue()).isEqualTo("as_filed");
        near(object, "/assigned_heading_true_deg", 129.8417, 1e-4);
        near(object, "/course/magnetic_deg", 78, 1e-9);
        near(object, "/course/true_deg_at_intercept", 60.3697, 1e-4);
        assertThat(object.at("/course/direction").textValue()).isEqualTo("FROM");
        near(object, "/intercept/latitude_deg", 38.270950170, 2e-9);
        near(object, "/intercept/longitude_deg", -54.401378464, 2e-9);
        near(object, "/intercept/distance_nm", 30.684677, 1e-6);
        near(object, "/intercept/minutes", 30.684677 / 2, 1e-6);
        near(object, "/intercept/angle_deg", 69.7820, 1e-4);
        assertThat(object.at("/intercept/turn").textValue()).isEqualTo("left");
        assertThat(object.at("/intercept/airway").isMissingNode()).isTrue();
        near(object, "/computed_fix/latitude_deg", 38.528731773, 2e-9);
        near(object, "/computed_fix/longitude_deg", -53.821219838, 2e-9);
        near(object, "/computed_fix/crossing_angle_deg", 65.7076, 1e-4);
        near(object, "/computed_fix/definitions/0/distance_nm", 64.085920, 1e-6);
        near(object, "/computed_fix/definitions/1/radial_deg", 199.0256, 1e-4);
        near(object, "/legs/1/distance_nm", 31.424983, 2e-6);
        near(object, "/legs/2/distance_nm", 12.969823, 1e-6);
        assertThat(object.at("/legs/2/airway").textValue()).isEqualTo("V40");
        assertThat(object.at("/skipped/0").textValue()).isEqualTo("CCC");
        assertThat(object.at("/warnings/0/code").textValue()).isEqualTo("OUT_OF_SERVICE_VOLUME");
    }

    /** "Intercept" is said of the radial and of the airway that it leads to: neither takes the other's place. */
    @Test
    void aRadialAndTheAirwayBehindItBothStandInTheObject() throws IOException {
        JsonNode object = json(
                "CCC V40 DDD", "fly heading 145, intercept the AAA 078 radial outbound, intercept V40", "38.6,-54.9");
        assertThat(object.at("/clearance/intercept/station").textValue()).isEqualTo("AAA");
        assertThat(object.at("/clearance/join_airway").textValue()).isEqualTo("V40");
    }

    @Test
    void anAltitudeBesideTheWordsIsOneThatWordsCouldAssign() {
        for (String feet : List.of("-100", "0", "499", "60001")) {
            assertThat(brief("AAA V31 BBB", "direct BBB", "37.9,-55.2", "--assign-altitude=" + feet))
                    .isEqualTo(2);
            assertThat(err).contains("--assign-altitude " + feet, "500 to 60000 feet would be right");
        }
    }

    @Test
    void aFlightLevelStaysOne() {
        assertThat(brief("AAA V31 BBB", "direct BBB, climb and maintain FL110, cross BBB at FL100", "37.9,-55.2"))
                .isZero();
        assertThat(out).contains("climb and maintain FL110", "BBB at FL100").doesNotContain("11000");
        assertThat(brief("AAA V31 BBB", "direct BBB, climb and maintain 11000", "37.9,-55.2"))
                .isZero();
        assertThat(out).contains("climb and maintain 11000 ft").doesNotContain("FL110");
        assertThat(brief("AAA V31 BBB", "direct BBB", "37.9,-55.2", "--assign-altitude=FL80"))
                .isZero();
        assertThat(out)
                .contains("Clearance: direct BBB, maintain FL080", "Altitude     maintain FL080")
                .doesNotContain("8000");
        assertThat(brief("AAA V31 BBB", "direct BBB", "37.9,-55.2", "--assign-altitude=8000"))
                .isZero();
        assertThat(out)
                .contains("direct BBB, maintain 8000", "maintain 8000 ft")
                .doesNotContain("FL080");
        assertThat(brief("AAA V31 BBB", "direct BBB", "37.9,-55.2", "--assign-altitude=20000"))
                .isZero();
        assertThat(out).contains("direct BBB, maintain FL200");
    }

    @Test
    void anAltitudeIsTypedAsItIsWritten() throws IOException {
        for (String feet : List.of("8000", "8,000", "8,000'", "8 000 ft", "8000ft", "8000 feet", "FL80")) {
            JsonNode object = json("AAA V31 BBB", "direct BBB", "37.9,-55.2", "--assign-altitude=" + feet);
            assertThat(object.at("/clearance/altitude_ft").asDouble()).as(feet).isEqualTo(8000);
        }
        assertThat(json("AAA V31 BBB", "direct BBB, maintain 8 000'", "37.9,-55.2")
                        .at("/clearance/altitude_ft")
                        .asDouble())
                .isEqualTo(8000);
    }

    @Test
    void objectHasEachAirwayWithItsOwnFixesAndTheCourseOfAnArc() throws IOException {
        JsonNode airways = json("AAA V31 BBB", "direct AAA, V31 BBB, direct CCC, V40 DDD", "37.9,-55.2");
        assertThat(airways.at("/clearance/join_airway").textValue()).isEqualTo("V31");
        assertThat(airways.at("/clearance/join_to").textValue()).isEqualTo("BBB");
        assertThat(airways.at("/clearance/then_join/0/join_airway").textValue()).isEqualTo("V40");
        assertThat(airways.at("/clearance/then_join/0/join_to").textValue()).isEqualTo("DDD");
        JsonNode arc = json(
                "AAA V31 BBB",
                "fly heading 090, intercept the AAA 10 mile arc counterclockwise to the AAA 020 radial",
                "37.9,-55.3");
        JsonNode leg = arc.at("/legs/1");
        assertThat(leg.at("/type").textValue()).isEqualTo("AF");
        // Variation there by the World Magnetic Model 2025, as of the leg before it.
        near(
                arc,
                "/legs/1/course_magnetic_deg",
                (leg.at("/course_true_deg").doubleValue() - variationDeg(arc) + 360) % 360,
                0.2);
    }

    /** East positive, at the aircraft. */
    private static double variationDeg(JsonNode object) {
        return object.at("/assigned_heading_true_deg").doubleValue()
                - object.at("/clearance/heading_magnetic_deg").doubleValue();
    }

    private static void near(JsonNode object, String path, double expected, double tolerance) {
        assertThat(object.at(path).isNumber()).as(path).isTrue();
        assertThat(object.at(path).doubleValue()).as(path).isCloseTo(expected, within(tolerance));
    }

    @Test
    void airwayOfTheIntercept() throws IOException {
        JsonNode object = json(
                "AAA V31 BBB",
                "fly heading 110, intercept V31, resume own navigation",
                "38.30,-55.70",
                "--wind",
                "200/25");
        assertThat(object.at("/intercept/airway").textValue()).isEqualTo("V31");
        assertThat(object.at("/intercept/from").textValue()).isEqualTo("AAA");
        assertThat(object.at("/intercept/to").textValue()).isEqualTo("BBB");
        near(object, "/intercept/distance_nm", 55.152615, 1e-6);
        near(object, "/legs/0/course_magnetic_deg", 110, 1e-9);
        assertThat(object.has("course")).isFalse();
        assertThat(object.has("computed_fix")).isFalse();
    }

    @Test
    void proposedHeadingIsSaidAndIsNoAssignedOne() throws IOException {
        JsonNode object = json("CCC V40 DDD", "intercept the AAA 078 radial, join V40, then as filed", "38.60,-54.90");
        assertThat(object.has("assigned_heading_true_deg")).isFalse();
        assertThat(object.at("/proposed_heading_magnetic_deg").isNumber()).isTrue();
        brief("CCC V40 DDD", "intercept the AAA 078 radial, join V40, then as filed", "38.60,-54.90");
        assertThat(out).contains("(proposed; none was assigned)");
    }

    /** As pilots say it; and but for positions, which others compare, no number has more digits than it is worth. */
    @Test
    void anAltitudeMayBeAFlightLevelAndNumbersHaveSixDecimalsAtMost() {
        assertThat(brief("CCC V40 DDD", RADIAL_OUT, "38.60,-54.90", "--json", "--altitude", "FL100"))
                .as(err)
                .isZero();
        assertThat(out.lines().filter(line -> !line.contains("tude_deg")).toList())
                .anyMatch(line -> line.contains("10000"))
                .noneMatch(line -> line.matches(".*\\d\\.\\d{7}.*"));
    }

    /** Works with each step shown, a direct too. */
    @Test
    void theWorkingOfADirectIsShown() {
        assertThat(brief("CCC V40 DDD", "proceed direct DDD", "38.60,-54.90", "--working"))
                .isZero();
        assertThat(out.split("THE WORKING", 2)[1].lines().filter(line -> !line.isBlank()))
                .hasSizeGreaterThan(3);
        // In calm air the correction is nothing, and nothing has no minus.
        assertThat(out).contains("values:  +0.00 degrees:").doesNotContain("-0.00");
    }

    @Test
    void wordsForTheCockpitAndTheNavigator() {
        assertThat(brief("CCC V40 DDD", RADIAL_OUT, "38.60,-54.90", "--working", "--date", "2026-06-01"))
                .isZero();
        assertThat(out)
                .contains("true airspeed taken as 120 kt", "set 078 FROM AAA", "AAA078064", "Skipped", "CCC")
                .contains("Hold the sequencing", "Insert it in the flight plan directly before DDD")
                .contains("R tan(angle / 2)")
                .contains("VI heading until the course is met; FC course from a fix for a distance; TF track")
                .endsWith(Rejoin.CAUTION + System.lineSeparator());
        assertThat(err).isEmpty();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "CCC V40 DDD | intercept the AAA 113 radial, join V40, then as filed | RADIAL_DOES_NOT_CROSS_AIRWAY",
                "AAA V31 BBB | fly heading 100, join V40, then as filed | AIRWAY_NOT_IN_ROUTE",
                "AAA V31 BBB | fly heading 100, intercept the ZZZ 078 radial, join V31 | UNKNOWN_STATION",
                "AAA V31 BBB | fly heading 100, intercept V99, resume own navigation | UNKNOWN_AIRWAY",
                "AAA V31 BBB | fly heading 100, wibble the V31 | NOT_UNDERSTOOD"
            })
    void refusalStartsWithItsCode(String filed, String clearance, String code) {
        assertThat(brief(filed, clearance, "38.30,-55.70", "--json")).isEqualTo(2);
        assertThat(err)
                .startsWith(code + ": ")
                .satisfies(text -> assertThat(text.lines()).hasSize(1));
        assertThat(out).startsWith("{\"error\":{\"code\":\"" + code + "\"");
    }

    @Test
    void wordsNotUnderstoodArePointedAt() {
        assertThat(brief("AAA V31 BBB", "fly heading 100, wibble the V31", "38.30,-55.70"))
                .isEqualTo(2);
        List<String> lines = err.lines().toList();
        assertThat(lines.get(0)).startsWith("NOT_UNDERSTOOD: ").contains("wibble");
        assertThat(lines.get(2).indexOf('^')).isEqualTo(lines.get(1).indexOf("wibble"));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "38.3,-55.7 | --wind | 400/20 | 400",
                "38.3,-55.7 | --wind | 270 | 270/20",
                "38.3,-55.7 | --speed | 0 | 30 to 1000",
                "38.3,-55.7 | --speed | NaN | 30 to 1000",
                "38.3,-55.7 | --heading | 361 | 001 to 360",
                "38.3,-55.7 | --altitude | 1e9 | 100000",
                "38.3,-55.7 | --date | 2026-13-01 | YYYY-MM-DD",
                "91,0 | --speed | 100 | latitude 91",
                "AAA/361/5 | --speed | 100 | 001 to 360",
                "38.3 -55.7 | --speed | 100 | did you mean 38.3,-55.7?",
                "38.3,-55.7 | --spede | 100 | did you mean --speed",
                "38.3,-55.7 | --svg | nowhere/a.svg | there is no directory",
                "38.3,-55.7 | --svg | / | it is a directory",
                "NOWHERE | --speed | 100 | NOWHERE",
                "AAA/100/9999 | --speed | 100 | --at distance 9999 NM is not in 0 to 1000",
                "AAA/400/10 | --speed | 100 | --at radial 400: a radial has three figures",
                "EEE/100/10 | --speed | 100 | --at station EEE is not on chart"
            })
    void badInputIsOneLine(String at, String option, String value, String says) {
        assertThat(brief("AAA V31 BBB", "fly heading 110, intercept V31", at, option, value))
                .isEqualTo(2);
        assertThat(err)
                .contains(says)
                .satisfies(text -> assertThat(text.lines()).hasSize(1));
    }

    @Test
    void blankForACommaAndAMistypedCommandGetAHint() {
        assertThat(brief("AAA V31 BBB", "fly heading 110, intercept V31", "38.3", "-55.7"))
                .isEqualTo(2);
        assertThat(err).contains("did you mean 38.3,-55.7?");
        refused("breif");
        assertThat(err).contains("did you mean brief").hasLineCount(1);
    }

    @Test
    void headingThatNeverMeetsIsNotDrawnAsIfItDid() throws IOException {
        assertThat(brief("CCC V40 DDD", RADIAL_OUT.replace("145", "325"), "38.60,-54.90", "--date", "2026-06-01"))
                .isZero();
        String said = out.replaceAll("\\s+", " ");
        assertThat(said)
                .contains("Heading 325 does not take you to it. Say so, and ask for a heading that does: ")
                .contains("Once on the course, that is where to turn")
                .doesNotContain("There turn");
        JsonNode object = json("CCC V40 DDD", RADIAL_OUT.replace("145", "325"), "38.60,-54.90");
        assertThat(object.has("intercept")).isFalse();
        assertThat(object.at("/headings_that_meet/0/from_magnetic_deg").isNumber())
                .isTrue();
        assertThat(object.at("/legs/1/type").textValue()).isEqualTo("FC");
        assertThat(object.at("/legs/1").has("distance_nm"))
                .as("not known where the radial is joined")
                .isFalse();
    }

    @Test
    void speedAndDisregardAreShown() throws IOException {
        assertThat(brief("CCC V40 DDD", RADIAL_OUT + ", maintain 100 knots or greater", "38.60,-54.90"))
                .isZero();
        assertThat(out).contains("100 knots or greater, by the airspeed indicator");
        JsonNode slow = json("CCC V40 DDD", RADIAL_OUT + ", reduce speed to 100", "38.60,-54.90");
        assertThat(slow.at("/clearance/speed_kt").doubleValue()).isEqualTo(100);
        assertThat(brief("CCC V40 DDD", "disregard, continue as filed", "38.60,-54.90"))
                .isZero();
        assertThat(out)
                .contains("ATC takes the amendment back", "as it was; the legs are below", "Undo what was set")
                .doesNotContain("Skipped", "before ATC says");
        assertThat(brief("CCC V40 DDD", "climb and maintain 8000", "38.60,-54.90"))
                .isZero();
        assertThat(out)
                .contains("The route does not change.", "maintain 8000 ft", "Leave it as it is.")
                .doesNotContain("Skipped", "before ATC says");
    }

    @Test
    void radialOver360IsRefused() {
        assertThat(brief("CCC V40 DDD", "intercept the AAA 361 radial, join V40", "38.6,-54.9"))
                .isEqualTo(2);
        assertThat(err).startsWith("NOT_UNDERSTOOD");
    }

    @Test
    void drawingIsWellFormedAndNeverRunsAnything() throws Exception {
        Path svg = directory.resolve("drawing.svg");
        assertThat(brief("CCC V40 DDD", RADIAL_OUT, "38.60,-54.90", "--svg", svg.toString()))
                .isZero();
        String text = Files.readString(svg);
        assertThat(text)
                .contains(
                        "AAA 078 radial",
                        "computed fix AAA078064",
                        "V40",
                        " NM",
                        "true north up",
                        "magnetic,",
                        Rejoin.CAUTION)
                .doesNotContain("<script", "NaN", "href");
        assertThat(DocumentBuilderFactory.newInstance()
                        .newDocumentBuilder()
                        .parse(svg.toFile())
                        .getDocumentElement()
                        .getTagName())
                .isEqualTo("svg");
    }

    /** Of a hold that is published the chart says the turns, and the clearance says none. */
    @Test
    void theClearanceDoesNotClaimTheTurnsOfAPublishedHold() throws IOException {
        Files.writeString(chart, CHART + """
                holds:
                  - {fix: BBB, inbound_course_magnetic_deg: 060, turns: left, leg_min: 1}
                """);
        JsonNode published = json("AAA V31 BBB", "direct BBB, hold at BBB", "38.0,-55.6");
        assertThat(published.at("/clearance/hold/turns").isMissingNode()).isTrue();
        assertThat(published.at("/hold/turns").textValue()).isEqualTo("left");
        JsonNode east = json("AAA V31 BBB", "direct BBB, hold east of BBB", "38.0,-55.6");
        assertThat(east.at("/clearance/hold/turns").textValue())
                .as("unsaid, and not published: right, the standard")
                .isEqualTo("right");
    }

    @Test
    void anArcAHoldAndACrossingInTheObject() throws IOException {
        Files.writeString(chart, CHART + """
                holds:
                  - {fix: BBB, inbound_course_magnetic_deg: 060, turns: left, leg_min: 1}
                """);
        JsonNode object = json(
                "AAA V31 BBB",
                "turn right heading 120, intercept the AAA 15 mile arc, arc clockwise to join V31, cleared to BBB, hold"
                        + " southwest, as published, cross BBB at 8000",
                "38.0,-55.6",
                "--heading",
                "090");
        assertThat(object.at("/clearance/limit").textValue()).isEqualTo("BBB");
        assertThat(object.at("/clearance/turn").textValue()).isEqualTo("right");
        assertThat(object.at("/clearance/arc/station").textValue()).isEqualTo("AAA");
        near(object, "/clearance/arc/distance_nm", 15, 0);
        assertThat(object.at("/clearance/arc/direction").textValue()).isEqualTo("clockwise");
        assertThat(object.at("/clearance/hold/as_published").booleanValue()).isTrue();
        assertThat(object.at("/clearance/cross/0/fix").textValue()).isEqualTo("BBB");
        assertThat(object.at("/turn_to_heading/direction").textValue()).isEqualTo("right");
        near(object, "/turn_to_heading/degrees", 30, 1e-9);
        near(object, "/turn_to_heading/seconds", 10, 1e-9);
        assertThat(object.at("/legs/1/type").textValue()).isEqualTo("AF");
        near(object, "/legs/1/distance_nm", 15, 0);
        near(object, "/legs/1/to_radial_deg", 60.95, 0.01);
        assertThat(object.at("/legs/1/turn").textValue()).isEqualTo("right");
        assertThat(object.at("/legs/2/course_station").textValue()).isEqualTo("AAA");
        assertThat(object.at("/legs/2/heading_to_hold_magnetic_deg").isNumber()).isTrue();
        assertThat(object.at("/legs/3/type").textValue()).isEqualTo("HM");
        assertThat(object.at("/hold/turns").textValue()).isEqualTo("left");
        assertThat(object.at("/hold/entry").textValue()).isEqualTo("direct");
        near(object, "/hold/inbound_course_magnetic_deg", 60, 0);
        near(object, "/hold/inbound_course_true_deg", 43, 0);
        near(object, "/hold/outbound_s", 60, 1e-6);
        near(object, "/hold/max_speed_kt", 200, 0);
        assertThat(object.at("/crossings/0/bound").textValue()).isEqualTo("at");
        double ftPerNm = object.at("/crossings/0/ft_per_nm").doubleValue();
        assertThat(ftPerNm * object.at("/crossings/0/distance_nm").doubleValue())
                .isCloseTo(3000, within(0.01));
        assertThat(object.at("/crossings/0/ft_per_min").doubleValue())
                .as("120 kt: two miles a minute")
                .isCloseTo(2 * ftPerNm, within(1e-4));
    }

    @Test
    void anAltitudeBesideTheWordsCountsLikeOneInThem() throws IOException {
        String words = "fly heading 110, intercept V31, resume own navigation";
        JsonNode beside = json("AAA V31 BBB", words, "38.30,-55.70", "--assign-altitude", "800");
        JsonNode within = json("AAA V31 BBB", words + ", maintain 800", "38.30,-55.70");
        assertThat(beside.get("warnings")).isEqualTo(within.get("warnings")).isNotEmpty();
        near(beside, "/clearance/altitude_ft", 800, 0);
    }

    @Test
    void aSteepCrossingByTheAircraftsOwnDescent() throws IOException {
        String words = "direct BBB, cross BBB at 4000";
        assertThat(codes(json("AAA V31 BBB", words, "38.9,-53.9"))).doesNotContain("CROSSING_STEEP");
        assertThat(codes(json("AAA V31 BBB", words, "38.9,-53.9", "--descent", "200")))
                .contains("CROSSING_STEEP");
    }

    private static List<String> codes(JsonNode object) {
        return object.get("warnings").findValuesAsText("code");
    }

    @Test
    void theDrawingHasTheArcAndTheRacetrack() throws IOException {
        Path svg = directory.resolve("arc.svg");
        assertThat(brief(
                        "AAA V31 BBB",
                        "intercept the AAA 15 mile arc clockwise to join V31, hold southwest of BBB on V31",
                        "38.0,-55.6",
                        "--svg",
                        svg.toString()))
                .isZero();
        assertThat(Files.readString(svg))
                .contains("15 DME arc AAA", "route to fly")
                .doesNotContain("NaN");
        assertThat(out).contains("Arc", "Hold", "entry", "by AAA");
    }

    /** What is filed beyond is flown no more, and the leg to join is made before it can be made active. */
    @Test
    void anotherDestinationLeavesNothingOfTheFiledRouteToFly() {
        Path ocean = Path.of("src", "main", "resources", "org", "rejoin", "console", "lesson", "open-ocean.yaml");
        chart = ocean;
        assertThat(brief(
                        "XSKU DCT SKU V40 FUL DCT XFUL",
                        "cleared to XSHE via V31 SHEAR, direct",
                        "38.20,-49.92",
                        "--altitude",
                        "6000",
                        "--speed",
                        "140",
                        "--date",
                        "2026-06-01"))
                .as(err)
                .isZero();
        assertThat(out.replaceAll("\\s+", " "))
                .contains(
                        "SKU, PRION, XFUL: no longer flown",
                        "Insert PTL directly before FUL",
                        "Delete SKU, PRION, XFUL, no longer flown");
    }

    /** Where the arc is met the aircraft flies the arc, not the radial it is left by. */
    @Test
    void anArcMetFirstIsNotTheCourseOfItsRadial() throws IOException {
        JsonNode object = json(
                "AAA V31 BBB",
                "turn right heading 120, intercept the AAA 15 mile arc clockwise to the AAA 290 radial inbound, join V31 at AAA, then as filed",
                "38.0,-55.6",
                "--heading",
                "090");
        assertThat(object.at("/intercept/distance_nm").isNumber()).isTrue();
        near(object, "/course/magnetic_deg", 110, 1e-9);
        assertThat(object.at("/course/true_deg_at_intercept").isMissingNode()).isTrue();
    }

    /** The radial that the arc is left at is V31 itself: ATC has said how the route goes on. */
    @Test
    void anArcLeftOntoAnAirwayIsSetAndTheTurnOffItIsTheOneThatIsThere() {
        assertThat(brief(
                        "AAA V31 BBB",
                        "fly heading 050, join the AAA 20 DME arc clockwise, intercept V31, then as filed",
                        "38.1,-55.1",
                        "--date",
                        "2026-06-01"))
                .as(err)
                .isZero();
        String said = out.replaceAll("\\s+", " ");
        assertThat(said)
                .contains(
                        "The arc crosses V31", "Hold the sequencing until you leave the arc; then make the leg to BBB")
                .doesNotContain("nothing is to be set", "right-angled", "The course crosses");
        assertThat(brief(
                        "AAA V31 BBB",
                        "fly heading 050, join the AAA 20 DME arc clockwise, arc to the AAA 090 radial, then direct BBB",
                        "38.1,-55.1",
                        "--date",
                        "2026-06-01"))
                .as(err)
                .isZero();
        assertThat(out.replaceAll("\\s+", " "))
                .containsPattern(
                        "where it is left turn (left|right) \\d+ degrees; begin \\d+ degrees? of radial before");
    }

    @Test
    void theTimeOutboundOfAHoldSaysFromWhenItCounts() {
        assertThat(brief(
                        "AAA V31 BBB",
                        "direct BBB, hold east of BBB on the 090 radial, right turns",
                        "38.9,-53.7",
                        "--wind",
                        "253/30"))
                .as(err)
                .isZero();
        assertThat(out.replaceAll("\\s+", " "))
                .containsPattern("\\d+ s from wings level or abeam the fix, whichever is later")
                .doesNotContain("s from abeam");
    }

    @Test
    void aDeclinationOfTheWrongSignIsSaidWhereItsStationIsUsed() throws IOException {
        Files.writeString(chart, CHART.replace("declination_deg: -18.0", "declination_deg: 18.0"));
        String[] day = {"--date", "2026-06-01"};
        assertThat(brief("CCC V40 DDD", RADIAL_OUT.replace("078", "042"), "38.60,-54.90", day))
                .as(err)
                .isZero();
        assertThat(out.replaceAll("\\s+", " "))
                .containsOnlyOnce("note: AAA has declination 18.0 degrees east, but the variation there is")
                .contains("the sign looks wrong");
        assertThat(brief("CCC V40 DDD", "direct DDD", "38.60,-54.90", day)).isZero();
        assertThat(out).doesNotContain("AAA has declination");
        Files.writeString(chart, CHART);
        assertThat(brief("CCC V40 DDD", RADIAL_OUT, "38.60,-54.90", day)).isZero();
        assertThat(out).doesNotContain("has declination");
    }

    @Test
    void nothingSaidPointsAtNothingAndOneProblemIsOne() throws IOException {
        Files.writeString(
                chart,
                CHART.replace("airways:", "fixes:\n  - {ident: LOST, latitude_deg: 95, longitude_deg: 0}\nairways:"));
        assertThat(brief("AAA V31 BBB", "", "38.0,-55.0")).isEqualTo(2);
        assertThat(err).hasLineCount(1).contains("nothing was said", "(the chart has 1 problem of its own)");
    }

    @Test
    void aCrossingThatIsNotOnTheRouteKeepsItsBound() {
        assertThat(brief("AAA V31 BBB", "direct BBB, cross CCC at or above 5000", "38.0,-54.5", "--date", "2026-06-01"))
                .isZero();
        assertThat(out.replaceAll("\\s+", " "))
                .contains("CROSSING_NOT_ON_ROUTE: CCC is to be crossed at or above 5000 ft");
    }

    @Test
    void aFixThatIsNoStationHasNoRadialsToStandOn() throws IOException {
        Files.writeString(
                chart,
                CHART.replace(
                        "airways:", "fixes:\n  - {ident: CORAL, latitude_deg: 38.5, longitude_deg: -54.4}\nairways:"));
        assertThat(brief("AAA V31 BBB", "fly heading 110, intercept V31", "CORAL/100/10"))
                .isEqualTo(2);
        assertThat(err.toString()).contains("--at CORAL is no station and has no radials: give CORAL itself");
    }

    /** Flown is first the arc, to its end, then the radial, to the fix that is computed, then the airway. */
    @Test
    void anArcIsToldBeforeWhatComesAfterIt() {
        assertThat(brief(
                        "CCC V40 DDD",
                        "intercept the AAA 20 mile arc clockwise to the AAA 078 radial outbound, join V40, then as filed",
                        "38.4,-55.3",
                        "--date",
                        "2026-06-01"))
                .as(err.toString())
                .isZero();
        String sheet = out.toString().substring(out.toString().indexOf("IN THE COCKPIT"));
        List<String> order = List.of("Arc ", "Fix to make", "Computed fix", "Turn there", "Then ");
        assertThat(sheet).contains(order);
        assertThat(order.stream().map(sheet::indexOf)).isSorted();
        assertThat(sheet.substring(sheet.indexOf("Then ")))
                .as("both fixes to make and the airway")
                .containsPattern("Then +AAA078020, AAA078064, V40 DDD");
        String picture = out.toString().substring(out.toString().indexOf("THE PICTURE"));
        assertThat(picture.replaceAll("\\s+", " ")).containsSubsequence("You circle", "fix to make, ");
    }

    /** All that is to be flown is inside of the frame: the last fix of the route, and the hold at its far side. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "direct CCC, direct AAA, V31 BBB, direct DDD | AAA BBB DDD",
                "hold west of CCC on the CCC 270 radial, 25 mile legs | CCC"
            })
    void everythingThatIsFlownIsInsideOfTheDrawing(String clearance, String points) throws IOException {
        Path svg = directory.resolve("all.svg");
        assertThat(brief(
                        "CCC V40 DDD",
                        "direct CCC, " + clearance.replace("direct CCC, ", ""),
                        "39.1,-54.9",
                        "--svg",
                        svg.toString()))
                .as(err.toString())
                .isZero();
        String text = Files.readString(svg);
        java.util.regex.Matcher frame = java.util.regex.Pattern.compile(
                        "<rect class=\"frame\" width=\"([0-9.]+)\" height=\"([0-9.]+)\"")
                .matcher(text);
        assertThat(frame.find()).isTrue();
        double width = Double.parseDouble(frame.group(1));
        double height = Double.parseDouble(frame.group(2));
        java.util.regex.Matcher lines = java.util.regex.Pattern.compile("class=\"amended\" points=\"([^\"]+)\"")
                .matcher(text);
        int drawn = 0;
        while (lines.find()) {
            for (String pair : lines.group(1).trim().split(" ", -1)) {
                String[] xy = pair.split(",", -1);
                assertThat(Double.parseDouble(xy[0])).as(pair).isBetween(0.0, width);
                assertThat(Double.parseDouble(xy[1])).as(pair).isBetween(0.0, height);
                drawn++;
            }
        }
        assertThat(drawn).isGreaterThan(1);
        for (String point : points.split(" ", -1)) {
            assertThat(text).contains(">" + point + "<");
        }
    }
}
