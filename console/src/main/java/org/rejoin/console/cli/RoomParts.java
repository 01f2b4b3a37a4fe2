package org.rejoin.console.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.console.book.HomeFolder;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.drill.AttemptFolders;
import org.rejoin.console.drill.DrillChart;
import org.rejoin.console.drill.DrillRequest;
import org.rejoin.console.drill.DrillText;
import org.rejoin.console.drill.NextDrill;
import org.rejoin.console.drill.NoDrillException;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.page.PageRoom;
import org.rejoin.console.room.RoomDesk;
import org.rejoin.console.room.RoomLessons;
import org.rejoin.console.skill.Goal;
import org.rejoin.console.skill.GradedAttempt;
import org.rejoin.console.skill.Mark;
import org.rejoin.console.skill.Progress;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;

/** What the page asks of progress and drills: the same as the commands say. */
record RoomParts(Book book, RoomLessons lessons) {

    private static final String CHART = "charts/open-ocean.yaml";

    /** The record book of the room, opened for as long as it is asked. */
    record Book(Path home, String program) {

        RecordBook open() throws IOException {
            return new RecordBook(HomeFolder.existing(home), note -> {});
        }

        List<GradedAttempt> attempts(String pilot) throws IOException {
            try (RecordBook book = open()) {
                return new AttemptFolders(book).of(pilot);
            }
        }

        /** Keeps a drill that was not flown; its folder. */
        Path keep(String pilot, String title, Instant at, OptionalDouble seconds, ObjectNode result, List<Mark> marks)
                throws IOException {
            try (RecordBook book = open()) {
                return new AttemptFolders(book)
                        .keep(new AttemptFolders.Unflown(pilot, title, at, seconds, program, result, marks));
            }
        }
    }

    Map<String, RoomDesk.Part> all() {
        return Map.of(
                "progress",
                this::progress,
                "drill",
                this::drill,
                "paper",
                new RoomPaper(book),
                "listen",
                new ListeningDrills(book));
    }

    private PageRoom.Answer progress(String pilot, Optional<JsonNode> order) throws IOException {
        List<GradedAttempt> attempts = book.attempts(pilot);
        Progress progress = Progress.of(GradedAttempt.marks(attempts));
        return PageRoom.Answer.json(ProgressCommand.json(pilot, attempts, progress, Goal.A_YEAR, Instant.now())
                .toString());
    }

    /** Asked, it says which; ordered, it is kept as a lesson. The same attempts give the same drill. */
    private PageRoom.Answer drill(String pilot, Optional<JsonNode> order) throws IOException {
        try {
            DrillChart chart = DrillWishes.builtInChart();
            List<GradedAttempt> attempts = book.attempts(pilot);
            NextDrill next = NextDrill.choose(
                    new NextDrill.Known(attempts, Goal.A_YEAR, Instant.now(), attempts.isEmpty()),
                    chart,
                    DrillRequest.usual(attempts.size()));
            if (order.isEmpty()) {
                return PageRoom.Answer.json(JsonNodeFactory.instance
                        .objectNode()
                        .put("skill", next.skill().name())
                        .put("say", next.drill().say())
                        .put("why", next.why())
                        .toString());
            }
            Lesson lesson = lessons.draft(DrillText.lesson(next.drill(), CHART, chart.sha256()));
            return PageRoom.Answer.json(JsonNodeFactory.instance
                    .objectNode()
                    .put("id", lessons.keep(lesson))
                    .toString());
        } catch (NoDrillException | LessonException e) {
            return PageRoom.Answer.no(String.valueOf(e.getMessage()));
        }
    }
}
