package org.rejoin.console.grade;

import java.util.List;

/**
 * The grade of a flight.
 *
 * @param standard name of the tolerance set
 * @param criteria what was graded; what could not be graded is not here
 * @param faults in order of time
 * @param notes what could not be graded, and why
 */
public record Grade(String standard, List<Criterion> criteria, List<Fault> faults, List<String> notes) {

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
     * Whether the standard was met.
     *
     * @return true if every criterion was
     */
    public boolean met() {
        return !criteria.isEmpty() && criteria.stream().allMatch(Criterion::met);
    }
}
