package org.rejoin.console.report;

import java.util.List;
import java.util.Locale;

import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.console.draw.Markup;
import org.rejoin.console.grade.AmendmentGrade;
import org.rejoin.console.grade.AttemptGrade;
import org.rejoin.console.grade.Criterion;
import org.rejoin.console.grade.Fault;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.GradeCard;
import org.rejoin.console.grade.Verdict;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.words.Words;

/** The grade: what was measured, against which limit, from where; the faults and what to practise. */
record GradeSheet(Markup out, Grade grade, List<NumberedEvent> events) {

    void card() {
        AttemptGrade last = grade.last();
        if (last.amendments().size() < 2) {
            table(grade.criteria());
        } else {
            for (AmendmentGrade amendment : last.amendments()) {
                out.start("p").element("strong", Words.clock(amendment.atS()));
                out.text(" \u201c" + amendment.say() + "\u201d: "
                                + GradeCard.result(amendment.score(), amendment.verdict(), amendment.notJudged()))
                        .end();
                table(amendment.criteria());
            }
        }
        if (grade.attempts().size() > 1) {
            out.element("h3", "Attempts");
            out.start("ul");
            for (AttemptGrade attempt : grade.attempts()) {
                out.element(
                        "li",
                        Words.clock(attempt.fromS()) + " to " + Words.clock(attempt.toS()) + ": "
                                + GradeCard.result(attempt.score(), attempt.verdict(), attempt.notJudged())
                                + (attempt.equals(last) ? " (this card)" : ""));
            }
            out.endLine();
        }
    }

    private void table(List<Criterion> criteria) {
        out.start("table", "class", "card").tableHead(List.of("", "Criterion", "Measured", "Limit", "Points"));
        for (Criterion criterion : criteria) {
            out.start("tbody").start("tr", "class", style(criterion.verdict()));
            out.element("td", mark(criterion.verdict()) + criterion.verdict().inText(), "class", "verdict");
            out.element("th", criterion.title(), "scope", "row");
            out.element("td", measured(criterion), "class", "figure");
            out.element("td", value(criterion, criterion.limit()), "class", "figure");
            out.element("td", criterion.judged() ? criterion.pointsInWords() : "none", "class", "figure");
            out.end().start("tr", "class", "source");
            out.start("td").end();
            out.element(
                    "td",
                    (criterion.moment().isPresent()
                                    ? "At " + Words.clock(criterion.moment().getAsDouble()) + ". "
                                    : "")
                            + "Judged " + Words.clock(criterion.fromS()) + " to " + Words.clock(criterion.toS())
                            + ". Limit: " + criterion.source() + ".",
                    "colspan",
                    "4");
            out.end().end();
        }
        out.endLine();
    }

    private static String style(Verdict verdict) {
        return verdict.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** The shape says it; colour only repeats it. */
    private static String mark(Verdict verdict) {
        return switch (verdict) {
            case MET -> "\u2713 ";
            case NOT_MET -> "\u2717 ";
            case NOT_JUDGED -> "\u2013 ";
        };
    }

    private static String measured(Criterion criterion) {
        return criterion
                .notJudged()
                .orElseGet(() -> criterion.measurable() ? value(criterion, criterion.measured()) : "not reached");
    }

    void faults() {
        if (grade.faults().isEmpty()) {
            out.element("p", grade.criteria().isEmpty() ? "Nothing was graded." : "No faults.")
                    .text("\n");
            return;
        }
        out.start("ul", "class", "faults");
        for (Fault fault : grade.faults()) {
            String text = fault.text();
            int practise = text.indexOf(" Practise: ");
            out.start("li");
            out.element("strong", words(fault.code()));
            out.text(" at " + Words.clock(fault.atS()));
            NumberedEvent.of(fault, events).ifPresent(event -> {
                out.text(" (event ");
                out.element("a", String.valueOf(event.number()), "href", "#" + event.anchor());
                out.text(")");
            });
            out.text(": " + (practise < 0 ? text : text.substring(0, practise)));
            if (practise >= 0) {
                out.start("div", "class", "practise");
                out.element("em", "Practise: ");
                out.text(text.substring(practise + " Practise: ".length()));
                out.end();
            }
            out.end();
        }
        out.endLine();
    }

    /** For example "Flown through". */
    static String words(FaultCode code) {
        return Words.sentence(code.name().replace('_', ' ').toLowerCase(Locale.ROOT));
    }

    private static String value(Criterion criterion, double exact) {
        double value = JsonNumbers.rounded(exact, 3).doubleValue(); // as the grade's file has it, and the page
        return switch (criterion.unit()) {
            case "count" -> Words.say("%.0f", value);
            case "NM" -> Words.say("%.2f NM", value);
            case "deg" -> Words.say("%.1f\u00b0", value);
            default -> Words.say("%.0f %s", value, criterion.unit());
        };
    }
}
