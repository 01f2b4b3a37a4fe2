package org.rejoin.console.table;

import java.io.IOException;
import java.math.BigDecimal;
import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.console.json.Json;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.words.CleanText;

import com.fasterxml.jackson.core.JsonGenerator;

/** What stands in one field of a table. */
public sealed interface Cell {

    /** Nothing: empty in CSV, null in JSON. */
    Cell NONE = new None();

    /** As a field of CSV, quoted where it must be (RFC 4180, section 2). */
    String csv();

    /** As a member of a JSON object. */
    void write(JsonGenerator json, String name) throws IOException;

    /** Text, from a person or a file. */
    record Text(String text) implements Cell {

        /** A text that a spreadsheet would work out as a formula begins with an apostrophe. */
        @Override
        public String csv() {
            String harmless = text.matches("(?s)[=+\\-@\\t\\r].*") ? "'" + text : text;
            String clean = CleanText.of(harmless);
            return clean.chars().anyMatch(c -> c == ',' || c == '"' || c < ' ')
                    ? '"' + clean.replace("\"", "\"\"") + '"'
                    : clean;
        }

        @Override
        public void write(JsonGenerator json, String name) throws IOException {
            json.writeStringField(name, text);
        }
    }

    /** A number as it is written, with its digits. */
    record Figure(BigDecimal value) implements Cell {

        @Override
        public String csv() {
            return value.toPlainString();
        }

        @Override
        public void write(JsonGenerator json, String name) throws IOException {
            json.writeNumberField(name, value);
        }
    }

    /** Yes or no. */
    record Flag(boolean value) implements Cell {

        @Override
        public String csv() {
            return String.valueOf(value);
        }

        @Override
        public void write(JsonGenerator json, String name) throws IOException {
            json.writeBooleanField(name, value);
        }
    }

    /** Several texts; in CSV with a space between them. */
    record Texts(List<String> texts) implements Cell {

        @Override
        public String csv() {
            return new Text(String.join(" ", texts)).csv();
        }

        @Override
        public void write(JsonGenerator json, String name) throws IOException {
            Json.texts(json, name, texts);
        }
    }

    /** Nothing. */
    record None() implements Cell {

        @Override
        public String csv() {
            return "";
        }

        @Override
        public void write(JsonGenerator json, String name) throws IOException {
            json.writeNullField(name);
        }
    }

    /** Text, or nothing where it is empty. */
    static Cell text(String text) {
        return text.isEmpty() ? NONE : new Text(text);
    }

    /** A number with exactly so many digits after the point; nothing where it is empty. */
    static Cell number(OptionalDouble value, int digits) {
        return value.isPresent() ? new Figure(JsonNumbers.rounded(value.getAsDouble(), digits)) : NONE;
    }

    /** A number with at most so many digits after the point, without trailing zeros; nothing where it is empty. */
    static Cell plain(OptionalDouble value, int digits) {
        return value.isPresent()
                ? new Figure(JsonNumbers.rounded(value.getAsDouble(), digits).stripTrailingZeros())
                : NONE;
    }
}
