package org.rejoin.console.cli;

import java.io.IOException;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;

import org.rejoin.console.book.AttemptRow;
import org.rejoin.console.json.Json;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.report.CleanText;

import com.fasterxml.jackson.core.JsonGenerator;

/** Attempts of the record book as lines: for people, as JSON, as CSV. */
final class AttemptLines {

    static final String CSV_HEAD =
            "id,pilot,aircraft,lesson,began_utc,duration_s,score,met,faults,signed_by,recording,signature,own_mark,instructor,standard";

    private static final DateTimeFormatter SHOWN =
            DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm", Locale.ROOT).withZone(ZoneOffset.UTC);

    private AttemptLines() {}

    static String json(AttemptRow row) {
        return Json.object(json -> {
            json.writeStringField("id", row.attempt().id());
            json.writeStringField("pilot", row.attempt().pilot());
            json.writeStringField("aircraft", row.attempt().aircraft());
            json.writeStringField("lesson", row.attempt().lesson());
            json.writeStringField("began_utc", row.attempt().began().toString());
            JsonNumbers.orNull(json, "duration_s", row.attempt().durationS(), 2);
            JsonNumbers.orNull(json, "score", row.grade().score(), 1);
            if (row.grade().met().isPresent()) {
                json.writeBooleanField("met", row.grade().met().get());
            } else {
                json.writeNullField("met");
            }
            Json.texts(json, "faults", row.grade().faults());
            text(json, "signed_by", row.signedBy().orElse(""));
            json.writeStringField(
                    "recording", row.folder().toAbsolutePath().normalize().toString());
            text(json, "signature", signature(row));
            JsonNumbers.orNull(
                    json, "own_mark", row.ownMark().map(OptionalDouble::of).orElse(OptionalDouble.empty()), 1);
            json.writeStringField("instructor", row.attempt().instructor());
            json.writeStringField("standard", row.grade().standard());
        });
    }

    private static void text(JsonGenerator json, String name, String value) throws IOException {
        if (value.isEmpty()) {
            json.writeNullField(name);
        } else {
            json.writeStringField(name, value);
        }
    }

    /** Of the last signature: matches, changed; empty if there is none. */
    private static String signature(AttemptRow row) {
        return row.signedBy().isEmpty() ? "" : row.signatureMatches() ? "matches" : "changed";
    }

    static String csv(AttemptRow row) {
        List<String> cells = new ArrayList<>();
        cells.add(row.attempt().id());
        cells.add(row.attempt().pilot());
        cells.add(row.attempt().aircraft());
        cells.add(row.attempt().lesson());
        cells.add(row.attempt().began().toString());
        cells.add(number(row.attempt().durationS(), 2));
        cells.add(number(row.grade().score(), 1));
        cells.add(row.grade().met().map(String::valueOf).orElse(""));
        cells.add(String.join(" ", row.grade().faults()));
        cells.add(row.signedBy().orElse(""));
        cells.add(row.folder().toAbsolutePath().normalize().toString());
        cells.add(signature(row));
        cells.add(row.ownMark().map(mark -> number(OptionalDouble.of(mark), 1)).orElse(""));
        cells.add(row.attempt().instructor());
        cells.add(row.grade().standard());
        return csv(cells);
    }

    /** Any row of a table for a spreadsheet. */
    static String csv(List<String> cells) {
        return String.join(",", cells.stream().map(AttemptLines::cell).toList());
    }

    /** One of them is printed. */
    static void notBoth(boolean json, boolean csv) throws BadInput {
        if (json && csv) {
            throw new BadInput("--json and --csv exclude each other: give one of them");
        }
    }

    /** RFC 4180; a cell that a spreadsheet would take for a formula begins with an apostrophe. */
    static String cell(String text) {
        String safe = text.matches("(?s)[=+\\-@\\t\\r].*") ? "'" + text : text;
        return safe.chars().anyMatch(c -> c == ',' || c == '"' || c < ' ')
                ? '"' + safe.replace("\"", "\"\"") + '"'
                : safe;
    }

    private static String number(OptionalDouble value, int digits) {
        return value.isPresent()
                ? JsonNumbers.rounded(value.getAsDouble(), digits).toPlainString()
                : "";
    }

    /** A table with aligned columns. */
    static List<String> table(List<AttemptRow> rows) {
        List<List<String>> cells = new ArrayList<>();
        cells.add(List.of(
                "began (UTC)", "pilot", "lesson", "aircraft", "score", "standard", "faults", "signed by", "id"));
        for (AttemptRow row : rows) {
            cells.add(List.of(
                    SHOWN.format(row.attempt().began()),
                    row.attempt().pilot().isEmpty()
                            ? "-"
                            : CleanText.line(row.attempt().pilot()),
                    CleanText.line(row.attempt().lesson()),
                    row.attempt().aircraft().isEmpty()
                            ? "-"
                            : CleanText.line(row.attempt().aircraft()),
                    (row.grade().score().isPresent() ? number(row.grade().score(), 1) : "-")
                            + row.ownMark()
                                    .map(mark -> " (own " + number(OptionalDouble.of(mark), 1) + ")")
                                    .orElse(""),
                    row.grade().score().isEmpty()
                            ? "not graded"
                            : row.grade()
                                    .met()
                                    .map(met -> met ? "met" : "not met")
                                    .orElse("not judged"),
                    row.grade().faults().isEmpty()
                            ? "-"
                            : String.join(" ", row.grade().faults()),
                    row.signedBy()
                            .map(name -> CleanText.line(name) + (row.signatureMatches() ? "" : ", CHANGED SINCE"))
                            .orElse("-"),
                    row.attempt().id()));
        }
        return aligned(cells);
    }

    static List<String> aligned(List<List<String>> cells) {
        int columns = cells.get(0).size();
        int[] widths = new int[columns];
        for (List<String> line : cells) {
            for (int i = 0; i < columns; i++) {
                widths[i] = Math.max(
                        widths[i], line.get(i).codePointCount(0, line.get(i).length()));
            }
        }
        List<String> lines = new ArrayList<>();
        for (List<String> line : cells) {
            StringBuilder text = new StringBuilder();
            for (int i = 0; i < columns; i++) {
                String cell = line.get(i);
                text.append(cell);
                if (i < columns - 1) {
                    text.append(" ".repeat(widths[i] - cell.codePointCount(0, cell.length()) + 2));
                }
            }
            lines.add(text.toString());
        }
        return lines;
    }
}
