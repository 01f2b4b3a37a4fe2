package org.rejoin.console.lesson;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalTime;

import org.rejoin.bridge.Amendment;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** Lessons: what is wrong is said in one line, with the file and the line of it. */
class LessonReaderTest {

    private static final Path ARINC =
            Path.of("../bridge/src/test/resources/org/rejoin/bridge/chart/io/ocean-sample.424");

    private static final String CHART = """
            stations:
              - {ident: AAA, name: Albatross, kind: VORTAC, latitude_deg: 38.0, longitude_deg: -50.0, declination_deg: -17}
              - {ident: BBB, name: Booby, kind: VORTAC, latitude_deg: 38.0, longitude_deg: -49.0, declination_deg: -17}
              - {ident: DUP, kind: NDB, latitude_deg: -38.0, longitude_deg: 9.0}
              - {ident: DUP, kind: NDB, latitude_deg: 38.2, longitude_deg: -50.0}
            airways:
              - {ident: V1, points: [AAA, BBB]}
            """;

    private static final String LESSON = """
            title: A lesson
            chart: chart.yaml
            filed: "AAA V1 BBB"
            date: 2026-06-01
            start: {at: "38.2,-49.9", altitude_ft: 5000, heading_magnetic_deg: 120, speed_kt: 120}
            wind: {from_true_deg: 270, speed_kt: 20}
            amendments:
              - when: {elapsed_s: 30}
                say: fly heading 130, intercept V1, resume own navigation
                altitude_ft: 5000
              - when: {abeam: BBB}
                say: direct BBB
            standard: instrument-rating
            """;

    @TempDir
    Path folder = Path.of("");

    private Path lesson(String text, String chart) throws IOException {
        Files.writeString(folder.resolve("chart.yaml"), chart);
        return Files.writeString(folder.resolve("lesson.yaml"), text);
    }

    private String refused(String text, String chart) throws IOException {
        Path file = lesson(text, chart);
        LessonException refused = catchThrowableOfType(LessonException.class, () -> LessonReader.readFile(file));
        assertThat(refused).as(text).isNotNull();
        assertThat(refused.getMessage()).isNotNull().doesNotContain("\n");
        return String.valueOf(refused.getMessage());
    }

    /** Four figures, also where YAML 1.1 would read them as octal, or as sixties. */
    @ParameterizedTest
    @CsvSource({"1500, 15:00", "0730, 07:30", "07:30, 07:30", "'\"0005\"', 00:05"})
    void theTimeOfDayAtTheStart(String said, LocalTime time) throws Exception {
        Path file = lesson(LESSON.replace("date: 2026-06-01", "date: 2026-06-01\ntime_utc: " + said), CHART);
        assertThat(LessonReader.readFile(file).time()).contains(time);
        assertThat(LessonReader.readFile(lesson(LESSON, CHART)).time()).isEmpty();
    }

    @ParameterizedTest
    @EnumSource
    void theBuiltInLessonsAreSound(BuiltInLesson lesson) throws Exception {
        Lesson.Files files = LessonReader.read(lesson.lessonName()).files();
        Path copy = Files.writeString(folder.resolve("lesson.yaml"), files.lessonYaml());
        Lesson.KeptChart.Octets chart = (Lesson.KeptChart.Octets) files.chart();
        Files.write(folder.resolve(files.chartName()), chart.octets());
        // As a file it is read whole, its clearances too.
        assertThat(LessonReader.readFile(copy).notes()).isEmpty();
    }

    @Test
    void aLessonIsRead() throws Exception {
        Lesson lesson = LessonReader.readFile(lesson(LESSON, CHART));
        assertThat(lesson.title()).isEqualTo("A lesson");
        assertThat(lesson.amendments()).hasSize(2);
        assertThat(lesson.amendments().get(1).when()).isEqualTo(new Amendment.When.Abeam("BBB"));
        assertThat(lesson.notes()).isEmpty();
        assertThat(lesson.files().chart())
                .isInstanceOfSatisfying(
                        Lesson.KeptChart.Octets.class,
                        kept -> assertThat(new String(kept.octets(), StandardCharsets.UTF_8))
                                .isEqualTo(CHART));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "chart: chart.yaml | chart: none.yaml | lesson.yaml:2: chart: | none.yaml does not exist",
                "chart: chart.yaml | chart: | lesson.yaml:2: chart: missing | relative to the lesson",
                "chart: chart.yaml | charts: x | lesson.yaml:2: | unknown name \"charts\" in a lesson; did you mean chart?",
                "chart: chart.yaml | chart: lesson.yaml | lesson.yaml:2: chart: | expected a chart",
                "\"AAA V1 BBB\" | \"AAA V2 BBB\" | lesson.yaml:3: filed: | V2",
                "\"AAA V1 BBB\" | | lesson.yaml:3: filed: | missing; the filed route, for example",
                "\"AAA V1 BBB\" | \"AAA V1 CCC\" | lesson.yaml:3: filed: | CCC",
                "\"AAA V1 BBB\" | [AAA, BBB] | lesson.yaml:3: | filed must be one value, found a list",
                "2026-06-01 | 1 June | lesson.yaml:4: date: | YYYY-MM-DD",
                "2026-06-01 | 0026-06-01 | lesson.yaml:4: date: | 1900 to 2099",
                "38.2,-49.9 | 98.2,-49.9 | lesson.yaml:5: start: at: | -90 to 90 degrees",
                "38.2,-49.9 | AAB | lesson.yaml:5: start: at: | is not a place",
                "altitude_ft: 5000, | altitude_ft: high, | lesson.yaml:5: start: altitude_ft | a number is needed",
                "altitude_ft: 5000, | altitude_ft: .nan, | lesson.yaml:5: start: altitude_ft | .nan",
                "altitude_ft: 5000, | altitude_ft: 70000, | lesson.yaml:5: start: altitude_ft: | 0 to 60000 feet",
                "heading_magnetic_deg: 120, | | lesson.yaml:5: start: heading_magnetic_deg: | missing; a number, 0 to 360 degrees magnetic",
                "heading_magnetic_deg: 120 | heading_magnetic_deg: 361 | lesson.yaml:5: start: heading | 0 to 360",
                "speed_kt: 120 | speed_kt: 12 | lesson.yaml:5: start: speed_kt: | 40 to 600 knots",
                "speed_kt: 20 | speed_kt: -1 | lesson.yaml:6: wind: speed_kt: | 0 to 300 knots",
                "from_true_deg: 270, | | lesson.yaml:6: wind: from_true_deg: | missing; a number, 0 to 360 degrees true",
                "{from_true_deg: 270, speed_kt: 20} | calm | lesson.yaml:6: | wind must be a mapping",
                "when: {elapsed_s: 30} | when: {} | lesson.yaml:8: amendment 1: when: | elapsed_s: SECONDS or abeam",
                "{elapsed_s: 30} | {elapsed_s: 30, abeam: AAA} | lesson.yaml:8: amendment 1: when: | either",
                "elapsed_s: 30 | elapsed_s: -1 | lesson.yaml:8: amendment 1: when: elapsed_s: | seconds",
                "elapsed_s: 30 | elapsed: 30 | lesson.yaml:8: | unknown name \"elapsed\" in when; did you mean elapsed_s?",
                "fly heading 130 | fyl heading 130 | lesson.yaml:9: amendment 1: say: not understood | fly",
                "intercept V1 | intercept V9 | lesson.yaml:9: amendment 1: say: airway V9 | V1",
                "say: direct BBB | | lesson.yaml:11: amendment 2: say: | missing; ATC's words, for example",
                "altitude_ft: 5000$ | altitude_ft: -5 | lesson.yaml:10: amendment 1: altitude_ft: | 500 to 60000",
                "abeam: BBB | abeam: CCC | lesson.yaml:11: amendment 2: when: abeam: | CCC is not on chart",
                "abeam: BBB | abeam: CCC | lesson.yaml:11: amendment 2: when: abeam: | the filed route has ",
                "abeam: BBB | abeam: BBA | lesson.yaml:11: amendment 2: when: abeam: | did you mean BBB?",
                "38.2,-49.9 | AAB/078/12 | lesson.yaml:5: start: at: | did you mean AAA?",
                "abeam: BBB | abeam: DUP | lesson.yaml:11: amendment 2: when: abeam: | 2 points",
                "instrument-rating | perfection | lesson.yaml:13: standard: | perfection",
                "title: A lesson | title: [ | lesson.yaml: | not YAML",
                "date: 2026 | title: again\\ndate: 2026 | lesson.yaml:4: | key \"title\" stands twice; the first, of line 1",
                "altitude_ft: 5000, | altitude_ft: 5,5, | lesson.yaml:5: start: altitude_ft | write 5.5",
                "altitude_ft: 5000, | altitude_ft: 5_000, | lesson.yaml:5: start: altitude_ft | write 5000",
                "altitude_ft: 5000, | altitude_ft: 0x50, | lesson.yaml:5: start: altitude_ft | decimal figures",
                "38.2,-49.9 | 38,2,-49,9 | lesson.yaml:5: start: at: | did you mean 38.2,-49.9?",
                "date: 2026-06-01 | time_utc: 2460 | lesson.yaml:4: time_utc: | \"2460\" is not a time of day, 0000 to 2359 UTC",
                "date: 2026-06-01 | time_utc: 930 | lesson.yaml:4: time_utc: | expected HHMM",
                "abeam: BBB | elapsed_s: 20 | lesson.yaml:11: amendment 2: | 20 s is before amendment 1 at 30 s"
            })
    void whatIsWrongIsSaidWithItsLine(String part, String instead, String where, String said) throws IOException {
        String changed = LESSON.replaceFirst(
                "(?m)" + (part.endsWith("$") ? part : java.util.regex.Pattern.quote(part)),
                java.util.regex.Matcher.quoteReplacement(instead == null ? "" : instead.replace("\\n", "\n")));
        assertThat(changed).isNotEqualTo(LESSON);
        assertThat(refused(changed, CHART)).contains(where.equals("lesson.yaml:") ? "lesson.yaml:" : where, said);
    }

    @Test
    void noLessonAtAll() throws IOException {
        assertThat(refused("", CHART)).contains("lesson.yaml", "empty");
        assertThat(refused("- a\n- b\n", CHART)).contains("lesson.yaml:1", "must be a mapping");
        Path latin = Files.write(folder.resolve("latin.yaml"), new byte[] {'t', ':', ' ', (byte) 0xE9});
        assertThat(catchThrowableOfType(LessonException.class, () -> LessonReader.readFile(latin)))
                .hasMessage(latin + ": line 1, column 4: byte 0xE9 is not UTF-8; save the file as UTF-8");
        for (String name : new String[] {"none", folder.toString(), "\0"}) {
            assertThat(catchThrowableOfType(LessonException.class, () -> LessonReader.read(name)))
                    .hasMessageContaining("radial-outbound");
        }
    }

    @Test
    void aPointLeftOutOfTheChartIsAnErrorIfTheLessonNamesItElseANote() throws Exception {
        String broken = CHART.replace("AAA, name: Albatross, kind: VORTAC", "AAA, name: Albatross, kind: VORTAK");
        assertThat(refused(LESSON, broken)).contains("lesson.yaml:3", "chart.yaml:2: station AAA", "VORTAC");
        // Another AAA far away would be taken in silence.
        String other = broken.replace(
                "ident: DUP, kind: NDB, latitude_deg: -38.0", "ident: AAA, kind: NDB, latitude_deg: -38");
        assertThat(refused(LESSON, other)).contains("chart.yaml:2: station AAA", "the lesson names it");
        String unused =
                CHART.replace("airways:", "  - {ident: ZZZ, kind: NDB, latitude_deg: 99, longitude_deg: 0}\nairways:");
        assertThat(LessonReader.readFile(lesson(LESSON, unused)).notes())
                .singleElement()
                .asString()
                .contains("chart.yaml:6: station ZZZ");
    }

    @Test
    void ofTwoPointsTheOneNearTheRouteIsTheStartAndItIsSaid() throws Exception {
        Lesson lesson = LessonReader.readFile(lesson(LESSON.replace("38.2,-49.9", "DUP"), CHART));
        assertThat(lesson.start().orElseThrow().position().latitudeDeg()).isEqualTo(38.2);
        assertThat(lesson.notes()).singleElement().asString().contains("2 points are named DUP", "38.200, -50.000");
    }

    /** YAML 1.2.2 section 10.3.2 (core schema): a leading zero means nothing; in YAML 1.1 060 would be 48. */
    @Test
    void aHeadingOfThreeFiguresIsDecimal() throws Exception {
        for (String written : new String[] {"060", "080", "090", "010"}) {
            Lesson lesson = LessonReader.readFile(
                    lesson(LESSON.replace("heading_magnetic_deg: 120", "heading_magnetic_deg: " + written), CHART));
            assertThat(lesson.start().orElseThrow().heading().deg()).isEqualTo(Integer.parseInt(written, 10));
        }
        Lesson wind = LessonReader.readFile(lesson(LESSON.replace("from_true_deg: 270", "from_true_deg: 060"), CHART));
        assertThat(wind.wind().from().deg()).isEqualTo(60);
    }

    @Test
    void aTitleOfNoIsATitle() throws Exception {
        assertThat(LessonReader.readFile(lesson(LESSON.replace("A lesson", "no"), CHART))
                        .title())
                .isEqualTo("no");
    }

    @Test
    void aStartFarFromTheRouteAndADeclinationThatCannotBeAreSaidWhereTheyStand() throws Exception {
        assertThat(LessonReader.readFile(lesson(LESSON.replace("38.2,-49.9", "-49.9,38.2"), CHART))
                        .notes())
                .singleElement()
                .asString()
                .contains("lesson.yaml:5: start: at: -49.9,38.2", "NM from the nearest point of the filed route");
        String east = CHART.replaceFirst("declination_deg: -17", "declination_deg: 17");
        assertThat(LessonReader.readFile(lesson(LESSON, east)).notes())
                .singleElement()
                .asString()
                .contains("chart.yaml:2: AAA has declination 17.0 degrees east", "west is minus");
    }

    @Test
    void anArincFileIsNotHeldButCopied() throws Exception {
        Files.copy(ARINC, folder.resolve("ocean.424"));
        Path file = lesson("""
                chart: ocean.424
                filed: QAA V931 QBB
                amendments:
                  - {when: {elapsed_s: 30}, say: "fly heading 100, intercept V931, resume own navigation"}
                """, CHART);
        Lesson lesson = LessonReader.readFile(file);
        assertThat(lesson.filed().segments()).hasSize(3);
        assertThat(lesson.files().chartName()).isEqualTo("ocean.424");
        assertThat(lesson.files().chart())
                .isInstanceOfSatisfying(
                        Lesson.KeptChart.Copy.class,
                        kept -> assertThat(kept.file()).hasSameBinaryContentAs(ARINC));
    }
}
