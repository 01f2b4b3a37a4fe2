package org.rejoin.console.skill;

import java.time.Instant;
import java.util.List;
import java.util.OptionalDouble;

/**
 * One graded attempt as the estimates need it: a flight, a paper drill, a readback.
 *
 * @param pilot whose it is, as he is called
 * @param at when it ended
 * @param shape of the line, for example "C"; empty text where not known
 * @param turn first turn, "left" or "right"; empty text where not known
 * @param line that it led to
 * @param workOutS time to work the clearance out, seconds; empty where not measured
 * @param faults codes, often none
 * @param marks often several, each of another skill
 */
public record GradedAttempt(
        String pilot,
        Instant at,
        String shape,
        String turn,
        Line line,
        OptionalDouble workOutS,
        List<String> faults,
        List<Mark> marks) {

    public GradedAttempt {
        faults = List.copyOf(faults);
        marks = List.copyOf(marks);
    }

    /** {@return the marks of all, in their order} */
    public static List<Mark> marks(List<GradedAttempt> attempts) {
        return attempts.stream().flatMap(attempt -> attempt.marks().stream()).toList();
    }
}
