package org.rejoin.console.cli;

import java.nio.file.Path;
import java.time.Instant;

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

    /** A flight. */
    interface Flight {
        int recordedIn(@Nullable Path out) throws Exception;
    }

    /**
     * Flies; into the book, where the user says so.
     *
     * @param lesson its title
     * @param out where else to record; null for nowhere
     * @param flight to fly
     * @return its exit code
     */
    int in(CommandSpec spec, String lesson, @Nullable Path out, Flight flight) throws Exception {
        if (pilot == null && home.home == null) {
            return flight.recordedIn(out);
        }
        if (out != null) {
            throw new BadInput("--out and the record book (--home, --as) exclude each other: attempts add brings a"
                    + " recording into the book later");
        }
        try (RecordBook book = home.toFill(spec)) {
            BookEntry entry = new BookEntry(spec, book);
            String name = pilot == null ? "" : pilot;
            AttemptFolder folder = entry.begin(lesson, new BookEntry.People(name, instructor, ""), Instant.now());
            try (HomeLock ignored = folder.flying()) {
                int exit = flight.recordedIn(folder.place());
                if (folder.isRecorded()) {
                    entry.end(folder);
                } else {
                    book.discard(folder);
                }
                return exit;
            }
        }
    }
}
