package org.rejoin.console.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.stream.Collectors;

import org.rejoin.console.book.Archive;
import org.rejoin.console.book.AttemptFolder;
import org.rejoin.console.book.AttemptQuery;
import org.rejoin.console.book.AttemptRow;
import org.rejoin.console.book.HomeLock;
import org.rejoin.console.book.OwnMark;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.book.Signature;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.room.AttemptJson;
import org.rejoin.console.words.CleanText;
import org.rejoin.console.words.Words;
import org.rejoin.console.xapi.Statement;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code attempts}: the record book. */
@Command(
        name = "attempts",
        description = "List the record book: who flew which lesson when, and with what score. The oldest stands first.",
        subcommands = {
            AttemptsAdd.class,
            AttemptsCommand.Show.class,
            AttemptsCommand.Sign.class,
            AttemptsCommand.Mark.class,
            AttemptsCommand.Export.class,
            AttemptsSend.class,
            AttemptsCommand.Rebuild.class
        })
final class AttemptsCommand extends AnyCommand.Verbose {

    static final int MOST_NAMED = 20;

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

    @Mixin
    AttemptLines.Format format = new AttemptLines.Format();

    @Override
    public Integer call() throws Exception {
        format.check();
        if (home.nothingYet()) {
            note("nothing has been kept yet in " + home.place());
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
            note("none with " + asked + "; " + what + " here: " + (known.isEmpty() ? "none yet" : known));
        }
    }

    private void print(RecordBook.Listing listing) {
        List<AttemptRow> rows = listing.rows();
        format.print(out(), AttemptLines.TABLE, rows, () -> AttemptLines.table(rows));
        listing.troubles().forEach(each -> note(CleanText.line(each)));
    }

    @Command(
            name = "show",
            description = "Show attempts with their signatures, and whether what was signed is unchanged.")
    static final class Show extends Part {

        @Parameters(arity = "1..*", paramLabel = "ID", description = "Attempts, as the list names them.")
        List<String> ids = new ArrayList<>();

        @Option(names = "--json", description = "Print one JSON object a line.")
        boolean json;

        @Override
        public Integer call() throws Exception {
            return HomeOption.in(attempts.home.toRead(spec), book -> {
                for (String id : ids) {
                    AttemptFolder folder = BadInput.in(() -> book.attempt(id));
                    if (json) {
                        out().println(AttemptJson.of(folder));
                    } else {
                        AttemptLines.show(folder, out());
                    }
                    folder.damage().forEach(this::note);
                }
                return Rejoin.DONE;
            });
        }
    }

    @Command(
            name = "export",
            description =
                    "Write attempts to a file: as statements of the open standard for learning records (IEEE 9274.1.1), or whole.")
    static final class Export extends Part {

        @Parameters(arity = "1..*", paramLabel = "ID", description = "Attempts, as the list names them.")
        List<String> ids = new ArrayList<>();

        @Option(names = "--xapi", paramLabel = "FILE", description = "Statements, as one JSON list.")
        @Nullable
        Path xapi;

        @Option(names = "--archive", paramLabel = "FILE", description = "The whole folders, as one zip file.")
        @Nullable
        Path archive;

        @Override
        public Integer call() throws Exception {
            if (xapi == null && archive == null) {
                throw new BadInput("name the file: --xapi FILE for statements, --archive FILE for whole folders");
            }
            return HomeOption.in(attempts.home.toRead(spec), book -> {
                List<AttemptFolder> folders = new ArrayList<>();
                for (String id : ids) {
                    folders.add(BadInput.in(() -> book.attempt(id)));
                }
                Path statements = xapi;
                if (statements != null) {
                    AttemptsSend.Statements made = new AttemptsSend.Statements(spec, book);
                    for (AttemptFolder folder : folders) {
                        made.addNamed(folder);
                    }
                    OutputFile.write("--xapi", statements, Statement.text(made.all()));
                }
                Path whole = archive;
                if (whole != null) {
                    BadInput.in(() -> {
                        Archive.write(
                                whole,
                                book.home().place(),
                                folders.stream().map(AttemptFolder::place).toList(),
                                Map.of());
                        return whole;
                    });
                }
                return Rejoin.DONE;
            });
        }
    }

    @Command(
            name = "sign",
            description =
                    "Sign attempts: name, certificate number as typed, time, remark, and the hashes of recording and grade are kept."
                            + " Signing again adds a signature; nothing is overwritten.")
    static final class Sign extends Part {

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
                    Signature signature = BadInput.in(() -> book.attempt(id).sign(words, Instant.now()));
                    out().println(id + " signed at " + signature.at());
                }
                return Rejoin.DONE;
            });
        }
    }

    @Command(
            name = "mark",
            description =
                    "Put your own mark beside the computed one, with the reason. The computed one stays as it is.")
    static final class Mark extends Part {

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
                mark = new OwnMark(score, by, reason, Instant.now());
            } catch (IllegalArgumentException e) {
                throw new BadInput(String.valueOf(e.getMessage()));
            }
            return HomeOption.in(attempts.home.toChange(spec), book -> {
                AttemptFolder attempt = BadInput.in(() -> book.attempt(id));
                attempt.mark(mark);
                out().println(id + " marked " + mark.score() + " beside the computed mark");
                return Rejoin.DONE;
            });
        }
    }

    @Command(
            name = "rebuild",
            description =
                    "Make the index of the record book anew from the attempts' folders; grade what a killed program left ungraded.")
    @SuppressWarnings("try") // a lock is held, not used
    static final class Rebuild extends Part {

        @Override
        public Integer call() throws Exception {
            return HomeOption.in(attempts.home.toChange(spec), book -> {
                long startNs = System.nanoTime();
                int graded = grade(book);
                int count = book.rebuild(HomeOption.progress(spec));
                double seconds = (System.nanoTime() - startNs) / 1e9;
                out().println(Words.say(
                        "%d attempts indexed in %.1f s%s",
                        count, seconds, graded == 0 ? "" : ", " + graded + " of them graded now"));
                book.list(AttemptQuery.ALL, (done, all) -> {}).troubles().forEach(this::note);
                return Rejoin.DONE;
            });
        }

        /** Those whose program was killed in the flight; what is being flown is left alone. */
        private int grade(RecordBook book) throws Exception {
            int graded = 0;
            for (AttemptRow row :
                    book.list(AttemptQuery.ALL, HomeOption.progress(spec)).rows()) {
                if (!Files.isRegularFile(row.folder().resolve("flight.pcap"))) {
                    continue;
                }
                AttemptFolder folder = book.attempt(row.attempt().id());
                if (row.attempt().durationS().isPresent()
                        && (row.grade().score().isPresent() || graded(folder))) {
                    continue;
                }
                try (HomeLock ignored = folder.flying()) {
                    new BookEntry(spec, book).end(folder);
                    graded++;
                } catch (Exception e) {
                    note(row.attempt().id() + " stays ungraded: " + (e.getMessage() == null ? e : e.getMessage()));
                }
            }
            return graded;
        }

        /** A flight of which nothing could be judged has a grade without a score. */
        private static boolean graded(AttemptFolder folder) {
            try {
                return folder.grade().isPresent();
            } catch (IOException e) {
                return false; // damaged: it is graded again
            }
        }
    }

    /** A command of the record book that {@code attempts --home} names. */
    abstract static class Part extends AnyCommand {

        @ParentCommand
        AttemptsCommand attempts = new AttemptsCommand();
    }
}
