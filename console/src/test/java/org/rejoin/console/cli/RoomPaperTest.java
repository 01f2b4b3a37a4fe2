package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Optional;

import org.rejoin.console.book.HomeFolder;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.drill.AttemptFolders;
import org.rejoin.console.page.PageRoom;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A sheet is open once for each pilot, and marked once. */
class RoomPaperTest {

    private static final ObjectMapper JSON = new ObjectMapper();

    @TempDir
    private Path home;

    private RoomPaper paper;

    @BeforeEach
    void openHome() throws Exception {
        HomeFolder.open(home);
        paper = new RoomPaper(new RoomParts.Book(home, "test"));
    }

    private long asked(String pilot) throws Exception {
        return JSON.readTree(paper.ask(pilot, Optional.empty()).text())
                .path("seed")
                .asLong();
    }

    private PageRoom.Answer marked(String pilot, long seed) throws Exception {
        JsonNode order = JSON.createObjectNode().put("seed", seed);
        return paper.ask(pilot, Optional.of(order));
    }

    @Test
    void aSheetIsMarkedOnceAndAnotherSeedIsRefused() throws Exception {
        assertThat(marked("Ann", 0).ok()).as("nothing was asked for").isFalse();
        long seed = asked("Ann");
        assertThat(asked("Ann")).as("it stays open").isEqualTo(seed);
        assertThat(marked("Ann", seed + 1).text()).isEqualTo("that sheet is not open: ask for the drill again");
        assertThat(marked("Bob", seed).ok()).as("it is Ann's").isFalse();
        assertThat(kept("Ann")).isZero();
        assertThat(marked("Ann", seed).ok()).isTrue();
        assertThat(marked("Ann", seed).text()).isEqualTo("that sheet is not open: ask for the drill again");
        assertThat(kept("Ann")).isEqualTo(1);
        assertThat(asked("Ann")).as("then another one comes").isNotEqualTo(seed);
    }

    @Test
    void aDrawingThatIsLeftUndoneIsNotKnown() throws Exception {
        JsonNode sheet = JSON.readTree(paper.ask("Ann", Optional.empty()).text());
        JsonNode marked =
                JSON.readTree(marked("Ann", sheet.path("seed").asLong()).text());
        assertThat(sheet.path("drawings")).isNotEmpty();
        assertThat(marked.path("asked").asInt())
                .isEqualTo(
                        sheet.path("questions").size() + sheet.path("drawings").size());
        assertThat(marked.path("elements"))
                .filteredOn(each -> each.path("code").asText().startsWith("DRAW_"))
                .hasSize(sheet.path("drawings").size())
                .allSatisfy(each -> {
                    assertThat(each.path("right").asBoolean()).isFalse();
                    assertThat(each.path("given").asText()).isEmpty();
                });
    }

    private int kept(String pilot) throws Exception {
        try (RecordBook book = new RecordBook(HomeFolder.existing(home), note -> {})) {
            return new AttemptFolders(book).of(pilot).size();
        }
    }
}
