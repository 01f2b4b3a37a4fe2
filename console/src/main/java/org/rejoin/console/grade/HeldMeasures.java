package org.rejoin.console.grade;

import java.util.List;

import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;

import org.jspecify.annotations.Nullable;

/** How an assigned heading, altitude or speed was held. */
final class HeldMeasures {

    /** A heading or speed error counts when it lasts this long, seconds; common practice, no source. */
    static final double HELD_S = 10;

    /** An altitude error counts when it lasts this long, seconds; common practice, no source. */
    private static final double ALTITUDE_HELD_S = 5;

    /** A heading is judged by its mean error over this long, seconds; common practice, no source. */
    private static final double HEADING_MEAN_S = 10;

    /** Off by more than this is a fault, whatever the set allows: degrees, feet, knots. */
    static final double HEADING_FAULT_DEG = 10;

    /** So far off a heading error is as grave as can be, degrees. */
    static final double HEADING_ALL_DEG = 2 * HEADING_FAULT_DEG;

    private static final double ALTITUDE_FAULT_FT = 100;
    private static final double SPEED_FAULT_KT = 10;

    /** Nobody has to be on what is assigned sooner, seconds. */
    private static final double REACTION_S =
            Rules.STANDARD.of(Rule.Heading.class).reactionS();

    private final Criterion.Kind kind;
    private final double limit;
    private final String source;
    private final Said said;
    private Worst worst;
    private Excess excess;
    private final Span span = Span.nothing();
    private boolean seen;
    private double beganS = Double.NaN;
    private double lastS = Double.NaN;
    private double unknownS;
    private int toCome;
    private boolean judgedNow = true;
    private boolean judging;
    private @Nullable Before before;
    private double leftS = Double.NaN;
    private AltitudeChange change = new AltitudeChange(ALTITUDE_FAULT_FT);

    /** What had been measured when the error last went beyond what is a fault. */
    private static final class Before extends Worst {

        private final double timeS;
        private final Excess excess;

        Before(double timeS, Worst until, Excess excess) {
            super(until.windowS);
            this.timeS = timeS;
            this.excess = excess;
            enough();
            atLeast(until.largest(), until.largestAtS());
        }

        @Override
        void add(double flownS, double atS, double error) {}

        @Override
        void breakOff() {}
    }

    /** Why it was not judged, in words. */
    private record Said(String unseen, String unsent, String notDue) {

        static Said of(String what, String sent) {
            return new Said(
                    "too much of the time at the assigned " + what + " was not received",
                    "the feed carries no " + sent,
                    "the time to reach the assigned " + what + " was not over");
        }
    }

    private HeldMeasures(Criterion.Kind kind, double limit, String source, Said said, Worst worst, Excess excess) {
        this.kind = kind;
        this.limit = limit;
        this.source = source;
        this.said = said;
        this.worst = worst;
        this.excess = excess;
    }

    static HeldMeasures heading(ToleranceSet set) {
        return new HeldMeasures(
                Criterion.Kind.HEADING,
                set.limits().headingDeg(),
                set.source("heading"),
                new Said(
                        "too much of the time on the heading was not received",
                        "the feed carries no heading",
                        "the course was met, or the lesson ended, before the time to react and turn was over"),
                new Worst.Mean(HEADING_MEAN_S),
                new Excess(HEADING_FAULT_DEG, HELD_S));
    }

    static HeldMeasures altitude(ToleranceSet set) {
        return new HeldMeasures(
                Criterion.Kind.ALTITUDE,
                set.limits().altitudeFt(),
                set.source("altitude"),
                Said.of("altitude", "altitude"),
                new Worst.Held(ALTITUDE_HELD_S),
                new Excess(ALTITUDE_FAULT_FT, ALTITUDE_HELD_S));
    }

    static HeldMeasures speed(ToleranceSet set) {
        return new HeldMeasures(
                Criterion.Kind.SPEED,
                set.speedKt(),
                set.source("speed"),
                Said.of("speed", "indicated airspeed"),
                new Worst.Held(HELD_S),
                new Excess(SPEED_FAULT_KT, HELD_S));
    }

    /**
     * Takes a point.
     *
     * @param sent the value as the feed sends it; NaN where it does not
     * @param carried whether the value is of an earlier sample: it has been taken then
     * @param error off the assigned value; NaN where none is judged
     * @param wanted whether the value has to be known here to judge by it
     */
    void point(Point now, double sent, boolean carried, double error, boolean wanted) {
        beganS = Double.isNaN(beganS) ? now.flownS() : beganS;
        double fromS = now.newPiece() || Double.isNaN(lastS) ? now.flownS() : Math.max(lastS, beganS + REACTION_S);
        lastS = now.flownS();
        if (carried) {
            return;
        }
        seen |= !Double.isNaN(sent);
        if (Double.isNaN(sent) && wanted) {
            unknownS += Math.max(0, lastS - fromS);
        }
        if (!Double.isNaN(leftS)) {
            return;
        }
        judging = !Double.isNaN(error);
        if (kind == Criterion.Kind.ALTITUDE) {
            change.point(now.flownS(), sent, error, excess.seconds() > 0);
        }
        if (!judging) {
            worst.breakOff();
            excess.breakOff();
        } else {
            boolean within = excess.within(Math.abs(error));
            before = within ? null : before == null ? new Before(now.timeS(), worst, excess.copy()) : before;
            worst.add(now.flownS(), now.timeS(), Math.abs(error));
            excess.add(now.flownS(), now.timeS(), Math.abs(error));
            span.add(now.timeS());
            judgedNow = true;
        }
    }

    /** What was assigned with the clearance before is in force still. */
    void goesOnFrom(HeldMeasures earlier) {
        change = earlier.change.goesOn();
    }

    /** Assigned anew: so many come into force one after the other, behind the one that does at once. */
    void inTurn(int later) {
        toCome = later;
        judgedNow = true;
        change.assigned();
    }

    /** The next one is in force. */
    void next(boolean value) {
        toCome = value ? Math.max(0, toCome - 1) : toCome;
        judgedNow = !value;
        if (value) {
            change.assigned();
        }
    }

    /** Whether one of several never came to be judged: what was kept of those before it is not all that was asked. */
    private boolean inPart() {
        return toCome > 0 || !judgedNow;
    }

    /** Whether it was off so far and so long that no gap changes it. */
    private boolean seenOff() {
        return worst.measured() && worst.largest() > limit && excess.severity() > 0;
    }

    /** Nothing was seen for so long. */
    void breakOff(double unseenS) {
        worst.breakOff();
        excess.breakOff();
        span.unseen(unseenS, judging);
    }

    /** It was left for another course than the cleared one: that is a mistake of its own, and counts as that from there on. */
    void leftForAnotherCourse(double timeS) {
        Before then = before;
        leftS = then == null ? timeS : then.timeS;
        if (then != null) {
            worst = then;
            excess = then.excess;
        }
    }

    /** When it was left for another course, seconds since the first sample; NaN where it was not. */
    double leftS() {
        return leftS;
    }

    /** Whether the feed sends the value. */
    boolean seen() {
        return seen;
    }

    /** The error that the criterion is measured by. */
    double largest() {
        return worst.largest();
    }

    /** How an altitude was gone to. */
    AltitudeChange change() {
        return change;
    }

    Excess excess() {
        return excess;
    }

    /** The criterion where there was no time to come to what is assigned. */
    Criterion notDue(Span amendment) {
        return new Criterion.Asked(kind, limit, amendment, source).notJudged(said.notDue());
    }

    /**
     * Adds the criterion.
     *
     * @param over whether nothing more can come
     * @param asked whether what was not due is asked for still, so that the standard is not judged without it
     * @return whether it is left out, because it was not due and is not asked for any more
     */
    boolean grade(List<Criterion> criteria, boolean over, boolean asked, Span amendment) {
        boolean tooShort = !span.empty() && !worst.measured() && !span.fellIntoGaps(unknownS);
        if (tooShort && over && !asked) {
            return true;
        }
        Criterion.Asked wanted = new Criterion.Asked(kind, limit, span.empty() ? amendment : span, source);
        if (!span.empty()) {
            boolean unseen = !tooShort && (!worst.measured() || (span.fellIntoGaps(unknownS) && !seenOff()));
            boolean early = tooShort || (over && asked && inPart() && worst.largest() <= limit);
            criteria.add(
                    unseen || early
                            ? wanted.notJudged(unseen ? said.unseen() : said.notDue())
                            : wanted.measured(worst.largest()).at(worst.largestAtS()));
        } else if (over && !seen) {
            criteria.add(wanted.notJudged(said.unsent()));
        } else if (over && unknownS > 0) {
            criteria.add(wanted.notJudged(said.unseen()));
            return false;
        } else if (over && asked) {
            criteria.add(wanted.notJudged(said.notDue()));
        }
        return over && seen && !asked && span.empty();
    }
}
