package org.rejoin.console.grade;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The grade of a flight. What it says by itself is said of the last attempt.
 *
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

    /** {@return the attempt that the card speaks of, the last in which a clearance was in force} */
    public AttemptGrade last() {
        return attempts.stream()
                .filter(attempt -> !attempt.amendments().isEmpty())
                .reduce((earlier, later) -> later)
                .orElseGet(() -> attempts.get(attempts.size() - 1));
    }

    /** {@return the criteria of the last attempt, those of its amendments together} */
    public List<Criterion> criteria() {
        return last().criteria();
    }

    /** {@return the faults of the last attempt, in order of time} */
    public List<Fault> faults() {
        return last().faults();
    }

    /** {@return the score of the last attempt; 0 to 100; empty where too little could be judged} */
    public OptionalDouble score() {
        return last().score();
    }

    /**
     * {@return whether the last attempt met the standard; not judged where nothing was, or something that was asked for was
     * not}
     */
    public Verdict verdict() {
        return last().verdict();
    }

    /** {@return why the standard is not judged; one line; empty where it is} */
    public Optional<String> notJudged() {
        return last().notJudged();
    }
}
