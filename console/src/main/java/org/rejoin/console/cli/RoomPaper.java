package org.rejoin.console.cli;

import java.io.IOException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.console.drill.DrillChart;
import org.rejoin.console.drill.DrillRequest;
import org.rejoin.console.drill.NoDrillException;
import org.rejoin.console.drill.PaperDrill;
import org.rejoin.console.drill.PaperResult;
import org.rejoin.console.drill.PaperSheet;
import org.rejoin.console.drill.Question;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.page.PageRoom;
import org.rejoin.console.room.RoomDesk;

import com.fasterxml.jackson.databind.JsonNode;

/**
 * A drill on paper in the page: asked, it gives the sheet of the pilot's next one; ordered with the answers, it marks them
 * element by element and keeps the result in the record book. Each pilot has one sheet at a time, until it is marked. Called
 * on one thread.
 */
final class RoomPaper implements RoomDesk.Part {

    /** Nobody works on one clearance for longer, seconds. */
    private static final double LONGEST_S = 3600;

    private static final int LONGEST_ANSWER = 200;

    private final RoomParts.Book book;
    private final Map<String, Sheet> open = new HashMap<>();

    /** A drill that waits for its answers. */
    private record Sheet(PaperDrill paper, DrillChart on) {}

    RoomPaper(RoomParts.Book book) {
        this.book = book;
    }

    @Override
    public boolean isForPilots() {
        return true;
    }

    @Override
    public PageRoom.Answer ask(String pilot, Optional<JsonNode> order) throws IOException {
        try {
            if (order.isEmpty()) {
                Sheet sheet = sheet(pilot);
                return PageRoom.Answer.json(
                        PaperSheet.json(sheet.paper(), sheet.on().chart()).toString());
            }
            JsonNode seed = order.get().path("seed");
            if (!seed.isIntegralNumber() || !seed.canConvertToLong()) {
                return PageRoom.Answer.no("seed is no number: ask for the drill again");
            }
            Sheet sheet = open.get(pilot);
            if (sheet == null || sheet.paper().drill().seed() != seed.asLong()) {
                return PageRoom.Answer.no("that sheet is not open: ask for the drill again");
            }
            PaperDrill paper = sheet.paper();
            PaperResult result = new PaperResult(paper, items(paper, order.get()));
            if (result.items().isEmpty()) {
                return PageRoom.Answer.no("there is no answer to mark");
            }
            for (PaperResult.Item item : result.items()) {
                Optional<String> none = item.question().noAnswer(item.given());
                if (none.isPresent()) {
                    return PageRoom.Answer.no(item.question().ask() + " " + none.get());
                }
            }
            keep(pilot, result, sheet.on().chart());
            open.remove(pilot);
            return PageRoom.Answer.json(result.json().toString());
        } catch (NoDrillException | LessonException e) {
            return PageRoom.Answer.no(String.valueOf(e.getMessage()));
        }
    }

    private Sheet sheet(String pilot) throws IOException, NoDrillException, LessonException {
        Sheet sheet = open.get(pilot);
        if (sheet == null) {
            DrillChart chart = DrillWishes.builtInChart();
            int flown = book.attempts(pilot).size(); // after each attempt another drill comes
            sheet = new Sheet(PaperDrill.draw(chart, DrillRequest.usual(first(pilot) + flown)), chart);
            open.put(pilot, sheet);
        }
        return sheet;
    }

    /** The seed of a pilot's first: who sit beside one another have another sheet each. */
    static long first(String pilot) {
        return 1_000L * Math.floorMod(pilot.hashCode(), 1_000_000);
    }

    /** All questions and drawings: what is left undone is not known. */
    private static List<PaperResult.Item> items(PaperDrill paper, JsonNode order) {
        List<PaperResult.Item> items = new ArrayList<>();
        for (Question question : paper.questions()) {
            items.add(item(question, order));
        }
        for (Question drawing : paper.drawings()) {
            items.add(item(drawing, order));
        }
        return items;
    }

    private static PaperResult.Item item(Question question, JsonNode order) {
        String given = order.path("answers").path(question.code()).asText("");
        double seconds = order.path("seconds").path(question.code()).asDouble(0);
        return new PaperResult.Item(
                question,
                given.substring(0, Math.min(LONGEST_ANSWER, given.length())),
                seconds > 0 ? Math.min(LONGEST_S, seconds) : 0);
    }

    private void keep(String pilot, PaperResult result, Chart on) throws IOException {
        Instant now = Instant.now();
        book.keep(
                pilot,
                "Paper: " + result.paper().drill().title(),
                now,
                result.seconds() > 0 ? OptionalDouble.of(result.seconds()) : OptionalDouble.empty(),
                result.kept(on),
                result.marks(pilot, now));
    }
}
