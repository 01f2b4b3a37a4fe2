package org.rejoin.console.grade;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** The grade as text for a terminal. */
public final class GradeCard {

    private GradeCard() {}

    /**
     * The card.
     *
     * @param grade any
     * @param standardTitle of the tolerance set
     * @return lines
     */
    public static List<String> lines(Grade grade, String standardTitle) {
        List<String> lines = new ArrayList<>();
        lines.add("GRADE against " + grade.standard() + ": " + standardTitle);
        for (Criterion criterion : grade.criteria()) {
            lines.add(String.format(
                    Locale.ROOT,
                    "  %-8s %-46s %8s of at most %8s  %5.1f / %2.0f points",
                    criterion.met() ? "met" : "NOT MET",
                    criterion.title(),
                    criterion.measurable() ? number(criterion.measured(), criterion.unit()) : "never",
                    number(criterion.limit(), criterion.unit()),
                    criterion.points(),
                    criterion.maxPoints()));
            lines.add("           limit: " + criterion.source());
        }
        lines.add(
                grade.criteria().isEmpty()
                        ? "  no score"
                        : String.format(
                                Locale.ROOT,
                                "  SCORE %.0f of 100, standard %s",
                                grade.score(),
                                grade.met() ? "met" : grade.judged() ? "NOT MET" : "not judged"));
        for (Fault fault : grade.faults()) {
            lines.add(String.format(
                    Locale.ROOT,
                    "  fault at %02d:%02d  %s: %s",
                    (long) fault.atS() / 60,
                    (long) fault.atS() % 60,
                    fault.code(),
                    fault.text()));
        }
        grade.notes().forEach(note -> lines.add("  note: " + note));
        return lines;
    }

    /** Fine enough that a value that lost points does not look like one that did not. */
    private static String number(double value, String unit) {
        String format = switch (unit) {
            case "NM" -> "%.2f NM";
            case "deg" -> "%.1f deg";
            case "count" -> "%.0f";
            default -> "%.0f " + unit;
        };
        return String.format(Locale.ROOT, format, value);
    }
}
