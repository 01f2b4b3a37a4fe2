package org.rejoin.console.drill;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

import org.rejoin.console.skill.Mark;
import org.rejoin.console.skill.Progress;
import org.rejoin.console.skill.Skill;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
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
        for (Mark mark : GradeMarks.of(new ObjectMapper().readTree(grade.toFile()), "A", DAY, standard, false)) {
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

    @Test
    void aFlightThatWasNotJudgedGivesNoMark() {
        assertThat(GradeMarks.of(
                        JsonNodeFactory.instance.objectNode().putNull("met"), "A", DAY, Map.of(Skill.FIX, 0.0), false))
                .isEmpty();
    }

    @Test
    void attemptsAreReadBackInOrderTheSameDrillWithinADayCountsHalf(@TempDir Path home) throws Exception {
        AttemptFolders folders = new AttemptFolders(home);
        assertThat(folders.of("A")).isEmpty();
        for (int i = 0; i < 2; i++) {
            Instant at = DAY.plusSeconds(3600L * (1 - i));
            folders.keep(
                    "A",
                    "paper",
                    at,
                    JsonNodeFactory.instance.objectNode().put("drill", "same"),
                    List.of(new Mark("A", at, Skill.COURSE, 0.3, true, 0.5, false)));
        }
        Path flight = home.resolve("attempts/2026/06/flight");
        Files.createDirectories(flight);
        Files.copy(Path.of("../recordings/outbound-good/grade.json"), flight.resolve("grade.json"));
        Files.writeString(
                flight.resolve("attempt.json"),
                "{\"pilot\": \"A\", \"ended_utc\": \"2026-06-20T10:00:00Z\", \"difficulty\": {\"TRACK\": 0.5}}");
        Files.createDirectories(home.resolve("attempts/2026/06/broken"));
        Files.writeString(home.resolve("attempts/2026/06/broken/attempt.json"), "{\"pilot\": ");
        List<Mark> marks = folders.of("A").stream()
                .flatMap(attempt -> attempt.marks().stream())
                .toList();
        assertThat(marks).hasSize(3);
        assertThat(marks.get(0).again()).isFalse();
        assertThat(marks.get(1).again()).isTrue();
        assertThat(marks.get(2))
                .isEqualTo(new Mark("A", Instant.parse("2026-06-20T10:00:00Z"), Skill.TRACK, 0.5, true, 0, false));
        assertThat(Progress.of(marks).of(Skill.COURSE).marks()).isEqualTo(2);
        assertThat(folders.problems())
                .singleElement()
                .asString()
                .contains("broken")
                .contains("left out");
    }

    @Test
    void aFolderOfANewerProgramIsRefusedInWords(@TempDir Path home) throws Exception {
        Path folder = home.resolve("attempts/2026/06/new");
        Files.createDirectories(folder);
        Files.writeString(folder.resolve("attempt.json"), "{\"version\": 99, \"pilot\": \"A\"}");
        org.assertj.core.api.Assertions.assertThatThrownBy(() -> new AttemptFolders(home).of("A"))
                .hasMessageContaining("written by a newer version (99");
    }
}
