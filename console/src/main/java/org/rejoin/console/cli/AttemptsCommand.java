package org.rejoin.console.cli;

import java.io.PrintWriter;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;

import org.rejoin.console.book.AttemptQuery;
import org.rejoin.console.book.AttemptRow;
import org.rejoin.console.book.OwnMark;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.book.Signature;
import org.rejoin.console.words.CleanText;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;
import picocli.CommandLine.Spec;

/** {@code attempts}: the record book. */
@Command(
        name = "attempts",
        description = {
            "List the record book: who flew which lesson when, and with what score. The oldest stands first.",
            Rejoin.CAUTION
        },
        mixinStandardHelpOptions = true,
        subcommands = {
            AttemptsAdd.class,
            AttemptsShow.class,
            AttemptsCommand.AttemptsSign.class,
            AttemptsCommand.AttemptsMark.class,
            AttemptsExport.class,
            AttemptsSend.class,
            AttemptsRebuild.class
        })
final class AttemptsCommand implements Callable<Integer> {

    @Spec
    CommandSpec spec = CommandSpec.create();

    @Mixin
    Verbosity verbosity = new Verbosity();

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
        PrintWriter print = spec.commandLine().getOut();
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
        print.flush();
        listing.troubles().forEach(each -> HomeOption.note(spec, CleanText.line(each)));
    }

    /** {@code attempts mark}: the instructor's own mark. */
    @Command(
            name = "mark",
            description = {
                "Put your own mark beside the computed one, with the reason. The computed one stays as it is.",
                Rejoin.CAUTION
            },
            mixinStandardHelpOptions = true)
    static final class AttemptsMark implements Callable<Integer> {

        @Spec
        CommandSpec spec = CommandSpec.create();

        @ParentCommand
        AttemptsCommand attempts = new AttemptsCommand();

        @Parameters(paramLabel = "ID", description = "The attempt, as the list names it.")
        String id = "";

        @Option(names = "--score", paramLabel = "N", required = true, description = "0 to 100.")
        double score;

        @Option(
                names = "--reason",
                paramLabel = "TEXT",
                required = true,
                description = "Why it is not the computed one.")
        String reason = "";

        @Option(names = "--by", paramLabel = "NAME", description = "Whose mark it is.")
        String by = "";

        @Override
        public Integer call() throws Exception {
            OwnMark mark;
            try {
                mark = new OwnMark(score, by, reason, Instant.now().truncatedTo(ChronoUnit.SECONDS));
            } catch (IllegalArgumentException e) {
                throw new BadInput(String.valueOf(e.getMessage()));
            }
            return HomeOption.in(attempts.home.toChange(spec), book -> {
                BadInput.in(() -> book.attempt(id)).mark(mark);
                return Rejoin.DONE;
            });
        }
    }

    /** {@code attempts sign}: an instructor signs. */
    @Command(
            name = "sign",
            description = {
                "Sign attempts: name, certificate number as typed, time, remark, and the hashes of recording and grade are kept."
                        + " Signing again adds a signature; nothing is overwritten.",
                Rejoin.CAUTION
            },
            mixinStandardHelpOptions = true)
    static final class AttemptsSign implements Callable<Integer> {

        @Spec
        CommandSpec spec = CommandSpec.create();

        @ParentCommand
        AttemptsCommand attempts = new AttemptsCommand();

        @Parameters(arity = "1..*", paramLabel = "ID", description = "Attempts, as the list names them.")
        List<String> ids = new ArrayList<>();

        @Option(names = "--name", paramLabel = "NAME", required = true, description = "Who signs.")
        String name = "";

        @Option(names = "--certificate", paramLabel = "NUMBER", description = "Certificate number, as typed.")
        String certificate = "";

        @Option(
                names = "--certificate-ends",
                paramLabel = "DATE",
                description = "Its expiration, or the end of recent experience, as typed.")
        String certificateEnds = "";

        @Option(names = "--training", paramLabel = "TEXT", description = "Description of the training given.")
        String training = "";

        @Option(names = "--remark", paramLabel = "TEXT", description = "A remark.")
        String remark = "";

        @Override
        public Integer call() throws Exception {
            if (name.isBlank()) {
                throw new BadInput("--name is empty: a signature needs the name of whoever signs");
            }
            Signature.Words words = new Signature.Words(name, certificate, certificateEnds, training, remark);
            return HomeOption.in(attempts.home.toChange(spec), book -> {
                for (String id : ids) {
                    Signature signature = BadInput.in(
                            () -> book.attempt(id).sign(words, Instant.now().truncatedTo(ChronoUnit.SECONDS)));
                    spec.commandLine().getOut().println(id + " signed at " + signature.at());
                }
                return Rejoin.DONE;
            });
        }
    }
}
