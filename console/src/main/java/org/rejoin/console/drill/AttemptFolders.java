package org.rejoin.console.drill;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.console.book.Attempt;
import org.rejoin.console.book.AttemptFolder;
import org.rejoin.console.book.AttemptQuery;
import org.rejoin.console.book.AttemptRow;
import org.rejoin.console.book.Pilot;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.recording.Durable;
import org.rejoin.console.skill.GradedAttempt;
import org.rejoin.console.skill.Mark;
import org.rejoin.console.skill.Skill;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;

/**
 * The attempts of the record book with their marks: of flights from grade and log, of paper and listening drills from
 * {@code paper.jsonl} in the attempt's folder, one mark a line: {@code {"skill", "difficulty", "right", "guess_chance"}}.
 *
 * <p>Of {@code attempt.json} these members are read beside the book's own: {@code drill}, {@code features},
 * {@code difficulty}, {@code line}, {@code clearances}, {@code work_out_s}; all may be missing.
 */
public final class AttemptFolders {

    private static final ObjectMapper JSON = new ObjectMapper();
    private static final Duration A_DAY = Duration.ofDays(1);

    private final RecordBook book;
    private final List<String> problems = new ArrayList<>();

    /** The attempts of a record book that stays open for as long as this is used. */
    public AttemptFolders(RecordBook book) {
        this.book = book;
    }

    /**
     * All attempts of a pilot by his name on the roster, in order of time; empty where there are none.
     *
     * @throws IOException one line: what cannot be read, and why
     */
    public List<GradedAttempt> of(String pilot) throws IOException {
        return read(AttemptQuery.ALL.of(pilot));
    }

    /**
     * The attempts of all pilots, in order of time.
     *
     * @throws IOException if the book cannot be read; one line
     */
    public List<GradedAttempt> all() throws IOException {
        return read(AttemptQuery.ALL);
    }

    private List<GradedAttempt> read(AttemptQuery query) throws IOException {
        problems.clear();
        RecordBook.Listing listing = book.list(query, (done, all) -> {});
        problems.addAll(listing.troubles());
        List<Raw> raw = new ArrayList<>();
        for (AttemptRow row : listing.rows()) {
            if (!row.attempt().pilot().isEmpty()) {
                raw(row).ifPresent(raw::add);
            }
        }
        raw.sort(Comparator.comparing(Raw::at));
        Map<String, Instant> before = new HashMap<>();
        List<GradedAttempt> read = new ArrayList<>();
        for (Raw each : raw) {
            Instant last = before.put(each.pilot() + "\n" + each.drill(), each.at());
            boolean again = last != null
                    && !each.drill().isEmpty()
                    && Duration.between(last, each.at()).compareTo(A_DAY) < 0;
            attempt(each, again).ifPresent(read::add);
        }
        return read;
    }

    /** {@return what could not be read at the last reading, one line each} */
    public List<String> problems() {
        return List.copyOf(problems);
    }

    /** An attempt with the members that are not the book's. */
    private record Raw(AttemptFolder folder, Attempt attempt) {

        JsonNode more() {
            return attempt.more();
        }

        String pilot() {
            return attempt.pilotId().isEmpty() ? attempt.pilot() : attempt.pilotId();
        }

        Instant at() {
            return attempt.end();
        }

        String drill() {
            return more().path("drill").asText(attempt.lesson());
        }
    }

    private Optional<Raw> raw(AttemptRow row) {
        try {
            AttemptFolder folder = book.attempt(row.attempt().id());
            return Optional.of(new Raw(folder, folder.attempt()));
        } catch (IOException e) {
            problems.add(firstLine(e));
            return Optional.empty();
        }
    }

    private Optional<GradedAttempt> attempt(Raw raw, boolean again) {
        try {
            Optional<JsonNode> grade = raw.folder().grade(raw.attempt().seat());
            List<Mark> marks = new ArrayList<>();
            List<String> faults = new ArrayList<>();
            if (raw.folder().isAnswered()) {
                for (String line : Durable.lines(raw.folder().place().resolve(AttemptFolder.PAPER))) {
                    mark(JSON.readTree(line), raw, again).ifPresent(marks::add);
                }
            } else if (raw.attempt().practicePilot().isPresent()) {
                return Optional.empty(); // no person flew it: it shows nobody's skill
            } else if (grade.isPresent()) {
                FlightMarks flight =
                        FlightMarks.read(raw.folder().place(), raw.attempt().seat(), raw.more(), grade.get());
                marks.addAll(flight.marks(raw.attempt().pilot(), raw.at(), again));
                faults.addAll(flight.faults());
            } else {
                return Optional.empty();
            }
            JsonNode features = raw.more().path("features");
            JsonNode line = raw.more().path("clearances").path(0).path("line");
            return Optional.of(new GradedAttempt(
                    raw.attempt().pilot(),
                    raw.at(),
                    features.path("shape").asText(""),
                    features.path("turn").asText(""),
                    DrillText.line(line.isObject() ? line : raw.more().path("line")),
                    DrillText.number(raw.more().path("work_out_s")),
                    faults,
                    marks));
        } catch (IOException | IllegalArgumentException e) {
            problems.add(raw.folder().place() + ": left out: " + firstLine(e));
            return Optional.empty();
        }
    }

    private static Optional<Mark> mark(JsonNode line, Raw raw, boolean again) {
        return Skill.named(line.path("skill").asText(""))
                .filter(skill -> line.path("right").isBoolean())
                .map(skill -> new Mark(
                        raw.attempt().pilot(),
                        raw.at(),
                        skill,
                        line.path("difficulty").asDouble(),
                        line.path("right").asBoolean(),
                        line.path("guess_chance").asDouble(),
                        again));
    }

    /**
     * An attempt that was not flown, to be kept.
     *
     * @param pilot name; put on the roster where it is not there yet
     * @param at when it ended, UTC
     * @param seconds it took
     * @param program that marked it, with version
     * @param result kept in {@code attempt.json}; {@code kind} is "paper" or "listening"
     * @param marks one line each in {@code paper.jsonl}
     */
    public record Unflown(
            String pilot,
            String title,
            Instant at,
            OptionalDouble seconds,
            String program,
            ObjectNode result,
            List<Mark> marks) {

        public Unflown {
            marks = List.copyOf(marks);
        }
    }

    /**
     * Keeps an attempt that was not flown; returns its folder.
     *
     * @throws IOException if it cannot be written; one line
     */
    public Path keep(Unflown unflown) throws IOException {
        Pilot pilot = book.roster().findOrAdd(unflown.pilot());
        Instant began = unflown.at().minusMillis((long) (unflown.seconds().orElse(0) * 1000));
        StringBuilder lines = new StringBuilder();
        for (Mark mark : unflown.marks()) {
            ObjectNode line = JSON.createObjectNode();
            line.put("skill", mark.skill().name());
            line.put("difficulty", mark.difficulty());
            line.put("right", mark.right());
            line.put("guess_chance", mark.guessChance());
            lines.append(line).append('\n');
        }
        Attempt attempt = new Attempt(
                        Attempt.newId(began, new SecureRandom()),
                        pilot.name(),
                        pilot.id(),
                        "",
                        unflown.title(),
                        began,
                        OptionalDouble.of(unflown.seconds().orElse(0)),
                        unflown.program(),
                        "",
                        "",
                        "")
                .with(unflown.result());
        return book.put(
                        attempt,
                        place -> Durable.write(
                                place.resolve(AttemptFolder.PAPER),
                                lines.toString().getBytes(StandardCharsets.UTF_8)))
                .place();
    }

    private static String firstLine(Exception e) {
        String said = e instanceof JsonProcessingException ? "a line of paper.jsonl is not JSON" : e.getMessage();
        return String.valueOf(said).lines().findFirst().orElse("");
    }
}
