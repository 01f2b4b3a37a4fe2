package org.rejoin.console.drill;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Random;

import org.rejoin.console.book.Attempt;
import org.rejoin.console.book.HomeFolder;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.skill.Estimate;
import org.rejoin.console.skill.GradedAttempt;
import org.rejoin.console.skill.Mark;
import org.rejoin.console.skill.Progress;
import org.rejoin.console.skill.Skill;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a graded flight or a paper drill says of each skill, and how it comes back from the folders. */
class GradeMarksTest {

    private static final Instant DAY = Instant.parse("2026-06-01T10:00:00Z");

    private static Map<Skill, Boolean> marks(String recording) throws Exception {
        Map<Skill, Double> standard = new EnumMap<>(Skill.class);
        for (Skill skill : Skill.values()) {
            standard.put(skill, 0.0);
        }
        Map<Skill, Boolean> marks = new EnumMap<>(Skill.class);
        Path grade = Path.of("../recordings", recording, "grade.json");
        for (Mark mark : GradeMarks.of(
                new ObjectMapper().readTree(grade.toFile()), GradeMarks.Beside.NOTHING, "A", DAY, standard, false)) {
            marks.put(mark.skill(), mark.right());
        }
        return marks;
    }

    @Test
    void aGoodFlightShowsEverySkillThatAFlightShows() throws Exception {
        assertThat(marks("outbound-good"))
                .containsOnlyKeys(Skill.COURSE, Skill.HEADING, Skill.INTERCEPT, Skill.TRACK, Skill.FIX, Skill.SECOND)
                .doesNotContainValue(false);
    }

    @Test
    void eachFaultFallsOnItsOwnSkill() throws Exception {
        assertThat(marks("inbound-reciprocal")).containsEntry(Skill.COURSE, false);
        assertThat(marks("outbound-fly-through")).containsEntry(Skill.INTERCEPT, false);
        assertThat(marks("airway-weaving")).containsEntry(Skill.TRACK, false);
        assertThat(marks("outbound-wrong-turn")).containsEntry(Skill.FIX, false).containsEntry(Skill.INTERCEPT, true);
    }

    /** The grade says of which criterion a wrong turn is: that of the heading at an ordered turn, that of the fix there. */
    @Test
    void aTurnToTheOtherSideThanOrderedFallsOnTheHeadingAndNotOnTheFix() throws Exception {
        ObjectNode other = (ObjectNode) new ObjectMapper()
                .readTree(Path.of("../recordings/outbound-good/grade.json").toFile());
        other.withArray("faults").addObject().put("code", "WRONG_TURN").put("text", "turned left; cleared right");
        for (JsonNode criterion : other.path("criteria")) {
            if (criterion.path("code").asText().equals("HEADING")) {
                ((ObjectNode) criterion).put("met", false);
            }
        }
        assertThat(GradeMarks.of(
                        other, GradeMarks.Beside.NOTHING, "A", DAY, Map.of(Skill.FIX, 0.0, Skill.HEADING, 0.0), false))
                .extracting(Mark::skill, Mark::right)
                .containsExactlyInAnyOrder(tuple(Skill.HEADING, false), tuple(Skill.FIX, true));
    }

    /**
     * The same chances as on paper, where course and TO or FROM are asked together. The figures of a first right mark at
     * difficulty -0.3 are those of the model's formulas (Glicko with a chance of guessing), worked out by hand.
     */
    @Test
    void whatNeedsTheLineBesidesTheSideCannotBeGuessed() throws Exception {
        JsonNode grade = new ObjectMapper()
                .readTree(Path.of("../recordings/outbound-good/grade.json").toFile());
        List<Mark> marks = GradeMarks.of(
                grade, GradeMarks.Beside.NOTHING, "A", DAY, Map.of(Skill.COURSE, -0.3, Skill.FIX, 0.0), false);
        assertThat(marks).hasSize(2).allMatch(mark -> mark.guessChance() == 0);
        PaperDrill paper = PaperDrill.draw(new DrillChart(DrillCharts.ours(), ""), DrillRequest.usual(3));
        PaperResult answered = new PaperResult(
                paper,
                paper.questions().stream()
                        .map(each -> new PaperResult.Item(each, each.answer().words(), 1))
                        .toList());
        assertThat(answered.marks("A", DAY))
                .filteredOn(mark -> mark.skill() == Skill.COURSE)
                .allMatch(mark -> mark.guessChance() == 0);
        Mark course = marks.stream()
                .filter(mark -> mark.skill() == Skill.COURSE)
                .findFirst()
                .orElseThrow();
        assertThat(Estimate.first(Skill.COURSE).after(course).p()).isCloseTo(0.583, within(0.001));
    }

    /** Without them a lesson that ends early would leave a mark where he failed and none where he flew well. */
    @Test
    void whatWasJudgedBeforeTheLessonEndedGivesItsMarksAndWhatWasNotGivesNone() throws Exception {
        ObjectNode ended = (ObjectNode) new ObjectMapper()
                .readTree(Path.of("../recordings/outbound-good/grade.json").toFile());
        ended.putNull("met");
        for (JsonNode criterion : ended.path("criteria")) {
            if (criterion.path("code").asText().equals("FIX")) {
                ((ObjectNode) criterion).putNull("measured").putNull("met");
            }
        }
        assertThat(GradeMarks.of(
                        ended,
                        GradeMarks.Beside.NOTHING,
                        "A",
                        DAY,
                        Map.of(Skill.FIX, 0.0, Skill.HEADING, 0.0, Skill.INTERCEPT, 0.0),
                        false))
                .extracting(Mark::skill, Mark::right)
                .containsExactlyInAnyOrder(tuple(Skill.HEADING, true), tuple(Skill.INTERCEPT, true));
        assertThat(GradeMarks.of(
                        JsonNodeFactory.instance.objectNode().putNull("met"),
                        GradeMarks.Beside.NOTHING,
                        "A",
                        DAY,
                        Map.of(Skill.FIX, 0.0),
                        false))
                .isEmpty();
    }

    @Test
    void aCourseThatWasNotClearedIsAFaultOfTheCourseAndLostTimeIsJudgedByHalfAMinute() throws Exception {
        Map<Skill, Double> standard = Map.of(Skill.COURSE, 0.0, Skill.TIMELY, 0.0);
        JsonNode grade = new ObjectMapper()
                .readTree(Path.of("../recordings/outbound-good/grade.json").toFile());
        assertThat(GradeMarks.of(grade, new GradeMarks.Beside(true, OptionalDouble.of(31)), "A", DAY, standard, false))
                .allSatisfy(mark -> assertThat(mark.right()).isFalse())
                .hasSize(2);
        assertThat(GradeMarks.of(grade, new GradeMarks.Beside(false, OptionalDouble.of(30)), "A", DAY, standard, false))
                .allSatisfy(mark -> assertThat(mark.right()).isTrue())
                .hasSize(2);
    }

    @Test
    void attemptsAreReadBackInOrderTheSameDrillWithinADayCountsHalf(@TempDir Path home) throws Exception {
        try (RecordBook book = new RecordBook(HomeFolder.open(home), note -> {})) {
            AttemptFolders folders = new AttemptFolders(book);
            assertThat(folders.of("Ann")).isEmpty();
            for (int i = 0; i < 2; i++) {
                Instant at = DAY.plusSeconds(3600L * (1 - i));
                folders.keep(new AttemptFolders.Unflown(
                        "Ann",
                        "Paper",
                        at,
                        OptionalDouble.empty(),
                        "Rejoin",
                        JsonNodeFactory.instance.objectNode().put("drill", "same"),
                        List.of(new Mark("Ann", at, Skill.COURSE, 0.3, true, 0.5, false))));
            }
            Instant began = Instant.parse("2026-06-20T10:00:00Z");
            flight(book, "Ann", began, "{\"difficulty\": {\"TRACK\": 0.5}}", "outbound-good", "");
            Path broken = home.resolve("attempts/2026/06/20260602T100000Z-abcdef");
            Files.createDirectories(broken);
            Files.writeString(broken.resolve("attempt.json"), "{\"pilot\": ");
            List<GradedAttempt> attempts = folders.of("ann");
            List<Mark> marks = attempts.stream()
                    .flatMap(attempt -> attempt.marks().stream())
                    .toList();
            assertThat(marks).hasSize(3);
            assertThat(marks.get(0).again()).isFalse();
            assertThat(marks.get(1).again()).isTrue();
            assertThat(marks.get(2)).isEqualTo(new Mark("Ann", began, Skill.TRACK, 0.5, true, 0, false));
            assertThat(Progress.of(marks).of(Skill.COURSE).marks()).isEqualTo(2);
            assertThat(folders.problems())
                    .singleElement()
                    .asString()
                    .contains("20260602T100000Z-abcdef")
                    .contains("left out");
        }
    }

    @Test
    void anotherCourseInTheLogCountsForTheCourse(@TempDir Path home) throws Exception {
        try (RecordBook book = new RecordBook(HomeFolder.open(home), note -> {})) {
            String log = "{\"time_s\":400.00,\"event\":\"other_course_tracked\",\"station\":\"PTL\"}\n";
            flight(book, "Bo", DAY, "{\"difficulty\": {\"COURSE\": 0}}", "outbound-good", log);
            assertThat(new AttemptFolders(book).of("Bo").get(0).marks())
                    .extracting(Mark::right)
                    .containsExactly(false);
        }
    }

    @Test
    void eachAmendmentOfAFlightIsMarkedAsHardAsItWasWhereItWasHeard(@TempDir Path home) throws Exception {
        JsonNode old = new ObjectMapper()
                .readTree(Path.of("../recordings/outbound-good/grade.json").toFile());
        String criteria = old.path("criteria").toString();
        String grade = "{\"met\": true, \"criteria\": [], \"faults\": [], \"attempts\": [{\"from_s\": 0, \"to_s\": 900,"
                + " \"amendments\": ["
                + "{\"say\": \"one\", \"at_s\": 30.0, \"met\": true, \"criteria\": " + criteria
                + ", \"faults\": []},"
                + "{\"say\": \"two\", \"at_s\": 400.0, \"met\": false, \"criteria\": " + criteria
                + ", \"faults\": [{\"code\": \"WEAVING\", \"at_s\": 500}]},"
                + "{\"say\": \"three\", \"at_s\": 700.0, \"met\": null, \"criteria\": [], \"faults\": []}]}]}";
        String more = "{\"difficulty\": {\"TRACK\": -1}, \"clearances\": ["
                + "{\"at_s\": 30.0, \"difficulty\": {\"TRACK\": -1}, \"lost_s\": 4},"
                + "{\"at_s\": 400.0, \"difficulty\": {\"TRACK\": 0.7, \"TIMELY\": 0.1}, \"lost_s\": 90}]}";
        try (RecordBook book = new RecordBook(HomeFolder.open(home), note -> {})) {
            flightGraded(book, "Cy", DAY, more, grade, "");
            GradedAttempt attempt = new AttemptFolders(book).of("Cy").get(0);
            assertThat(attempt.marks())
                    .containsExactly(
                            new Mark("Cy", DAY, Skill.TRACK, -1, true, 0, false),
                            new Mark("Cy", DAY, Skill.TRACK, 0.7, false, 0, false),
                            new Mark("Cy", DAY, Skill.TIMELY, 0.1, false, 0, false));
            assertThat(attempt.faults()).containsExactly("WEAVING");
        }
    }

    private static void flight(RecordBook book, String pilot, Instant began, String more, String recording, String log)
            throws Exception {
        flightGraded(
                book, pilot, began, more, Files.readString(Path.of("../recordings", recording, "grade.json")), log);
    }

    private static void flightGraded(
            RecordBook book, String pilot, Instant began, String more, String grade, String log) throws Exception {
        book.put(
                new Attempt(
                                Attempt.newId(began, new Random(1)),
                                pilot,
                                "",
                                "SEAT1",
                                "A lesson",
                                began,
                                OptionalDouble.of(0),
                                "Rejoin",
                                "",
                                "",
                                "")
                        .with((ObjectNode) new ObjectMapper().readTree(more)),
                place -> {
                    Files.writeString(place.resolve("grade.json"), grade);
                    Files.writeString(place.resolve("log.jsonl"), log);
                });
    }

    @Test
    void aFolderOfANewerProgramIsRefusedInWords(@TempDir Path home) throws Exception {
        Files.writeString(home.resolve("folder.json"), "{\"format\": 99}");
        assertThatThrownBy(() -> HomeFolder.existing(home))
                .hasMessageContaining("written by a newer version (format 99");
    }
}
