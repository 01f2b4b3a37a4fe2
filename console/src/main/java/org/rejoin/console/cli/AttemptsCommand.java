package org.rejoin.console.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.stream.Collectors;

import org.rejoin.console.book.AttemptQuery;
import org.rejoin.console.book.AttemptRow;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.words.CleanText;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** {@code attempts}: the record book. */
@Command(
        name = "attempts",
        description = "List the record book: who flew which lesson when, and with what score. The oldest stands first.",
        subcommands = {
            AttemptsAdd.class,
            AttemptsShow.class,
            AttemptsSign.class,
            AttemptsMark.class,
            AttemptsExport.class,
            AttemptsSend.class,
            AttemptsRebuild.class
        })
final class AttemptsCommand extends VerboseCommand {

    private static final int MOST_NAMED = 20;

    @Mixin
    HomeOption home = new HomeOption();

    @Option(names = "--pilot", paramLabel = "P", description = "Only this pilot's.")
    String pilot = "";

    @Option(names = "--lesson", paramLabel = "L", description = "Only of this lesson, by its title or built-in name.")
    String lesson = "";

    @Option(names = "--sort", paramLabel = "BY", description = "date, pilot, lesson or score (default: date).")
    AttemptQuery.Order sort = AttemptQuery.Order.DATE;

    @Option(names = "--reverse", description = "The other way round: newest or best first.")
    boolean reverse;

    @Option(names = "--least-score", paramLabel = "N", description = "Only with this score or a better one.")
    @Nullable
    Double leastScore;

    @Option(names = "--json", description = "Print one JSON object a line.")
    boolean json;

    @Option(names = "--csv", description = "Print a table for a spreadsheet.")
    boolean csv;

    @Override
    public Integer call() throws Exception {
        AttemptLines.notBoth(json, csv);
        if (home.nothingYet()) {
            HomeOption.note(spec, "nothing has been kept yet in " + home.place());
            print(new RecordBook.Listing(List.of(), List.of()));
            return Rejoin.DONE;
        }
        if (leastScore != null && !(leastScore >= 0 && leastScore <= 100)) {
            throw new BadInput("--least-score " + leastScore + " is not in 0 to 100");
        }
        AttemptQuery query = new AttemptQuery(
                pilot,
                title(lesson),
                "",
                AttemptQuery.ALL.from(),
                AttemptQuery.ALL.until(),
                leastScore == null ? OptionalDouble.empty() : OptionalDouble.of(leastScore),
                sort,
                reverse);
        return HomeOption.in(home.toRead(spec), book -> {
            RecordBook.Listing listing = book.list(query, HomeOption.progress(spec));
            print(listing);
            if (listing.rows().isEmpty() && !(pilot.isEmpty() && lesson.isEmpty())) {
                List<AttemptRow> all =
                        book.list(AttemptQuery.ALL, HomeOption.progress(spec)).rows();
                sayWhatThereIs("pilots", pilot, all, row -> row.attempt().pilot());
                sayWhatThereIs("lessons", lesson, all, row -> row.attempt().lesson());
            }
            return Rejoin.DONE;
        });
    }

    /** Of a built-in lesson its file name does for its title. */
    private static String title(String lesson) throws LessonException {
        return BuiltInLesson.named(lesson).isPresent()
                ? LessonReader.read(lesson).title()
                : lesson;
    }

    /** An empty list may come of a name that is written otherwise in the book. */
    private void sayWhatThereIs(String what, String asked, List<AttemptRow> all, Function<AttemptRow, String> of) {
        if (!asked.isEmpty()) {
            String known = all.stream()
                    .map(of)
                    .filter(each -> !each.isEmpty())
                    .distinct()
                    .sorted()
                    .limit(MOST_NAMED)
                    .collect(Collectors.joining(", "));
            HomeOption.note(
                    spec, "none with " + asked + "; " + what + " here: " + (known.isEmpty() ? "none yet" : known));
        }
    }

    private void print(RecordBook.Listing listing) throws Exception {
        PrintWriter print = out();
        if (json) {
            for (AttemptRow row : listing.rows()) {
                print.println(AttemptLines.TABLE.json(row));
            }
        } else if (csv) {
            print.println(AttemptLines.TABLE.csvHead());
            listing.rows().forEach(row -> print.println(AttemptLines.TABLE.csv(row)));
        } else {
            AttemptLines.table(listing.rows()).forEach(print::println);
        }
        listing.troubles().forEach(each -> HomeOption.note(spec, CleanText.line(each)));
    }
}
