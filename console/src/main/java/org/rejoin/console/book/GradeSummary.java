package org.rejoin.console.book;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import com.fasterxml.jackson.databind.JsonNode;

/**
 * What lists show of a grade.
 *
 * @param score 0 to 100; empty if there is none
 * @param standard graded against; empty if unknown
 * @param met whether the standard was met; empty if it was not judged
 */
public record GradeSummary(OptionalDouble score, String standard, Optional<Boolean> met, List<String> faults) {

    /** Nothing was graded. */
    public static final GradeSummary NONE = new GradeSummary(OptionalDouble.empty(), "", Optional.empty(), List.of());

    public GradeSummary {
        faults = List.copyOf(faults);
    }

    /** Reads the object of {@code grade.json}. */
    public static GradeSummary of(JsonNode grade) {
        return new GradeSummary(
                BookJson.number(grade, "score"),
                BookJson.textOrEmpty(grade, "standard"),
                BookJson.truth(grade, "met"),
                BookJson.texts(grade.path("faults"), "code"));
    }
}
