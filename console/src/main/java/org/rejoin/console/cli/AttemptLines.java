package org.rejoin.console.cli;

import java.io.PrintWriter;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.function.Supplier;

import org.rejoin.console.book.AttemptRow;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.table.Cell;
import org.rejoin.console.table.Table;
import org.rejoin.console.book.GradeSummary;
import org.rejoin.console.words.CleanText;

/** Attempts of the record book as lines: for people, as JSON, as CSV. */
final class AttemptLines {

    /** For other programs, as CSV or JSON. */
    static final Table<AttemptRow> TABLE = new Table<>(List.of(
            column("id", row -> new Cell.Text(row.attempt().id())),
            column("pilot", row -> new Cell.Text(row.attempt().pilot())),
            column("aircraft", row -> new Cell.Text(row.attempt().aircraft())),
            column("lesson", row -> new Cell.Text(row.attempt().lesson())),
            column("began_utc", row -> new Cell.Text(row.attempt().began().toString())),
            column("duration_s", row -> Cell.number(row.attempt().durationS(), 2)),
            column("score", row -> Cell.number(row.grade().score(), 1)),
            column("met", row -> row.grade().met().<Cell>map(Cell.Flag::new).orElse(Cell.NONE)),
            column("faults", row -> new Cell.Texts(row.grade().faults())),
            column("signed_by", row -> Cell.text(row.signedBy().orElse(""))),
            column(
                    "recording",
                    row -> new Cell.Text(
                            row.folder().toAbsolutePath().normalize().toString())),
            column("signature", row -> Cell.text(signature(row))),
            column(
                    "own_mark",
                    row -> Cell.number(row.ownMark().map(OptionalDouble::of).orElse(OptionalDouble.empty()), 1)),
            column("instructor", row -> new Cell.Text(row.attempt().instructor())),
            column("standard", row -> new Cell.Text(row.grade().standard())),
            column("answered", row -> Cell.text(row.answered().orElse(""))),
            column("changed_for", row -> new Cell.Texts(row.changedFor())),
            column(
                    "practice_pilot",
                    row -> Cell.text(row.attempt().practicePilot().orElse("")))));

    static final DateTimeFormatter SHOWN =
            DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm", Locale.ROOT).withZone(ZoneOffset.UTC);

    /** The one word for an attempt that is not over; the page has it too. */
    static final String IN_FLIGHT = "in flight";

    private AttemptLines() {}

    private static Table.Column<AttemptRow> column(String name, Function<AttemptRow, Cell> cell) {
        return new Table.Column<>(name, cell);
    }

    /** Of the last signature: matches, changed; empty if there is none. */
    private static String signature(AttemptRow row) {
        return row.signedBy().isEmpty() ? "" : row.signatureMatches() ? "matches" : "changed";
    }

    /** The last signature, and those before it that no longer match. */
    private static String signed(AttemptRow row) {
        StringBuilder signed =
                new StringBuilder(row.signedBy().map(CleanText::line).orElse("-"));
        if (row.signedBy().isPresent() && !row.signatureMatches()) {
            signed.append(", CHANGED SINCE");
        }
        row.changedFor()
                .forEach(
                        name -> signed.append("; ").append(CleanText.line(name)).append(", CHANGED SINCE"));
        return signed.toString();
    }

    private static String number(OptionalDouble value, int digits) {
        return value.isPresent()
                ? JsonNumbers.rounded(value.getAsDouble(), digits).toPlainString()
                : "";
    }

    /** One of them is printed. */
    static void notBoth(boolean json, boolean csv) throws BadInput {
        if (json && csv) {
            throw new BadInput("--json and --csv exclude each other: give one of them");
        }
    }

    static List<String> table(List<AttemptRow> rows) {
        List<List<String>> cells = new ArrayList<>();
        cells.add(List.of(
                "began (UTC)", "pilot", "lesson", "aircraft", "score", "standard", "faults", "signed by", "id"));
        for (AttemptRow row : rows) {
            cells.add(List.of(
                    SHOWN.format(row.attempt().began()),
                    row.attempt().pilot().isEmpty()
                            ? "-"
                            : CleanText.line(row.attempt().pilot())
                                    + (row.attempt().practicePilot().isPresent() ? " (practice aircraft)" : ""),
                    CleanText.line(row.attempt().lesson()),
                    row.attempt().aircraft().isEmpty()
                            ? "-"
                            : CleanText.line(row.attempt().aircraft()),
                    (row.grade().score().isPresent()
                                    ? number(row.grade().score(), 1)
                                    : row.answered().orElse("-"))
                            + row.ownMark()
                                    .map(mark -> " (own " + number(OptionalDouble.of(mark), 1) + ")")
                                    .orElse(""),
                    row.grade()
                            .met()
                            .map(met -> met ? "met" : "not met")
                            .orElseGet(() -> row.answered().isPresent()
                                    ? "not flown"
                                    : row.attempt().durationS().isEmpty()
                                            ? IN_FLIGHT
                                            : row.grade().equals(GradeSummary.NONE) ? "not graded" : "not judged"),
                    row.grade().faults().isEmpty()
                            ? "-"
                            : String.join(" ", row.grade().faults()),
                    signed(row),
                    row.attempt().id()));
        }
        return aligned(cells);
    }

    /** Each row as an object of JSON, all as CSV, or else the lines. */
    static <T> void print(
            PrintWriter print, Table<T> table, List<T> rows, boolean json, boolean csv, Supplier<List<String>> lines) {
        if (json) {
            rows.forEach(row -> print.println(table.json(row)));
        } else if (csv) {
            print.println(table.csvHead());
            rows.forEach(row -> print.println(table.csv(row)));
        } else {
            lines.get().forEach(print::println);
        }
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
