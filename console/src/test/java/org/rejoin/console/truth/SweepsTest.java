package org.rejoin.console.truth;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A larger mistake never scores higher, and no step of 0.1 NM, 2 s or 2 degrees costs more than 12 points. */
class SweepsTest {

    @TempDir
    Path folder = Path.of("");

    @Test
    void noLargerMistakeScoresHigherAndNoStepIsACliff() {
        List<String> wrong = new ArrayList<>();
        for (Sweep sweep : Sweep.ALL) {
            List<Sweep.Point> points = sweep.fly(folder);
            if (Boolean.getBoolean("rejoin.truth.show")) {
                System.out.println(sweep.title() + "\n" + sweep.table(points));
            }
            wrong.addAll(sweep.faultsOf(points));
        }
        wrong.forEach(System.out::println);
        assertThat(wrong).isEmpty();
    }
}
