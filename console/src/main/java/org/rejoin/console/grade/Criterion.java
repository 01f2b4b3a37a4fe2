package org.rejoin.console.grade;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.words.Words;

/**
 * One thing that was graded: {@code measured} must be at most {@code limit}, both in the {@link #unit}.
 *
 * @param measured NaN where the flight never came to it, or it was not judged
 * @param maxPoints that could be earned; 0 where it was not judged
 * @param verdict whether the limit was kept
 * @param fromS start of the evidence, seconds since the first sample
 * @param toS end of the evidence
 * @param atS when the measured value was flown, seconds since the first sample: the worst moment; of a mean
 *     the worst of its seconds, of a time of a leg its end. NaN where nothing was off, or it is counted and not measured
 * @param source of the limit: document, edition, paragraph
 * @param notJudged why not; empty where it was
 */
public record Criterion(
        Kind kind,
        String title,
        double measured,
        double limit,
        double points,
        double maxPoints,
        Verdict verdict,
        double fromS,
        double toS,
        double atS,
        String source,
        Optional<String> notJudged) {

    /** Less is written as nothing, in any unit, and was never to be seen. */
    private static final double LEAST = 0.0005;

    /** Not met, it has at most this share of its points, however little was wrong; common practice, no source. */
    static final double NOT_MET_MOST = 0.95;

    /** What a criterion measures, in which unit, for how many points. */
    public enum Kind {
        HEADING("Assigned heading, largest mean error over 10 s", "deg", 10),
        INTERCEPT("Intercept, distance carried past the line", "NM", 20),
        COURSE("Course once on it, largest cross-track", "NM", 15),
        FIX("Turn at the fix, beyond a sound fly-by", "NM", 10),
        ALTITUDE("Assigned altitude, largest error held 5 s", "ft", 10),
        SPEED("Assigned speed, largest error held 10 s", "kt", 10),
        HOLD("Hold, inbound leg, largest error of its time", "s", 15),
        HOLD_LENGTH("Hold, outbound leg, largest error of its length", "NM", 15),
        HOLD_ENTRY("Hold, entry other than by the heading on arrival", "count", 5),
        HOLD_COURSE("Hold, inbound course, largest cross-track", "NM", 10),
        HOLD_SPEED("Hold, speed above the maximum, held 10 s", "kt", 5),
        CROSSING("Crossing, largest altitude error", "ft", 10),
        COMPLETED("Parts of the clearance not done", "count", 10),
        FAULTS("Faults", "count", 25);

        private final String title;
        private final String unit;
        private final double maxPoints;

        Kind(String title, String unit, double maxPoints) {
            this.title = title;
            this.unit = unit;
            this.maxPoints = maxPoints;
        }

        double maxPoints() {
            return maxPoints;
        }
    }

    /** What is to be judged; the limit is in the unit of the kind. */
    record Asked(Kind kind, double limit, Span span, String source) {

        /** All points at 0, half at the limit, none from twice the limit on. */
        Criterion measured(double measured) {
            double points = kind.maxPoints * (1 - Math.min(1, measured / limit / 2));
            return judged(measured, points, measured <= limit);
        }

        Criterion judged(double measured, double points, boolean met) {
            return with(measured, points, kind.maxPoints, met ? Verdict.MET : Verdict.NOT_MET, Optional.empty());
        }

        /** The flight had the time and never came to it: no measure, no points. */
        Criterion never() {
            return judged(Double.NaN, 0, false).titled(kind.title.split(",", 2)[0] + ", not reached");
        }

        /** Not seen, not flown or not due: no measure, and no points that could be earned. */
        Criterion notJudged(String why) {
            return with(Double.NaN, 0, 0, Verdict.NOT_JUDGED, Optional.of(why));
        }

        private Criterion with(
                double measured, double points, double maxPoints, Verdict verdict, Optional<String> notJudged) {
            return new Criterion(
                    kind,
                    kind.title,
                    measured,
                    limit,
                    points,
                    maxPoints,
                    verdict,
                    span.fromS(),
                    span.toS(),
                    Double.NaN,
                    source,
                    notJudged);
        }
    }

    /** The same with the moment of the measured value. */
    Criterion at(double momentS) {
        return changed(title, points, verdict, measured >= LEAST ? momentS : Double.NaN);
    }

    /** The same with a fault of the same thing: never beside "met" nor with all points, and the title says why. */
    Criterion notMet(String why) {
        return verdict == Verdict.MET
                ? changed(title + "; " + why, Math.min(points, maxPoints * NOT_MET_MOST), Verdict.NOT_MET, atS)
                : this;
    }

    /**
     * {@return its points as everybody says them, as "14.4 of 15"} Rounded half up from what the grade's file has, as the
     * page does: else card and page would make two numbers of one.
     */
    public String pointsInWords() {
        return Words.say("%.1f of %.0f", JsonNumbers.rounded(points, 2).doubleValue(), maxPoints);
    }

    /** The same with a share of its points: what was flown well, but too late to be what was cleared. */
    Criterion earning(double share) {
        return changed(title, points * share, verdict, atS);
    }

    Criterion titled(String newTitle) {
        return changed(newTitle, points, verdict, atS);
    }

    private Criterion changed(String shown, double earned, Verdict judged, double momentS) {
        return new Criterion(
                kind, shown, measured, limit, earned, maxPoints, judged, fromS, toS, momentS, source, notJudged);
    }

    /** This and the same criterion of another amendment: the worse measure, the points of both. */
    Criterion with(Criterion other) {
        if (verdict == Verdict.NOT_JUDGED) {
            return other.verdict == Verdict.NOT_JUDGED ? this : other.with(this);
        }
        return together(other, points + other.points, maxPoints + other.maxPoints);
    }

    /** This or the same criterion of the same amendment, whichever was flown worse; what was judged of either stands. */
    Criterion orWorse(Criterion other) {
        return judged() && other.judged()
                ? together(other, Math.min(points, other.points), Math.max(maxPoints, other.maxPoints))
                : with(other);
    }

    private Criterion together(Criterion other, double earned, double most) {
        boolean worse = other.verdict != Verdict.NOT_JUDGED && other.part() > part();
        Criterion shown = worse ? other : this;
        return new Criterion(
                kind,
                shown.title,
                shown.measured,
                shown.limit,
                earned,
                most,
                Verdict.together(List.of(verdict, other.verdict)),
                Math.min(fromS, other.fromS),
                Math.max(toS, other.toS),
                shown.atS,
                shown.source,
                notJudged.or(other::notJudged));
    }

    private double part() {
        return Double.isNaN(measured) ? Double.POSITIVE_INFINITY : limit == 0 ? measured : measured / limit;
    }

    /** {@return what it is, for machines} */
    public String code() {
        return kind.name();
    }

    /** {@return what it is measured in: "deg", "NM", "ft", "kt", "s" or "count"} */
    public String unit() {
        return kind.unit;
    }

    /** {@return whether there is a number; false where the flight never came to it, or it was not judged} */
    public boolean measurable() {
        return !Double.isNaN(measured);
    }

    /**
     * {@return when the measured value was flown; seconds since the first sample; empty where nothing was off, or it is
     * counted and not measured at a moment}
     */
    public OptionalDouble moment() {
        return Double.isNaN(atS) ? OptionalDouble.empty() : OptionalDouble.of(atS);
    }

    /** {@return whether the limit was kept; false also where it was not judged} */
    public boolean met() {
        return verdict == Verdict.MET;
    }

    /** {@return whether it was judged; false where it was not seen, not flown or not due} */
    public boolean judged() {
        return verdict != Verdict.NOT_JUDGED;
    }
}
