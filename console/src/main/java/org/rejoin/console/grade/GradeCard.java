package org.rejoin.console.grade;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.words.Words;

/** The grade as text for a terminal. */
public final class GradeCard {

    private GradeCard() {}

    /** The card. */
    public static List<String> lines(Grade grade, String standardTitle) {
        List<String> lines = new ArrayList<>();
        lines.add("GRADE against " + grade.standard() + ": " + standardTitle);
        lines.add("  task: " + grade.task());
        AttemptGrade last = grade.last();
        for (AmendmentGrade amendment : last.amendments()) {
            if (last.amendments().size() > 1) {
                lines.add("  " + Words.clock(amendment.atS()) + "  \"" + amendment.say() + "\": "
                        + result(amendment.score(), amendment.verdict(), amendment.notJudged()));
            }
            amendment.criteria().forEach(criterion -> criterion(criterion, lines));
        }
        lines.add("  " + result(grade.score(), grade.verdict(), grade.notJudged()));
        grade.feed().ifPresent(feed -> lines.add("  feed: " + feed.text()));
        for (Fault fault : grade.faults()) {
            lines.add("  fault at " + Words.clock(fault.atS()) + "  " + fault.code() + ": " + fault.text());
        }
        grade.notes().forEach(note -> lines.add("  note: " + note));
        for (int i = 0; i < grade.attempts().size(); i++) {
            AttemptGrade attempt = grade.attempts().get(i);
            if (!attempt.equals(last) && !attempt.amendments().isEmpty()) {
                lines.add(Words.say(
                        "  attempt %d, %s to %s: %s",
                        i + 1,
                        Words.clock(attempt.fromS()),
                        Words.clock(attempt.toS()),
                        result(attempt.score(), attempt.verdict(), attempt.notJudged())));
            }
        }
        return lines;
    }

    /**
     * A score and what it is worth, in one line; with the digit that {@code grade.json} has, so that 99.6 is no 100.
     *
     * @param score empty where too little was judged
     * @return for example "SCORE 97.2 of 100, standard met"
     */
    public static String result(java.util.OptionalDouble score, Verdict verdict, java.util.Optional<String> notJudged) {
        String points = score.isEmpty()
                ? "no score"
                : "SCORE " + JsonNumbers.rounded(score.getAsDouble(), 1).toPlainString() + " of 100";
        return points + ", standard " + verdict.words()
                + notJudged.map(why -> ": " + why).orElse("");
    }

    private static void criterion(Criterion criterion, List<String> lines) {
        if (!criterion.judged()) {
            lines.add(Words.say(
                    "  %-10s %-54s %s",
                    criterion.verdict().words(),
                    criterion.title(),
                    criterion.notJudged().orElse("")));
            return;
        }
        lines.add(Words.say(
                "  %-10s %-54s %-26s %10s points",
                criterion.verdict().words(), criterion.title(), measured(criterion), criterion.pointsInWords()));
        String when = criterion.moment().isPresent()
                ? "at " + Words.clock(criterion.moment().getAsDouble()) + "; "
                : "";
        lines.add("             " + when + "limit: " + criterion.source());
    }

    /** What was measured, and its limit; what is past the limit by less than the digits show is just over it. */
    static String measured(Criterion criterion) {
        String limit = number(criterion.limit(), criterion.unit());
        String value = criterion.measurable() ? number(criterion.measured(), criterion.unit()) : "not reached";
        boolean justOver = criterion.measured() > criterion.limit() && value.equals(limit);
        return (justOver ? "just over " : "") + value + " (limit " + limit + ")";
    }

    /** Fine enough that a value that lost points does not look like one that did not. */
    private static String number(double value, String unit) {
        String format = switch (unit) {
            case "NM" -> "%.2f NM";
            case "deg" -> "%.1f deg";
            case "count" -> "%.0f";
            default -> "%.0f " + unit;
        };
        // From what the grade's file has, as the page does: else the third digit would make two numbers of one.
        return Words.say(format, JsonNumbers.rounded(value, 3).doubleValue());
    }
}
