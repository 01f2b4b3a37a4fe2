package org.rejoin.console.truth;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The same flight through eight feeds scores the same within two points, or the coarse feed says what it cannot judge.
 * Flights near a threshold are left out: there either verdict is right.
 */
class EightFeedsTest {

    private static final double SAME = 2;
    private static final int FLIGHTS = Integer.getInteger("rejoin.truth.through-all", 10);

    @TempDir
    Path folder = Path.of("");

    @Test
    void theFeedMakesNoDifferenceToTheScore() {
        List<Flight> clear = Flight.drawn(60).stream()
                .filter(flight -> clear(new Expected(new Truth(flight.fly()), flight.mistake())))
                .limit(FLIGHTS)
                .toList();
        assertThat(clear).hasSize(FLIGHTS);
        List<String> wrong = clear.parallelStream()
                .flatMap(flight -> compare(flight).stream())
                .toList();
        wrong.forEach(System.out::println);
        assertThat(wrong).isEmpty();
    }

    private static boolean clear(Expected expected) {
        return expected.allowed.stream()
                .allMatch(code -> expected.required.stream().anyMatch(one -> one.contains(code) && one.size() == 1));
    }

    private List<String> compare(Flight flight) {
        List<String> wrong = new ArrayList<>();
        Flown flown = flight.fly();
        try {
            Verdict finest = Verdict.of(flown, Feed.JSON_20, folder);
            for (Feed feed : EnumSet.complementOf(EnumSet.of(Feed.JSON_20))) {
                Verdict verdict = Verdict.of(flown, feed, folder);
                boolean same = Math.abs(verdict.score() - finest.score()) <= SAME
                        && verdict.faultCodes().equals(finest.faultCodes());
                boolean said = feed.coarse()
                        && verdict.saysNotJudged()
                        && finest.faultCodes().containsAll(verdict.faultCodes());
                if (!same && !said) {
                    wrong.add(String.format(
                            Locale.ROOT,
                            "%s instead of %s | %s | %s",
                            feed,
                            Feed.JSON_20,
                            flight,
                            verdict + " instead of " + finest));
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return wrong;
    }
}
