package org.rejoin.console.table;

import java.math.BigDecimal;
import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.words.CleanText;

import org.jspecify.annotations.Nullable;

/**
 * What stands in one field of a table.
 *
 * @param value as a member of a JSON object has it; null for nothing
 * @param csv as a field of CSV, quoted where it must be (RFC 4180, section 2); empty for nothing
 */
public record Cell(@Nullable Object value, String csv) {

    /** Nothing. */
    public static final Cell NONE = new Cell(null, "");

    /** Text, from a person or a file. */
    public static Cell of(String text) {
        return new Cell(text, field(text));
    }

    /** Several texts; in CSV with a space between them. */
    public static Cell of(List<String> texts) {
        return new Cell(texts, field(String.join(" ", texts)));
    }

    /** A number as it is written, with its digits. */
    public static Cell of(BigDecimal figure) {
        return new Cell(figure, figure.toPlainString());
    }

    /** Yes or no. */
    public static Cell of(boolean flag) {
        return new Cell(flag, String.valueOf(flag));
    }

    /** Text, or nothing where it is empty. */
    public static Cell text(String text) {
        return text.isEmpty() ? NONE : of(text);
    }

    /** A number with exactly so many digits after the point; nothing where it is empty. */
    public static Cell number(OptionalDouble value, int digits) {
        return value.isPresent() ? of(JsonNumbers.rounded(value.getAsDouble(), digits)) : NONE;
    }

    /** A number with at most so many digits after the point, without trailing zeros; nothing where it is empty. */
    public static Cell plain(OptionalDouble value, int digits) {
        return value.isPresent()
                ? of(JsonNumbers.rounded(value.getAsDouble(), digits).stripTrailingZeros())
                : NONE;
    }

    /** A text that a spreadsheet would work out as a formula begins with an apostrophe. */
    private static String field(String text) {
        String harmless = text.matches("(?s)[=+\\-@\\t\\r].*") ? "'" + text : text;
        String clean = CleanText.of(harmless);
        return clean.chars().anyMatch(c -> c == ',' || c == '"' || c < ' ')
                ? '"' + clean.replace("\"", "\"\"") + '"'
                : clean;
    }
}
