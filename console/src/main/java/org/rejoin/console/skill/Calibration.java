package org.rejoin.console.skill;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * What the estimates promised against what happened: before each mark the chance of a right one is worked out from the
 * marks before it.
 *
 * @param logLoss mean of -ln(chance given to what happened); less is better, ln 2 = 0.693 knows nothing
 * @param baseLogLoss the same for one who always says the share of right marks in all of them
 * @param rows by the chance promised, those without a mark left out
 */
public record Calibration(int marks, double logLoss, double baseLogLoss, List<Row> rows) {

    private static final int BINS = 10;

    public Calibration {
        rows = List.copyOf(rows);
    }

    /**
     * Marks with about the same chance.
     *
     * @param from chance, inclusive
     * @param to chance, exclusive
     * @param promised mean of the chances
     * @param right share of right marks
     */
    public record Row(double from, double to, int marks, double promised, double right) {}

    private record Promise(double chance, boolean right) {}

    /** From marks of any pilots, in any order; all 0 and no rows where there are none. */
    public static Calibration of(List<Mark> marks) {
        Map<String, Map<Skill, Estimate>> pilots = new java.util.TreeMap<>();
        List<Promise> promises = new ArrayList<>();
        marks.stream().sorted(Comparator.comparing(Mark::at)).forEach(mark -> {
            Map<Skill, Estimate> of = pilots.computeIfAbsent(mark.pilot(), name -> new EnumMap<>(Skill.class));
            Estimate before = of.getOrDefault(mark.skill(), Estimate.first(mark.skill()));
            promises.add(
                    new Promise(before.at(mark.at()).expected(mark.difficulty(), mark.guessChance()), mark.right()));
            of.put(mark.skill(), before.after(mark));
        });
        if (promises.isEmpty()) {
            return new Calibration(0, 0, 0, List.of());
        }
        double share = (double) promises.stream().filter(Promise::right).count() / promises.size();
        return new Calibration(
                promises.size(),
                promises.stream()
                        .mapToDouble(each -> loss(each.chance(), each.right()))
                        .average()
                        .orElse(0),
                promises.stream()
                        .mapToDouble(each -> loss(share, each.right()))
                        .average()
                        .orElse(0),
                rows(promises));
    }

    private static double loss(double chance, boolean right) {
        double given = Math.min(1 - 1e-9, Math.max(1e-9, right ? chance : 1 - chance));
        return -Math.log(given);
    }

    private static List<Row> rows(List<Promise> promises) {
        List<Row> rows = new ArrayList<>();
        for (int bin = 0; bin < BINS; bin++) {
            double from = bin / (double) BINS;
            double to = (bin + 1) / (double) BINS;
            int last = bin;
            List<Promise> in = promises.stream()
                    .filter(each -> Math.min(BINS - 1, (int) (each.chance() * BINS)) == last)
                    .toList();
            if (!in.isEmpty()) {
                rows.add(new Row(
                        from,
                        to,
                        in.size(),
                        in.stream().mapToDouble(Promise::chance).average().orElse(0),
                        (double) in.stream().filter(Promise::right).count() / in.size()));
            }
        }
        return rows;
    }
}
