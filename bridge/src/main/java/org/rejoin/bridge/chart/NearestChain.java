package org.rejoin.bridge.chart;

import java.util.Arrays;
import java.util.List;

/**
 * Chooses, where several points share an ident, the ones that a route through all the idents means: those that make the
 * whole chain shortest.
 */
public final class NearestChain {

    /** Points of one ident that are considered; more than this share no ident on any real chart (common practice). */
    private static final int MOST = 8;

    private NearestChain() {}

    /** What a step of a chain costs; a length where nothing else counts. */
    public interface Cost {
        /** From the point before to the point of that number, from 1. */
        double of(int to, Waypoint before, Waypoint here);
    }

    /**
     * The shortest chain that takes one of each.
     *
     * @param candidates for each point of the chain one or more that may be meant; only the first eight are considered
     * @return one of each, in order; the earlier candidate where two chains are equally long
     * @throws IllegalArgumentException if there are no candidates for a point
     */
    public static List<Waypoint> of(List<? extends List<? extends Waypoint>> candidates) {
        List<? extends List<? extends Waypoint>> few = candidates.stream()
                .map(each -> each.subList(0, Math.min(MOST, each.size())))
                .toList();
        // No choice, no need to measure.
        return of(
                few,
                (to, before, here) -> few.get(to).size() == 1 && few.get(to - 1).size() == 1
                        ? 0
                        : before.position().distanceNm(here.position()));
    }

    /** The same of all candidates, where a step costs something else than its length. */
    public static List<Waypoint> of(List<? extends List<? extends Waypoint>> candidates, Cost cost) {
        int count = candidates.size();
        int[][] cameFrom = new int[count][];
        double[] sums = new double[0];
        for (int i = 0; i < count; i++) {
            int size = candidates.get(i).size();
            if (size == 0) {
                throw new IllegalArgumentException("no candidate for point " + (i + 1) + " of " + count);
            }
            cameFrom[i] = new int[size];
            double[] next = new double[size];
            for (int here = 0; i > 0 && here < size; here++) {
                next[here] = Double.POSITIVE_INFINITY;
                for (int before = 0; before < sums.length; before++) {
                    double sum = sums[before]
                            + cost.of(
                                    i,
                                    candidates.get(i - 1).get(before),
                                    candidates.get(i).get(here));
                    if (sum < next[here]) {
                        next[here] = sum;
                        cameFrom[i][here] = before;
                    }
                }
            }
            sums = next;
        }
        return traced(candidates, cameFrom, sums);
    }

    private static List<Waypoint> traced(
            List<? extends List<? extends Waypoint>> candidates, int[][] cameFrom, double[] lengths) {
        int best = 0;
        for (int k = 1; k < lengths.length; k++) {
            best = lengths[k] < lengths[best] ? k : best;
        }
        Waypoint[] chain = new Waypoint[candidates.size()];
        for (int i = chain.length - 1; i >= 0; i--) {
            chain[i] = candidates.get(i).get(best);
            best = cameFrom[i][best];
        }
        return List.copyOf(Arrays.asList(chain));
    }
}
