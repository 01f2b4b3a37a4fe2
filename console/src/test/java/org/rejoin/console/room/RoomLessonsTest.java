package org.rejoin.console.room;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;

import org.rejoin.console.book.HomeFolder;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** An instructor keeps the lessons that he prepared: none is lost to another. */
class RoomLessonsTest {

    private static final ObjectMapper JSON = new ObjectMapper();

    @TempDir
    Path folder = Path.of("");

    private static ObjectNode form(String title, int heading) {
        ObjectNode form = JSON.createObjectNode()
                .put("title", title)
                .put("chart", "open-ocean.yaml")
                .put("filed", "XSKU DCT SKU V40 FUL DCT XFUL");
        form.putObject("start")
                .put("at", "38.66,-49.62")
                .put("altitude_ft", 6000)
                .put("heading_magnetic_deg", 230)
                .put("speed_kt", 140);
        form.putArray("amendments")
                .addObject()
                .put("say", "fly heading " + heading + ", intercept V40, resume own navigation")
                .putObject("when")
                .put("elapsed_s", 30);
        return form;
    }

    private JsonNode keep(ObjectNode form) throws Exception {
        LessonsDesk desk = new LessonsDesk(new RoomLessons(HomeFolder.open(folder), Optional.empty()));
        return JSON.readTree(desk.keep(form).text());
    }

    private String kept(ObjectNode form) throws Exception {
        JsonNode answer = keep(form);
        assertThat(answer.path("asks").isMissingNode()).as("%s", answer).isTrue();
        return answer.path("id").asText();
    }

    private String says(String id) throws Exception {
        return LessonReader.readFile(folder.resolve("lessons").resolve(id + ".yaml"))
                .amendments()
                .get(0)
                .say();
    }

    @Test
    void twoTitlesOfTheSameLettersAreTwoLessons() throws Exception {
        String first = kept(form("Übung ✈ ä \"x\" <b>", 190));
        String second = kept(form("Ubung A (X) b", 200));
        assertThat(first).isEqualTo("ubung-a-x-b");
        assertThat(second).isEqualTo("ubung-a-x-b-2");
        assertThat(says(first)).startsWith("fly heading 190");
        assertThat(says(second)).startsWith("fly heading 200");
    }

    @Test
    void aLessonOfTheSameTitleIsReplacedOnlyWhereTheInstructorSaysSo() throws Exception {
        String id = kept(form("Morning lesson", 190));
        JsonNode answer = keep(form("morning lesson", 200));
        assertThat(answer.path("asks").asText()).startsWith("There is a lesson of this title already.");
        assertThat(answer.path("id").isMissingNode()).isTrue();
        assertThat(says(id)).startsWith("fly heading 190");
        assertThat(kept(form("morning lesson", 200).put("replace", true))).isEqualTo(id);
        assertThat(says(id)).startsWith("fly heading 200");
    }

    @Test
    void aTitleInGreekOrJapaneseStandsAndItsFileHasAName() throws Exception {
        String greek = kept(form("Ελλάδα", 190));
        String japanese = kept(form("方位と航空路", 200));
        assertThat(new RoomLessons(HomeFolder.open(folder), Optional.empty()).all())
                .filteredOn(RoomLessons.Choice::own)
                .extracting(RoomLessons.Choice::id, RoomLessons.Choice::title)
                .containsExactlyInAnyOrder(
                        org.assertj.core.groups.Tuple.tuple(greek, "Ελλάδα"),
                        org.assertj.core.groups.Tuple.tuple(japanese, "方位と航空路"));
        assertThat(greek).isEqualTo("lesson");
        assertThat(japanese).isEqualTo("lesson-2");
        assertThatThrownBy(() -> keep(form("✈ …", 190))).hasMessageContaining("letters or figures");
    }

    @Test
    void aBuiltInLessonsTitleIsNotGivenTwice() throws Exception {
        assertThatThrownBy(() -> keep(form("Heading to an airway", 190))).hasMessageContaining("give yours another");
        assertThat(kept(form("Hold at fix", 190))).isEqualTo("hold-at-fix-2");
    }

    /** The form has fields, and no file with lines. */
    @Test
    void whatIsWrongIsSaidOfTheFormAndNotOfAFile() throws Exception {
        ObjectNode form = form("Too low", 190);
        ((ObjectNode) form.get("start")).put("altitude_ft", -99999);
        assertThatThrownBy(() -> keep(form))
                .isInstanceOf(LessonException.class)
                .hasMessage("start: altitude_ft: -99999 is not in 0 to 60000 feet");
        try (var files = Files.list(folder.resolve("lessons"))) {
            assertThat(files.filter(Files::isRegularFile)).isEmpty();
        }
    }
}
