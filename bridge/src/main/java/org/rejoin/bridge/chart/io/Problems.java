package org.rejoin.bridge.chart.io;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

import org.rejoin.bridge.chart.io.ChartReader.Problem;

/** The problems found so far. Only so many are kept: a large file of rubbish must not fill the memory. */
final class Problems {

    private static final int KEPT = 1000;

    private final List<Problem> kept = new ArrayList<>();
    private int more;

    /** A record that is left out for it. */
    void dropped(int line, String what) {
        add(new Problem(line, what, true));
    }

    /** Something wrong that leaves the record usable. */
    void noted(int line, String what) {
        add(new Problem(line, what, false));
    }

    /** In the order of the file; those of no line come last. */
    List<Problem> inOrder() {
        List<Problem> ordered = new ArrayList<>(kept);
        ordered.sort(Comparator.comparingInt(problem -> problem.line() == 0 ? Integer.MAX_VALUE : problem.line()));
        if (more > 0) {
            ordered.add(new Problem(0, "and " + more + " problems more; mend these first", true));
        }
        return List.copyOf(ordered);
    }

    private void add(Problem problem) {
        if (kept.size() < KEPT) {
            kept.add(problem);
        } else {
            more++;
        }
    }
}
