package org.rejoin.console.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.console.book.AttemptQuery;
import org.rejoin.console.book.AttemptRow;
import org.rejoin.console.book.RecordBook;
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

    @Mixin
    HomeOption home = new HomeOption();

    @Option(names = "--pilot", paramLabel = "P", description = "Only this pilot's.")
    String pilot = "";

    @Option(names = "--lesson", paramLabel = "L", description = "Only of this lesson, by its title.")
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
        AttemptQuery query = new AttemptQuery(
                pilot,
                lesson,
                "",
                AttemptQuery.ALL.from(),
                AttemptQuery.ALL.until(),
                leastScore == null ? OptionalDouble.empty() : OptionalDouble.of(leastScore),
                sort,
                reverse);
        return HomeOption.in(home.toRead(spec), book -> {
            print(book.list(query, HomeOption.progress(spec)));
            return Rejoin.DONE;
        });
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
