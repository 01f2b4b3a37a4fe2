package org.rejoin.console.book;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.time.temporal.ChronoUnit;
import java.util.Optional;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;

/**
 * The instructor's own mark beside the computed one, with a reason. The last one given counts; earlier ones stay.
 *
 * @param score 0 to 100
 * @param reason never empty
 * @param at when, UTC, to the second
 */
public record OwnMark(double score, String by, String reason, Instant at) {

    /** Checks range and reason, and takes whole seconds. */
    public OwnMark {
        at = at.truncatedTo(ChronoUnit.SECONDS);
        if (!(score >= 0 && score <= 100)) {
            throw new IllegalArgumentException("a mark of " + score + " is not in 0 to 100");
        }
        score = Math.round(score * 10) / 10.0; // as a score is shown, wherever it is shown
        if (reason.isBlank()) {
            throw new IllegalArgumentException("a mark of one's own needs a reason");
        }
    }

    String line() throws IOException {
        ObjectNode json = BookJson.object();
        json.put("at_utc", at.toString());
        json.put("by", by);
        json.put("score", score);
        json.put("reason", reason);
        return BookJson.line(json);
    }

    /** Empty for a line that is none. */
    static Optional<OwnMark> read(String line) {
        try {
            JsonNode json = BookJson.read(line.getBytes(StandardCharsets.UTF_8));
            return Optional.of(new OwnMark(
                    BookJson.number(json, "score").orElse(Double.NaN),
                    BookJson.textOrEmpty(json, "by"),
                    BookJson.textOrEmpty(json, "reason"),
                    Instant.parse(BookJson.textOrEmpty(json, "at_utc"))));
        } catch (IOException | DateTimeParseException | IllegalArgumentException e) {
            return Optional.empty();
        }
    }
}
