package org.rejoin.console.grade;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The grade of a flight. What it says by itself is said of the last attempt.
 *
 * @param standard name of the tolerance set
 * @param task of the published standard that was graded
 * @param attempts one or more, in order of time
 * @param notes what the flight or the feed kept from being graded
 * @param feed what the simulator sent; empty where that was not measured
 */
public record Grade(
        String standard, String task, List<AttemptGrade> attempts, List<String> notes, Optional<FeedLine> feed) {

    public Grade {
        attempts = List.copyOf(attempts);
        notes = List.copyOf(notes);
    }

    /**
     * The attempt that the card speaks of.
     *
     * @return the last in which a clearance was in force
     */
    public AttemptGrade last() {
        return attempts.stream()
                .filter(attempt -> !attempt.amendments().isEmpty())
                .reduce((earlier, later) -> later)
                .orElseGet(() -> attempts.get(attempts.size() - 1));
    }

    /**
     * The criteria of the last attempt.
     *
     * @return those of its amendments together
     */
    public List<Criterion> criteria() {
        return last().criteria();
    }

    /**
     * The faults of the last attempt.
     *
     * @return in order of time
     */
    public List<Fault> faults() {
        return last().faults();
    }

    /**
     * The score of the last attempt.
     *
     * @return 0 to 100; empty where too little could be judged
     */
    public OptionalDouble score() {
        return last().score();
    }

    /**
     * Whether the last attempt met the standard.
     *
     * @return not judged where nothing was, or something that was asked for was not
     */
    public Verdict verdict() {
        return last().verdict();
    }

    /**
     * Why the standard is not judged.
     *
     * @return one line; empty where it is
     */
    public Optional<String> notJudged() {
        return last().notJudged();
    }
}
