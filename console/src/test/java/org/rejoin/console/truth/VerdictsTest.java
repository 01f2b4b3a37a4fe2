package org.rejoin.console.truth;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;

import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;

/**
 * Hundreds of flights over the envelope and ten mistakes in fine steps, each judged by its true trajectory and by the program.
 * The page of habits against faults is written from them.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class VerdictsTest {

    /** At least 500; more for a longer look. */
    private static final int FLIGHTS = Integer.getInteger("rejoin.truth.flights", 520);

    /** A measured overshoot is this near the true one (found on independent flights: within 0.02 NM), NM. */
    private static final double OVERSHOOT_NM = 0.05;

    private List<Judged> flights = List.of();
    private final Map<Sweep, List<Sweep.Point>> sweeps = new LinkedHashMap<>();

    @BeforeAll
    void fly(@TempDir Path folder) {
        List<Flight> drawn = Flight.drawn(FLIGHTS);
        flights = IntStream.range(0, drawn.size())
                .parallel()
                .mapToObj(i -> Judged.of(drawn.get(i), Feed.BY_TURNS.get(i % Feed.BY_TURNS.size()), folder))
                .toList();
        Sweep.ALL.forEach(sweep -> sweeps.put(sweep, sweep.fly(folder)));
    }

    @Test
    void theProgramSaysWhatAnExaminerWouldSay() {
        none(flights.stream()
                .filter(each -> !each.disagreement().isEmpty())
                .map(each -> each.disagreement() + " | " + each)
                .toList());
    }

    @Test
    void theOvershootIsMeasuredAsItTrulyWas() {
        none(flights.stream()
                .filter(each -> Math.abs(each.overshootErrorNm().orElse(0)) > OVERSHOOT_NM)
                .map(each -> "overshoot off by " + each.overshootErrorNm().orElse(0) + " | " + each)
                .toList());
    }

    @Test
    void aLargerMistakeNeverScoresHigher() {
        none(sweeps.entrySet().stream()
                .flatMap(each -> each.getKey().rises(each.getValue()).stream())
                .toList());
    }

    @Test
    void noStepThatAPilotCouldNotSeeIsACliff() {
        none(sweeps.entrySet().stream()
                .flatMap(each -> each.getKey().cliffs(each.getValue()).stream())
                .toList());
    }

    @Test
    void thePageSaysWhatTheFlightsGave() throws Exception {
        ConfusionPage page = new ConfusionPage(flights, sweeps);
        if (Boolean.getBoolean("rejoin.write-docs")) {
            page.write();
        }
        assertThat(page.differences())
                .as("write the page anew with -Drejoin.write-docs=true")
                .isEmpty();
    }

    private static void none(List<String> wrong) {
        if (Boolean.getBoolean("rejoin.truth.show")) {
            wrong.forEach(System.out::println);
        }
        assertThat(wrong).isEmpty();
    }
}
