package org.rejoin.console.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.atomic.AtomicLong;

import org.rejoin.console.book.HomeFolder;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.words.CleanText;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ScopeType;

/** {@code --home}: which data folder. */
final class HomeOption {

    private static final long EVERY_NS = 1_000_000_000;

    @Option(
            names = "--home",
            paramLabel = "DIR",
            scope = ScopeType.INHERIT,
            description = "The data folder with the record book (default: this system's place for a user's data).")
    @Nullable
    Path home;

    Path place() {
        Path named = home;
        return named != null
                ? named
                : HomeFolder.usualPlace(
                        System.getProperty("os.name", ""),
                        System.getenv(),
                        user(System.getProperty("os.name", ""), System.getenv(), System.getProperty("user.home", "")));
    }

    /** The user's folder as the shell and the settings file know it; Java asks the system's list of users instead. */
    static Path user(String system, Map<String, String> environment, String known) {
        String home = system.toLowerCase(Locale.ROOT).startsWith("windows") ? "" : environment.getOrDefault("HOME", "");
        return Path.of(home.isBlank() ? known : home);
    }

    /** Whether there is nothing to read, and nobody said there should be. */
    boolean nothingYet() {
        return home == null && !Files.exists(place());
    }

    /** The book, to be read. */
    RecordBook toRead(CommandSpec spec) throws BadInput {
        return book(spec, BadInput.in(() -> HomeFolder.existing(place())));
    }

    /** The book, to be written to. */
    RecordBook toChange(CommandSpec spec) throws BadInput {
        BadInput.in(() -> HomeFolder.existing(place()));
        return book(spec, BadInput.in(() -> HomeFolder.open(place())));
    }

    /** The book, begun if there is none. */
    RecordBook toFill(CommandSpec spec) throws BadInput {
        return book(spec, BadInput.in(() -> HomeFolder.open(place())));
    }

    private static RecordBook book(CommandSpec spec, HomeFolder folder) {
        return new RecordBook(folder, note -> note(spec, note));
    }

    static void note(CommandSpec spec, String note) {
        spec.commandLine().getErr().println("rejoin: note: " + CleanText.line(note));
    }

    /** Says every second how far a long piece of work is. */
    static RecordBook.Progress progress(CommandSpec spec) {
        AtomicLong toldNs = new AtomicLong(System.nanoTime());
        return (done, all) -> {
            if (System.nanoTime() - toldNs.get() > EVERY_NS) {
                toldNs.set(System.nanoTime());
                int tenths = all == 0 ? 20 : 20 * done / all;
                String bar = "#".repeat(tenths) + ".".repeat(20 - tenths);
                spec.commandLine().getErr().println("rejoin: [" + bar + "] " + done + " of " + all + " attempts");
            }
        };
    }

    /** What a command does with the book. */
    interface Work<T> {
        T with(RecordBook book) throws Exception;
    }

    /** Works with a book and closes it; that something is not there is the user's to mend. */
    static <T> T in(RecordBook opened, Work<T> work) throws Exception {
        try (RecordBook book = opened) {
            return work.with(book);
        } catch (RecordBook.BusyException e) {
            return BadInput.in(() -> {
                throw e;
            });
        }
    }
}
