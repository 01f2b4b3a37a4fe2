package org.rejoin.bridge.tracker;

import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;

/**
 * From the first crossing of the course to intercept until the aircraft is established on it: was there a turn toward
 * the course in time, and how far was the aircraft carried?
 */
final class PassageWatch {

    /** Of the turn looked for, what may come back before it is taken to be none: a gust. */
    private static final double UNDONE_SHARE = 0.5;

    private final Rule.FlownThrough rule;
    private final Rule.Overshoot overshoot;
    private final double reciprocalDeg;
    private final double windowS;
    private final double beganS;
    private final double farSide;
    private double crossedS;
    private double towardSign;
    private double noseAtCrossingDeg;
    private double farthestNoseDeg;
    private double turnBeganS = Double.NaN;
    private double farthestNm;
    private boolean judged;

    /**
     * The first crossing.
     *
     * @param atS flown seconds
     * @param angle to the course, degrees
     * @param after the end of the step of the crossing
     * @param meanNose of the seconds before
     */
    PassageWatch(double atS, double angle, CourseMeasure after, Series meanNose, Rules rules) {
        this.rule = rules.of(Rule.FlownThrough.class);
        this.overshoot = rules.of(Rule.Overshoot.class);
        this.reciprocalDeg = rules.of(Rule.WrongDirection.class).reciprocalDeg();
        this.windowS = rules.of(Rule.Rates.class).overS();
        this.beganS = atS;
        this.farSide = Math.signum(after.crossTrackNm());
        crossed(atS, angle, after, meanNose);
    }

    /** A crossing back, or forth again. */
    void crossed(double atS, double angle, CourseMeasure after, Series meanNose) {
        crossedS = atS;
        // Toward the course is against the side the track points to.
        towardSign = -Math.signum(after.trackErrorDeg());
        noseAtCrossingDeg = after.instant().meanNoseDeg();
        farthestNoseDeg = meanNose.isEmpty() ? noseAtCrossingDeg : meanNose.extreme(atS - rule.beforeS(), -towardSign);
        turnBeganS = Double.NaN;
        judged = angle <= rule.angleDeg();
        turn(after);
        carried(after);
    }

    /** Overshoot is on the far side of the first crossing; back on the near side the line is yet to be met. */
    private void carried(CourseMeasure now) {
        farthestNm = Math.max(farthestNm, farSide * now.crossTrackNm());
    }

    /**
     * A turn brings the mean heading closer to the course than it was at its farthest. Its beginning follows from how
     * far mean and heading have come: at a steady rate the mean has come r t^2 / 2w after t, and r (t - w / 2) once t
     * is longer than the seconds w of the mean.
     */
    private void turn(CourseMeasure now) {
        double mean = now.instant().meanNoseDeg();
        if (towardSign * (mean - farthestNoseDeg) < 0) {
            farthestNoseDeg = mean;
        }
        double come = towardSign * (mean - farthestNoseDeg);
        if (Double.isNaN(turnBeganS)) {
            if (come >= rule.turnDeg()) {
                double net = Math.max(1e-3, towardSign * now.instant().turnRateDegPerS() * windowS);
                double sinceS = 2 * windowS * come / net;
                turnBeganS = now.flownS() - (sinceS <= windowS ? sinceS : windowS / 2 + windowS * come / net);
            }
        } else if (come < UNDONE_SHARE * rule.turnDeg()) {
            turnBeganS = Double.NaN;
        }
    }

    private boolean turnedInTime() {
        return turnBeganS <= crossedS + rule.afterS();
    }

    /** Takes a step; true when the line has been flown through, and the event is added. */
    boolean step(CourseMeasure before, CourseMeasure now, double fullScaleNm, List<FlightEvent> events) {
        carried(now);
        turn(now);
        if (judged || turnedInTime() || now.flownS() < crossedS + rule.afterS() + rule.seenS()) {
            return false;
        }
        // Turning onto the reciprocal is a turn onto the line, too: a fault of its own, not this one.
        if (180 - Math.abs(now.trackErrorDeg()) <= reciprocalDeg) {
            judged = true;
            return false;
        }
        boolean reversing = -towardSign * (now.instant().meanNoseDeg() - noseAtCrossingDeg) >= rule.reversingDeg();
        double limitNm = overshoot.limitNm(fullScaleNm);
        double beyond = Math.abs(now.crossTrackNm()) - limitNm;
        if (beyond <= 0 || (reversing && now.flownS() < crossedS + rule.afterS() + rule.reversalS())) {
            return false;
        }
        double earliestS = Math.max(before.flownS(), crossedS + rule.afterS() + rule.seenS());
        double atS = Math.max(
                Math.min(earliestS, now.flownS()),
                Dwell.root(before.flownS(), Math.abs(before.crossTrackNm()) - limitNm, now.flownS(), beyond));
        double cross = now.crossTrackAt(before, now.shareAt(before, atS));
        events.add(new FlightEvent.FlownThrough(now.timeAt(atS), cross));
        return true;
    }

    /** Across a gap nobody saw whether there was a turn. */
    void breakOff() {
        judged = true;
    }

    /** Established, at this flown time. */
    void settled(double atS, CourseMeasure now, List<FlightEvent> events) {
        if (farthestNm > overshoot.loggedNm()) {
            events.add(new FlightEvent.Overshoot(now.timeAt(atS), farthestNm, OptionalDouble.of(atS - beganS)));
        }
    }

    /** Over without having been established. */
    void abandoned(double timeS, List<FlightEvent> events) {
        if (farthestNm > overshoot.loggedNm()) {
            events.add(new FlightEvent.Overshoot(timeS, farthestNm, OptionalDouble.empty()));
        }
    }
}
