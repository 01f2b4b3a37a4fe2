package org.rejoin.console.grade;

/**
 * One thing that was graded: {@code measured} must be at most {@code limit}, both in {@code unit}.
 *
 * @param code for machines
 * @param title for people
 * @param measured in the unit; NaN where the flight never came to it
 * @param unit "deg", "NM", "ft", "kt" or "count"
 * @param limit in the unit
 * @param points earned
 * @param maxPoints that could be earned
 * @param met whether the limit was kept
 * @param fromS start of the evidence, seconds since the first sample
 * @param toS end of the evidence
 * @param source of the limit: document, edition, paragraph
 */
public record Criterion(
        String code,
        String title,
        double measured,
        String unit,
        double limit,
        double points,
        double maxPoints,
        boolean met,
        double fromS,
        double toS,
        String source) {

    /** A criterion that the flight never came to: no measure, no points. In nautical miles. */
    static Criterion never(
            String code, String title, double limitNm, double maxPoints, double fromS, double toS, String source) {
        return new Criterion(code, title, Double.NaN, "NM", limitNm, 0, maxPoints, false, fromS, toS, source);
    }

    /**
     * Whether there is anything measured.
     *
     * @return false where the flight never came to it
     */
    public boolean measurable() {
        return !Double.isNaN(measured);
    }

    /**
     * A criterion with points that fall in a straight line from all at 0 to none at twice the limit: half at the limit
     * itself, so that a flight worse in this respect never earns more.
     */
    static Criterion graded(
            String code,
            String title,
            double measured,
            String unit,
            double limit,
            double maxPoints,
            double fromS,
            double toS,
            String source) {
        double share = Math.max(0, 1 - measured / (2 * limit));
        return new Criterion(
                code,
                title,
                measured,
                unit,
                limit,
                maxPoints * share,
                maxPoints,
                measured <= limit,
                fromS,
                toS,
                source);
    }
}
