package org.rejoin.console.book;

import java.time.Instant;
import java.util.Arrays;
import java.util.Comparator;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import java.util.stream.Stream;

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
        DATE,
        /** Name of the pilot. */
        PILOT,
        /** Title of the lesson. */
        LESSON,
        /** The computed score; those without stand first. */
        SCORE;

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
    }

    static String folded(String text) {
        return text.toLowerCase(Locale.ROOT);
    }

    /** Whether an attempt is asked for. */
    boolean asksFor(AttemptRow row) {
        Attempt attempt = row.attempt();
        return (pilot.isEmpty()
                        || folded(attempt.pilot()).equals(folded(pilot))
                        || attempt.pilotId().equals(pilot))
                && (lesson.isEmpty() || folded(attempt.lesson()).equals(folded(lesson)))
                && (words.isBlank() || hasWords(row))
                && from.filter(attempt.began()::isBefore).isEmpty()
                && until.map(attempt.began()::isBefore).orElse(true)
                && (leastScore.isEmpty() || row.grade().score().orElse(Double.NaN) >= leastScore.getAsDouble());
    }

    private boolean hasWords(AttemptRow row) {
        Attempt attempt = row.attempt();
        String all = folded(String.join(
                "\n",
                attempt.pilot(),
                attempt.lesson(),
                attempt.aircraft(),
                String.join(" ", row.grade().faults()),
                attempt.began().toString().substring(0, 10),
                attempt.instructor(),
                row.signedBy().orElse("")));
        return Stream.of(folded(words).trim().split("\\s+")).allMatch(all::contains);
    }

    Comparator<AttemptRow> sorted() {
        Comparator<AttemptRow> byDate = Comparator.<AttemptRow, Instant>comparing(
                        row -> row.attempt().began())
                .thenComparing(row -> row.attempt().id());
        Comparator<AttemptRow> all = switch (order) {
            case DATE -> byDate;
            case PILOT ->
                Comparator.<AttemptRow, String>comparing(
                                row -> folded(row.attempt().pilot()))
                        .thenComparing(byDate);
            case LESSON ->
                Comparator.<AttemptRow, String>comparing(
                                row -> folded(row.attempt().lesson()))
                        .thenComparing(byDate);
            case SCORE ->
                Comparator.<AttemptRow>comparingDouble(
                                row -> row.grade().score().orElse(Double.NEGATIVE_INFINITY))
                        .thenComparing(byDate);
        };
        return newestFirst ? all.reversed() : all;
    }

    /** The same of one pilot, by name or identifier. */
    public AttemptQuery of(String name) {
        return new AttemptQuery(name, lesson, words, from, until, leastScore, order, newestFirst);
    }
}
