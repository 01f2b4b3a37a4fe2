package org.rejoin.console.cost;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;

import org.rejoin.console.book.AttemptQuery;
import org.rejoin.console.book.GeneratedBook;
import org.rejoin.console.book.HomeFolder;
import org.rejoin.console.book.RecordBook;

/** How long the record book of a school takes: {@code BookScale DIR ATTEMPTS PILOTS}. Run by hand. */
final class BookScale {

    private BookScale() {}

    public static void main(String[] args) throws Exception {
        HomeFolder home = HomeFolder.open(Path.of(args[0]));
        int attempts = Integer.parseInt(args[1]);
        if (!Files.exists(home.place().resolve("index.db"))) {
            try (RecordBook book = new RecordBook(home, line -> System.err.println(line))) {
                new GeneratedBook(book).add(attempts, Integer.parseInt(args[2]));
            }
        }
        try (RecordBook book = new RecordBook(home, line -> System.err.println(line))) {
            timed("rebuild", () -> book.rebuild((done, all) -> {}));
        }
        try (RecordBook book = new RecordBook(home, line -> System.err.println(line))) {
            timed(
                    "open and list all",
                    () -> book.list(AttemptQuery.ALL, (done, all) -> {}).rows().size());
            timed(
                    "list all again",
                    () -> book.list(AttemptQuery.ALL, (done, all) -> {}).rows().size());
            timed(
                    "one pilot",
                    () -> book.list(AttemptQuery.ALL.of("Pilot 7"), (done, all) -> {})
                            .rows()
                            .size());
            timed(
                    "by score",
                    () -> book.list(byScore(), (done, all) -> {}).rows().size());
        }
    }

    private static AttemptQuery byScore() {
        AttemptQuery all = AttemptQuery.ALL;
        return new AttemptQuery("", "", "", all.from(), all.until(), all.leastScore(), AttemptQuery.Order.SCORE, true);
    }

    private interface Counted {
        int attempts() throws Exception;
    }

    private static void timed(String what, Counted work) throws Exception {
        long startNs = System.nanoTime();
        int count = work.attempts();
        double seconds = (System.nanoTime() - startNs) / 1e9;
        System.out.printf(
                Locale.ROOT, "%-20s %6d attempts %8.3f s %10.0f a second%n", what, count, seconds, count / seconds);
    }
}
