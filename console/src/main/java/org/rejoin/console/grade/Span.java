package org.rejoin.console.grade;

/** From when to when something was judged, and how much of that nobody saw. */
final class Span {

    /** A span with more unseen than this ... is not judged, seconds; common practice, no source. */
    private static final double UNSEEN_S = 60;

    /** ... or with more than this share of it; common practice, no source. */
    private static final double UNSEEN_SHARE = 0.25;

    private double fromS = Double.NaN;
    private double toS = Double.NaN;
    private double unseenS;

    /** Not seen since it was judged last; that counts when it is judged again. */
    private double unseenSinceS;

    private Span() {}

    static Span nothing() {
        return new Span();
    }

    static Span of(double fromS, double toS) {
        Span span = new Span();
        span.fromS = fromS;
        span.toS = toS;
        return span;
    }

    void add(double timeS) {
        unseenS += empty() ? 0 : unseenSinceS;
        unseenSinceS = 0;
        fromS = empty() ? timeS : fromS;
        toS = timeS;
    }

    /**
     * Time that went by between two points without anything being seen. A heading that was flown before then is none the less
     * known.
     *
     * @param judging whether the point before it was judged
     */
    void unseen(double seconds, boolean judging) {
        unseenS += judging ? seconds : 0;
        unseenSinceS += judging ? 0 : seconds;
    }

    boolean empty() {
        return Double.isNaN(fromS);
    }

    /** Whether too much of it fell into gaps to judge what is left. */
    boolean fellIntoGaps() {
        return fellIntoGaps(0);
    }

    /** The same where not enough was seen: for {@code unknownS} in all what is to be judged was not sent. */
    boolean fellIntoGaps(double unknownS) {
        double missedS = unseenS + unknownS;
        return missedS > UNSEEN_S || missedS > UNSEEN_SHARE * (toS - fromS);
    }

    double fromS() {
        return fromS;
    }

    double toS() {
        return toS;
    }
}
