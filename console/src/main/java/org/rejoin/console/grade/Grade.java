package org.rejoin.console.grade;

import java.util.List;
import java.util.Set;

/**
 * The grade of a flight.
 *
 * @param standard name of the tolerance set
 * @param criteria what was graded; what could not be graded is not here
 * @param faults in order of time
 * @param notes what could not be graded, and why
 */
public record Grade(String standard, List<Criterion> criteria, List<Fault> faults, List<String> notes) {

    private static final Set<String> BESIDE_THE_ROUTE = Set.of("ALTITUDE", "SPEED", "FAULTS");

    /** Copies the lists. */
    public Grade {
        criteria = List.copyOf(criteria);
        faults = List.copyOf(faults);
        notes = List.copyOf(notes);
    }

    /**
     * Points earned as a share of the points that could be earned.
     *
     * @return 0 to 100
     */
    public double score() {
        double most = criteria.stream().mapToDouble(Criterion::maxPoints).sum();
        return most == 0
                ? 0
                : 100 * criteria.stream().mapToDouble(Criterion::points).sum() / most;
    }

    /**
     * Whether what was cleared was judged, and not only how the aircraft was held.
     *
     * @return false where the amendment was taken back, or none was heard
     */
    public boolean judged() {
        return criteria.stream().anyMatch(criterion -> !BESIDE_THE_ROUTE.contains(criterion.code()));
    }

    /**
     * Whether the standard was met.
     *
     * @return true if every criterion was, and the amendment itself was judged
     */
    public boolean met() {
        return judged() && criteria.stream().allMatch(Criterion::met);
    }
}
