package org.rejoin.console.cli;

import java.io.IOException;
import java.nio.file.Files;

import org.rejoin.console.book.AttemptFolder;
import org.rejoin.console.book.AttemptQuery;
import org.rejoin.console.book.AttemptRow;
import org.rejoin.console.book.HomeLock;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.words.Words;

import picocli.CommandLine.Command;
import picocli.CommandLine.ParentCommand;

/** {@code attempts rebuild}: the index made anew from the recordings. */
@Command(
        name = "rebuild",
        description =
                "Make the index of the record book anew from the attempts' folders; grade what a killed program left ungraded.")
@SuppressWarnings("try") // a lock is held, not used
final class AttemptsRebuild extends AnyCommand {

    @ParentCommand
    AttemptsCommand attempts = new AttemptsCommand();

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
            book.list(AttemptQuery.ALL, (done, all) -> {}).troubles().forEach(each -> HomeOption.note(spec, each));
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
            if (row.attempt().durationS().isPresent() && (row.grade().score().isPresent() || graded(folder))) {
                continue;
            }
            try (HomeLock ignored = folder.flying()) {
                new BookEntry(spec, book).end(folder);
                graded++;
            } catch (Exception e) {
                HomeOption.note(
                        spec, row.attempt().id() + " stays ungraded: " + (e.getMessage() == null ? e : e.getMessage()));
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
