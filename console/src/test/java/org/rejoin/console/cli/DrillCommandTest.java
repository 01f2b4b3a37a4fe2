package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.OptionalDouble;
import java.util.concurrent.TimeUnit;
import javax.xml.parsers.DocumentBuilderFactory;

import org.rejoin.console.book.HomeFolder;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.drill.AttemptFolders;
import org.rejoin.console.skill.Mark;
import org.rejoin.console.skill.Skill;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Drills and progress from the command line: what they print, and one line for what cannot be. */
@Timeout(value = 180, unit = TimeUnit.SECONDS)
class DrillCommandTest extends CommandsInTurn {

    private static final ObjectMapper JSON = new ObjectMapper();

    @TempDir
    private Path folder;

    private String in(String name) {
        return folder.resolve(name).toString();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "drill make --shape Q | --shape \"Q\" is none of A, B, C, radials, arc, hold, any",
                "drill make --angle 95-99 | --angle",
                "drill make --angle steep | --angle",
                "drill make --minutes 0-1 | --minutes",
                "drill make --speed 900 | --speed 900.0 is not in 60 to 300 knots",
                "drill make --wind west | --wind \"west\" is not DIRECTION_TRUE/KNOTS",
                "drill make --date 1.6.2026 | --date \"1.6.2026\" is not a day",
                "drill make --date 1900-01-01 | --date 1900-01-01: the magnetic model (WMM2025) is published for 2025-01-01",
                "drill make --date 2024-12-31 | is published for 2025-01-01 to 2029-12-31, and 2024-12-31 is no day of it",
                "drill paper --pilot Ann --date 2030-01-01 --json | is published for 2025-01-01 to 2029-12-31, and 2030-01-01",
                "drill make --date 2060-06-01 | is published for 2025-01-01 to 2029-12-31, and 2060-06-01",
                "drill make --extras some | --extras \"some\" is neither any nor none",
                "drill make --kind swum | --kind \"swum\" is neither flown nor paper",
                "drill make --chart nowhere.yaml | nowhere.yaml",
                "drill make --seed x | --seed",
                "drill make --wind 270/80 --speed 80 | the wind is too strong for the airspeed",
                "drill paper --pilot Ann --shape Q --json | --shape \"Q\"",
                "drill paper --home somewhere --json | --home without --pilot keeps nothing",
                "drill paper --pilot= --json | --pilot is empty",
                "drill listen --pilot Ann --angle 1-2 --json | --angle",
                "drill listen --home somewhere --json | --home without --pilot keeps nothing",
                "drill next | --pilot",
                "drill next --pilot= | --pilot is empty",
                "drill next --pilot Ann --goal-days 0 | --goal-days",
                "drill sitting --pilot Ann --out x.zip --count 0 | --count 0 is not in 1 to 12",
                "drill sitting --pilot Ann | --out",
                "drill sitting --pilot Ann --out nowhere/deep/x.zip --count 1 | nowhere",
                "drill calibration --weights x | --weights",
                "progress | --pilot",
                "progress --pilot= | --pilot is empty",
                "progress --pilot Ann --goal-days -3 | --goal-days",
                "progress --pilot Ann --svg nowhere/deep/x.svg | --svg nowhere/deep/x.svg cannot be written"
            })
    void whatCannotBeIsSaidInOneLine(String command, String expected) {
        String[] words = (command
                        + (command.contains("--home") || command.contains("make") ? "" : " --home " + in("none")))
                .split(" ");
        assertThat(answering("", words)).as("%s: %s %s", command, out, err).isEqualTo(2);
        List<String> lines =
                err.lines().filter(line -> !line.startsWith("rejoin: note:")).toList();
        assertThat(lines.get(0)).as(command).contains(expected);
        // Options that do not exist add where help is; nothing else adds anything.
        assertThat(lines.size()).as(err).isLessThanOrEqualTo(2);
        assertThat(err).doesNotContain("Exception").doesNotContain("\tat ");
        if (command.endsWith("--json")) {
            assertThat(out.lines())
                    .singleElement()
                    .asString()
                    .startsWith("{\"error\":{\"code\":\"BAD_INPUT\",\"text\":");
        } else {
            assertThat(out).isEmpty();
        }
    }

    @Test
    void aDataFolderThatIsAFileOrOfANewerVersionIsSaid() throws Exception {
        Files.writeString(folder.resolve("file"), "x");
        Files.createDirectories(folder.resolve("newer/attempts"));
        Files.writeString(folder.resolve("newer/folder.json"), "{\"format\": 99}");
        for (List<String> command : List.of(
                List.of("progress", "--pilot", "Ann"),
                List.of("drill", "next", "--pilot", "Ann"),
                List.of("drill", "calibration"),
                List.of("drill", "paper", "--pilot", "Ann", "--json"),
                List.of("drill", "listen", "--pilot", "Ann", "--json"),
                List.of("drill", "sitting", "--pilot", "Ann", "--out", in("x.zip")))) {
            assertThat(home(command, "file")).as("%s", command).isEqualTo(2);
            assertThat(err.lines()).singleElement().asString().contains("is a file; the data folder is a folder");
            assertThat(home(command, "newer")).as("%s", command).isEqualTo(2);
            assertThat(err.lines()).singleElement().asString().contains("written by a newer version (format 99");
        }
    }

    private int home(List<String> command, String home) {
        return answering(
                "",
                java.util.stream.Stream.concat(command.stream(), java.util.stream.Stream.of("--home", in(home)))
                        .toArray(String[]::new));
    }

    @Test
    void aChartWithoutAnAirwayGivesNoDrill() throws Exception {
        Files.writeString(
                folder.resolve("bare.yaml"),
                "name: Bare\nstations:\n  - {ident: AAB, kind: VOR, class: L, latitude_deg: 38, longitude_deg: -50,"
                        + " declination_deg: 0}\n");
        refused("drill", "make", "--chart", in("bare.yaml"));
        assertThat(err.lines()).singleElement().asString().contains("it has no airway");
    }

    @Test
    void theSameSeedMakesTheSameBytesAndTheLessonIsOneThatCanBeRead() throws Exception {
        done("drill", "make", "--seed", "9", "--out", in("one.yaml"));
        done("drill", "make", "--seed", "9", "--out", in("two.yaml"));
        assertThat(folder.resolve("one.yaml")).hasSameTextualContentAs(folder.resolve("two.yaml"));
        done("lesson", "check", in("one.yaml"));
        done("drill", "make", "--seed", "9", "--kind", "paper", "--json");
        JsonNode paper = json();
        assertThat(paper.path("questions")).isNotEmpty().allSatisfy(each -> {
            assertThat(each.path("ask").asText()).isNotEmpty();
            assertThat(each.has("answer")).isFalse();
        });
        assertThat(paper.path("drawings"))
                .isNotEmpty()
                .allSatisfy(each -> assertThat(each.path("kind").asText()).isIn("line", "point"));
        assertThat(paper.path("features").path("shape").asText()).isIn("A", "B", "C", "radials");
        assertThat(paper.path("difficulty").isObject()).isTrue();
    }

    @Test
    void paperAndListeningDrillsAreKeptAndShownInBookProgressAndPicture() throws Exception {
        String[] paper = {"drill", "paper", "--seed", "9", "--pilot", "Ann <&", "--home", in("home"), "--json"};
        assertThat(answering("\n".repeat(12), paper)).as(err).isZero();
        JsonNode blank = json();
        assertThat(blank.path("right").asInt()).isZero();
        StringBuilder right = new StringBuilder();
        blank.path("elements")
                .forEach(each -> right.append(each.path("answer").asText()).append('\n'));
        assertThat(answering(right.toString(), paper)).isZero();
        assertThat(json().path("right")).isEqualTo(blank.path("asked"));
        String[] listen = {"drill", "listen", "--seed", "2", "--pilot", "Ann <&", "--home", in("home"), "--json"};
        assertThat(answering("\n", listen)).as(err).isZero();
        String say = json().path("say").asText();
        assertThat(json().path("right").asBoolean()).isFalse();
        assertThat(answering(say + "\n", listen)).isZero();
        assertThat(json().path("right").asBoolean()).as(out).isTrue();

        done("progress", "--pilot", "Ann <&", "--home", in("home"), "--json", "--svg", in("p.svg"));
        JsonNode progress = json();
        assertThat(progress.path("attempts").asInt()).isEqualTo(4);
        assertThat(progress.path("history").size())
                .isEqualTo(progress.path("skills").findValues("marks").stream()
                        .mapToInt(JsonNode::asInt)
                        .sum());
        DocumentBuilderFactory strict = DocumentBuilderFactory.newInstance();
        strict.setNamespaceAware(true);
        assertThat(strict.newDocumentBuilder()
                        .parse(folder.resolve("p.svg").toFile())
                        .getDocumentElement()
                        .getElementsByTagName("polygon")
                        .getLength())
                .isGreaterThan(1);
        done("progress", "--pilot", "ann <&", "--home", in("home"));
        assertThat(out)
                .contains("4 attempts")
                .contains("the true figure lies there in 9 of 10 cases")
                .doesNotContain("ready");
        done("attempts", "--home", in("home"), "--json");
        assertThat(out.lines()).hasSize(4).anySatisfy(line -> assertThat(line).contains("Listening: Drill"));
        done("drill", "calibration", "--home", in("home"), "--json");
        assertThat(json().path("marks").asInt()).isGreaterThan(4);
        done("attempts", "rebuild", "--home", in("home"));
        done("pilots", "--home", in("home"));
        assertThat(out).containsPattern("Ann <&  4 +\\d{4}-\\d\\d-\\d\\d \\d\\d:\\d\\d  ");
        done("pilots", "forget", "Ann <&", "--home", in("home"), "--yes");
    }

    @Test
    void aDrillOnPaperIsToldAfterwardsWithEachAnswerAndCanBeSigned() throws Exception {
        String[] paper = {"drill", "paper", "--seed", "3", "--pilot", "Ann", "--home", in("home"), "--json"};
        String typed = "left\n236\nto\n\n\n\n\n\n\n\n\nTRN/175/7 TRN/237/20\n\n\n";
        assertThat(answering(typed, paper)).as(err).isZero();
        String result = json().path("right").asText() + " of 12 right";
        String[] listen = {"drill", "listen", "--seed", "2", "--pilot", "Ann", "--home", in("home"), "--json"};
        assertThat(answering("fly heading one two three\n", listen)).as(err).isZero();

        done("attempts", "--home", in("home"));
        assertThat(out).contains(result, "not flown", "read back wrong").doesNotContain("not graded");
        done("attempts", "--home", in("home"), "--json");
        JsonNode row = Ran.json(out.lines().findFirst().orElseThrow());
        assertThat(row.path("answered").asText()).isEqualTo(result);
        String id = row.path("id").asText();
        done("attempts", "show", id, "--home", in("home"));
        assertThat(out.lines())
                .contains("Result: " + result)
                .anyMatch(line -> line.startsWith("At N38°"))
                .anyMatch(line -> line.startsWith("ATC: fly heading three zero five"))
                .contains(
                        "  right  Course to set, three figures?",
                        "         answered: 236, correct: 237, within 1 degree")
                .contains("  WRONG  TO or FROM?", "         answered: to, correct: from")
                .contains("         from 325 to 305 the short way is 20 degrees left")
                .anyMatch(line -> line.startsWith("         answered: TRN/175/7.0 TRN/237/20.0, correct: TRN TRN/"));
        String heard = id(1);
        done("attempts", "show", heard, "--home", in("home"));
        assertThat(out)
                .contains("Result: read back wrong", "Readback: fly heading one two three", "  WRONG  heading")
                .contains("answered: one two three, correct: ");

        done("attempts", "sign", id, "--name", "Kim", "--home", in("home"));
        done("attempts", "show", id, "--home", in("home"));
        assertThat(out).contains("by Kim (unchanged since)");
        Path marks = folder.resolve(
                "home/attempts/" + id.substring(0, 4) + "/" + id.substring(4, 6) + "/" + id + "/paper.jsonl");
        Files.writeString(marks, Files.readString(marks).replace("false", "true"));
        done("attempts", "show", id, "--home", in("home"));
        assertThat(out).contains("NO LONGER MATCHES: changed since: paper.jsonl");
    }

    /** As Ctrl-C does: what was not judged is no mark. An empty line is an answer, and drawings may be left out. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "paper | left | the input ended after 1 of 11 answers: nothing is marked or kept",
                "paper --json | left | the input ended after 1 of 11 answers",
                "listen | | the input ended before the readback: nothing is marked or kept",
                "listen --json | | the input ended before the readback"
            })
    void aDrillWhoseInputEndsIsNotKept(String command, String typed, String said) throws Exception {
        String[] words = ("drill " + command + " --seed 3 --pilot Ann --home " + in("home")).split(" ");
        assertThat(answering(typed == null ? "" : typed + "\n", words)).isEqualTo(2);
        assertThat(err.lines()).singleElement().asString().contains(said);
        done("attempts", "--home", in("home"), "--json");
        assertThat(out).isEmpty();
        done("progress", "--pilot", "Ann", "--home", in("home"), "--json");
        assertThat(json().path("history").isEmpty()).isTrue();
    }

    @Test
    void anEmptyLineIsAnAnswerAndDrawingsMayBeLeftOut() throws Exception {
        assertThat(answering("\n".repeat(11), "drill", "paper", "--seed", "3", "--pilot", "Ann", "--home", in("home")))
                .as(err)
                .isZero();
        assertThat(out).contains("0 of 11 right");
        assertThat(id(0)).isNotEmpty();
    }

    @Test
    void whatIsNoneOfTheAnswersIsAskedAgainAndNumbersMayBeSaid() throws Exception {
        String typed = "banana\nl.\nleft\ntwo three seven\nto SKU\nfrom\nyes\nleft\nsixty seven\n\n\n\n\n\n";
        assertThat(answering(typed, "drill", "paper", "--seed", "3")).as(err).isZero();
        assertThat(out)
                .contains("an empty line counts as not known", "an empty line leaves it out")
                .contains("\"banana\" is none of the answers: left or right")
                .contains("\"to SKU\" is none of the answers: to or from")
                .contains("6 of 11 right")
                .contains("answered: sixty seven, correct: 67.2 degrees, within 10.0 degrees");
        assertThat(answering("banana\n", "drill", "paper", "--seed", "3", "--json"))
                .isEqualTo(2);
        assertThat(err).contains("TURN_TO_HEADING: \"banana\" is none of the answers: left or right");
    }

    private String id(int row) throws Exception {
        done("attempts", "--home", in("home"), "--json");
        return Ran.json(out.lines().toList().get(row)).path("id").asText();
    }

    @Test
    void anOlderDrillOfWhichTheMarksAloneWereKeptIsOpenedAllTheSame() throws Exception {
        try (RecordBook book = new RecordBook(HomeFolder.open(folder.resolve("home")), note -> {})) {
            new AttemptFolders(book)
                    .keep(new AttemptFolders.Unflown(
                            "Ann",
                            "Paper",
                            Instant.EPOCH,
                            OptionalDouble.of(60),
                            "earlier",
                            JSON.createObjectNode().put("kind", "paper"),
                            List.of()));
        }
        done("attempts", "show", id(0), "--home", in("home"));
        assertThat(out).contains("Result: answers not kept");
    }

    @Test
    void anAttemptDatedInTheFutureIsSaidForItPutsOffWhatIsDue() throws Exception {
        Instant later = Instant.now().plus(Duration.ofDays(200));
        try (RecordBook book = new RecordBook(HomeFolder.open(folder.resolve("home")), note -> {})) {
            new AttemptFolders(book)
                    .keep(new AttemptFolders.Unflown(
                            "Ann",
                            "Paper",
                            later,
                            OptionalDouble.of(60),
                            "test",
                            JSON.createObjectNode().put("kind", "paper"),
                            List.of(new Mark("Ann", later, Skill.COURSE, 0, true, 0, false))));
        }
        done("progress", "--pilot", "Ann", "--home", in("home"), "--json");
        String day = later.toString().substring(0, 10);
        assertThat(json().path("note").asText()).startsWith("an attempt is dated in the future, " + day);
        assertThat(err).contains("an attempt is dated in the future, " + day);
    }

    @Test
    void aPilotWithoutAttemptsIsUnknownInEverySkill() throws Exception {
        done("progress", "--pilot", "Nobody", "--home", in("none"), "--json");
        assertThat(err).contains("nothing that Nobody flew or answered himself");
        json().path("skills")
                .forEach(skill -> assertThat(skill.path("words").asText()).isEqualTo("unknown"));
        done("drill", "calibration", "--home", in("none"));
        assertThat(out).contains("nothing to compare yet");
    }
}
