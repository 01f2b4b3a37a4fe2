package org.rejoin.console.truth;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.IntStream;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Hundreds of flights over the envelope, each judged by its true trajectory and by the program. */
class CampaignTest {

    private static final int FLIGHTS = Integer.getInteger("rejoin.truth.flights", 520);

    @TempDir
    Path folder = Path.of("");

    @Test
    void theProgramSaysWhatAnExaminerWouldSay() {
        List<Flight> flights = Flight.drawn(FLIGHTS);
        List<String> wrong = IntStream.range(0, flights.size())
                .parallel()
                .mapToObj(i -> judge(flights.get(i), Feed.values()[i % Feed.values().length]))
                .filter(said -> !said.isEmpty())
                .toList();
        wrong.forEach(System.out::println);
        assertThat(wrong).isEmpty();
    }

    private String judge(Flight flight, Feed feed) {
        try {
            Flown flown = flight.fly();
            Expected expected = new Expected(new Truth(flown), flight.mistake());
            Verdict verdict = Verdict.of(flown, feed, folder);
            String disagreement = expected.disagreement(verdict, feed);
            return disagreement.isEmpty()
                    ? ""
                    : disagreement + " | " + flight + " by " + feed + " | " + expected + " | " + verdict;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
