package org.rejoin.console.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

import org.rejoin.console.book.Attempt;
import org.rejoin.console.book.AttemptFolder;
import org.rejoin.console.book.AttemptRow;
import org.rejoin.console.book.GradeSummary;
import org.rejoin.console.book.Signature;
import org.rejoin.console.drill.KeptDrill;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.table.Cell;
import org.rejoin.console.table.Table;
import org.rejoin.console.words.CleanText;
import org.rejoin.console.words.Words;

import picocli.CommandLine.Option;

/** Attempts of the record book as lines: for people, as JSON, as CSV. */
final class AttemptLines {

    /** For other programs, as CSV or JSON. */
    static final Table<AttemptRow> TABLE = new Table<>(List.of(
            column("id", row -> Cell.of(row.attempt().id())),
            column("pilot", row -> Cell.of(row.attempt().pilot())),
            column("aircraft", row -> Cell.of(row.attempt().aircraft())),
            column("lesson", row -> Cell.of(row.attempt().lesson())),
            column("began_utc", row -> Cell.of(row.attempt().began().toString())),
            column("duration_s", row -> Cell.number(row.attempt().durationS(), 2)),
            column("score", row -> Cell.number(row.grade().score(), 1)),
            column("met", row -> row.grade().met().map(Cell::of).orElse(Cell.NONE)),
            column("faults", row -> Cell.of(row.grade().faults())),
            column("signed_by", row -> Cell.text(row.signedBy().orElse(""))),
            column(
                    "recording",
                    row -> Cell.of(row.folder().toAbsolutePath().normalize().toString())),
            column("signature", row -> Cell.text(signature(row))),
            column(
                    "own_mark",
                    row -> Cell.number(row.ownMark().map(OptionalDouble::of).orElse(OptionalDouble.empty()), 1)),
            column("instructor", row -> Cell.of(row.attempt().instructor())),
            column("standard", row -> Cell.of(row.grade().standard())),
            column("answered", row -> Cell.text(row.answered().orElse(""))),
            column("changed_for", row -> Cell.of(row.changedFor())),
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

    /** One attempt with its signatures, each compared with what lies there now. */
    static void show(AttemptFolder folder, PrintWriter print) throws IOException {
        Consumer<String> line = text -> print.println(CleanText.line(text));
        Attempt attempt = folder.attempt();
        line.accept("Attempt: " + attempt.id());
        line.accept("Pilot: " + (attempt.pilot().isEmpty() ? "not named" : attempt.pilot()));
        attempt.practicePilot().ifPresent(habit -> line.accept(Words.flownByPractice(habit)));
        line.accept("Lesson: " + attempt.lesson());
        line.accept("Began: " + attempt.began());
        GradeSummary grade = folder.grade(attempt.seat()).map(GradeSummary::of).orElse(GradeSummary.NONE);
        if (folder.isAnswered()) {
            KeptDrill drill = KeptDrill.of(attempt.more());
            line.accept("Result: " + attempt.answered());
            drill.sheet().forEach(line);
            if (!drill.readback().isEmpty()) {
                line.accept("Readback: " + drill.readback());
            }
            drill.lines().forEach(each -> print.println("  " + each));
        } else if (grade.score().isPresent()) {
            line.accept("Score: " + grade.score().getAsDouble());
            grade.met()
                    .ifPresent(met -> line.accept("Standard: " + grade.standard() + (met ? ", met" : ", not met")
                            + (grade.faults().isEmpty() ? "" : "; " + String.join(", ", grade.faults()))));
        } else {
            line.accept(
                    attempt.durationS().isEmpty()
                            ? "Score: " + IN_FLIGHT
                            : grade.equals(GradeSummary.NONE) ? "Score: not graded" : "No score");
        }
        folder.ownMark()
                .ifPresent(own -> line.accept("Own mark: " + own.score()
                        + (own.by().isBlank() ? "" : ", " + own.by()) + ": " + own.reason()));
        for (AttemptFolder.Checked checked : folder.checked()) {
            Signature.Words words = checked.signature().words();
            List<String> changed = checked.changed();
            line.accept("Signed: " + checked.signature().at() + " by " + words.name()
                    + (words.certificate().isEmpty() ? "" : ", " + words.certificate())
                    + (words.remark().isEmpty() ? "" : ": " + words.remark())
                    + (changed.isEmpty()
                            ? " (unchanged since)"
                            : " (NO LONGER MATCHES: changed since: " + String.join(", ", changed) + ")"));
        }
        line.accept((folder.isAnswered() ? "Folder: " : "Recording: ") + folder.place());
    }

    /** {@code --json}, {@code --csv}: a list for other programs. */
    static final class Format {

        @Option(names = "--json", description = "Print one JSON object a line.")
        boolean json;

        @Option(names = "--csv", description = "Print a table for a spreadsheet.")
        boolean csv;

        void check() throws BadInput {
            notBoth(json, csv);
        }

        /** Each row as an object of JSON, all as CSV, or else the lines. */
        <T> void print(PrintWriter print, Table<T> table, List<T> rows, Supplier<List<String>> lines) {
            if (json) {
                rows.forEach(row -> print.println(table.json(row)));
            } else if (csv) {
                print.println(table.csvHead());
                rows.forEach(row -> print.println(table.csv(row)));
            } else {
                lines.get().forEach(print::println);
            }
        }
    }

    /** One of them is printed. */
    static void notBoth(boolean json, boolean csv) throws BadInput {
        if (json && csv) {
            throw new BadInput("--json and --csv exclude each other: give one of them");
        }
    }

    /** Columns as wide as they must be, two blanks between them; the last as it is. */
    static List<String> aligned(List<List<String>> cells) {
        int last = cells.get(0).size() - 1;
        int[] widths = IntStream.range(0, last)
                .map(i -> cells.stream()
                        .mapToInt(line -> width(line.get(i)))
                        .max()
                        .orElse(0))
                .toArray();
        return cells.stream()
                .map(line -> IntStream.range(0, last)
                                .mapToObj(i -> line.get(i) + " ".repeat(widths[i] - width(line.get(i)) + 2))
                                .collect(Collectors.joining())
                        + line.get(last))
                .toList();
    }

    private static int width(String cell) {
        return cell.codePointCount(0, cell.length());
    }
}
