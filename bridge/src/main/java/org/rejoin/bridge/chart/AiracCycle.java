package org.rejoin.bridge.chart;

import java.time.LocalDate;
import java.util.Optional;

/**
 * One of the 28-day periods in which navigation data take effect (ICAO Annex 15, AIRAC), as 2606 for the sixth of 2026.
 *
 * @param year [2000, 2099]
 * @param number in the year, [1, 14]
 */
public record AiracCycle(int year, int number) {

    /** Cycle 2601; every other is a multiple of 28 days away. */
    private static final LocalDate ANCHOR = LocalDate.of(2026, 1, 22);

    /** Length of a cycle. */
    public static final int DAYS = 28;

    /**
     * Checks the ranges.
     *
     * @throws IllegalArgumentException if the year has no such cycle
     */
    public AiracCycle {
        if (year < 2000 || year > 2099 || number < 1 || number > 14) {
            throw new IllegalArgumentException("cycle " + number + " of " + year + " is not 1 to 14 of 2000 to 2099");
        }
    }

    /** Reads the four digits of a file, year and number, as 2606; empty where the text is none. */
    public static Optional<AiracCycle> parse(String yycc) {
        if (yycc.length() != 4 || !yycc.chars().allMatch(c -> c >= '0' && c <= '9')) {
            return Optional.empty();
        }
        int digits = Integer.parseInt(yycc);
        int number = digits % 100;
        return number < 1 || number > 14 ? Optional.empty() : Optional.of(new AiracCycle(2000 + digits / 100, number));
    }

    /** The cycle in effect on a date in the years 2000 to 2099. */
    public static AiracCycle of(LocalDate date) {
        LocalDate effective = date.minusDays(Math.floorMod(date.toEpochDay() - ANCHOR.toEpochDay(), DAYS));
        return new AiracCycle(effective.getYear(), 1 + (effective.getDayOfYear() - 1) / DAYS);
    }

    /** First day of the cycle; a Thursday. */
    public LocalDate effective() {
        LocalDate newYear = LocalDate.of(year, 1, 1);
        long toFirst = Math.floorMod(ANCHOR.toEpochDay() - newYear.toEpochDay(), DAYS);
        return newYear.plusDays(toFirst + (number - 1L) * DAYS);
    }

    /** As written in files; four digits. */
    @Override
    public String toString() {
        return String.valueOf(10_000 + year % 100 * 100 + number).substring(1);
    }
}
