package org.rejoin.console.cli;

import java.nio.file.Path;
import java.time.Instant;
import java.util.Optional;

import org.rejoin.console.book.AttemptFolder;
import org.rejoin.console.book.HomeLock;
import org.rejoin.console.book.RecordBook;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;

/** {@code --home}, {@code --as}: one flight recorded straight into the record book. */
@SuppressWarnings("try") // a lock is held, not used
final class BookOptions {

    @Mixin
    HomeOption home = new HomeOption();

    @Option(
            names = "--as",
            paramLabel = "NAME",
            description = "Record the flight into the record book, under this pilot's name.")
    @Nullable
    String pilot;

    @Option(names = "--instructor", paramLabel = "NAME", description = "Who gives the lesson, for the record book.")
    String instructor = "";

    /** Read by the thread that an interrupt starts. */
    private volatile Optional<Flown> flown = Optional.empty();

    interface Flight {
        int recordedIn(@Nullable Path out) throws Exception;
    }

    /** Flies; into the book, where the user says so, else where {@code out} says, if it does. */
    int in(CommandSpec spec, String lesson, @Nullable Path out, Flight flight) throws Exception {
        if (pilot == null && home.home == null) {
            return flight.recordedIn(out);
        }
        if (pilot != null && pilot.isBlank()) {
            throw new BadInput("--as is empty; name whoever flies, a nickname will do");
        }
        if (out != null) {
            throw new BadInput(
                    "--out and the record book (--home, --as) exclude each other: give one of them; attempts add"
                            + " brings a recording into the book later");
        }
        try (RecordBook book = home.toFill(spec)) {
            BookEntry entry = new BookEntry(spec, book);
            String name = pilot == null ? "" : pilot;
            AttemptFolder folder = entry.begin(lesson, new BookEntry.People(name, instructor, ""), Instant.now());
            try (HomeLock ignored = folder.flying()) {
                Flown attempt = new Flown(book, entry, folder);
                flown = Optional.of(attempt);
                int exit;
                try {
                    exit = flight.recordedIn(folder.place());
                } catch (Exception e) {
                    over(spec);
                    throw e;
                }
                Terminal.endOnInterrupt(() -> over(spec)); // the flight's own has ended with it
                attempt.close();
                Terminal.endedByItself();
                return exit;
            }
        }
    }

    /** The flight was interrupted and has ended: closes its attempt, if one is kept, before the program ends. */
    void over(CommandSpec spec) {
        flown.ifPresent(attempt -> {
            try {
                attempt.close();
            } catch (Exception e) {
                HomeOption.note(spec, e.getMessage() + "; attempts rebuild tries again");
            }
        });
    }

    /** An attempt whose flight has ended, closed once; whoever comes second waits for the first. */
    private static final class Flown {

        private final RecordBook book;
        private final BookEntry entry;
        private final AttemptFolder folder;
        private boolean closed;

        Flown(RecordBook book, BookEntry entry, AttemptFolder folder) {
            this.book = book;
            this.entry = entry;
            this.folder = folder;
        }

        synchronized void close() throws Exception {
            if (closed) {
                return;
            }
            closed = true;
            if (folder.isRecorded()) {
                entry.end(folder);
            } else {
                book.discard(folder);
            }
        }
    }
}
