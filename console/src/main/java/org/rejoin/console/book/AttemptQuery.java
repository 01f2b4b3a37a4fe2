package org.rejoin.console.book;

import java.time.Instant;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;

/**
 * Which attempts, in which order.
 *
 * @param pilot name or identifier, whatever the case; empty for all
 * @param lesson title, whatever the case; empty for all
 * @param words every one of them stands in pilot, lesson, aircraft, faults, date (2026-11-28), instructor or signature;
 *     empty for all
 * @param leastScore that score or better; leaves out what has none
 */
public record AttemptQuery(
        String pilot,
        String lesson,
        String words,
        Optional<Instant> from,
        Optional<Instant> until,
        OptionalDouble leastScore,
        Order order,
        boolean newestFirst) {

    /** All of them, oldest first. */
    public static final AttemptQuery ALL =
            new AttemptQuery("", "", "", Optional.empty(), Optional.empty(), OptionalDouble.empty(), Order.DATE, false);

    /** What a list is sorted by. Ties stand in order of time. */
    public enum Order {
        /** When it began. */
        DATE("began_utc"),
        /** Name of the pilot. */
        PILOT("pilot_key"),
        /** Title of the lesson. */
        LESSON("lesson_key"),
        /** The computed score; those without stand first. */
        SCORE("score");

        private final String column;

        Order(String column) {
            this.column = column;
        }

        /** By its name, as "score", whatever the case; empty where there is none. */
        public static Optional<Order> named(String name) {
            return Arrays.stream(values())
                    .filter(each -> each.name().equalsIgnoreCase(name))
                    .findFirst();
        }

        /** {@return all names, "date, pilot, lesson, score"} */
        public static String names() {
            return Arrays.stream(values())
                    .map(each -> each.name().toLowerCase(Locale.ROOT))
                    .collect(Collectors.joining(", "));
        }

        String column() {
            return column;
        }
    }

    /** The same of one pilot, by name or identifier. */
    public AttemptQuery of(String name) {
        return new AttemptQuery(name, lesson, words, from, until, leastScore, order, newestFirst);
    }
}
