package org.rejoin.console.grade;

import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Turn;

/**
 * How nearly an assigned heading was taken up: as near and as level as it was flown for the time that makes it taken up,
 * in shares of what that allows. Read every fifth of a second, in straight lines between samples, so that the sample rate
 * does not matter.
 */
final class HeadingNearness {

    private static final double STEP_S = 0.2;

    private static final Rule.HeadingTakenUp RULE = Rules.STANDARD.of(Rule.HeadingTakenUp.class);

    /** So near a heading is taken up, degrees. */
    static final double WITHIN_DEG = RULE.withinDeg();

    private static final double TURNING_SHARE =
            Rules.STANDARD.of(Rule.Rates.class).turningShare();

    /** Errors of the last seconds, degrees, one a step; the oldest is overwritten. */
    private final double[] errors = new double[(int) Math.round(RULE.heldS() / STEP_S)];

    private int taken;
    private double nextS = Double.NaN;
    private double lastS = Double.NaN;
    private double lastError;
    private double least = Double.POSITIVE_INFINITY;

    /** Takes the next error, degrees, at a time flown. */
    void add(double flownS, double error, double groundSpeedKt) {
        double allowedDeg = RULE.heldS() * TURNING_SHARE * Turn.standardTurnRateDegPerS(groundSpeedKt);
        nextS = Double.isNaN(lastS) ? flownS : nextS;
        while (nextS <= flownS) {
            double share = Double.isNaN(lastS) || flownS <= lastS ? 1 : (nextS - lastS) / (flownS - lastS);
            take(lastError + share * (error - lastError), allowedDeg);
            nextS += STEP_S;
        }
        lastS = flownS;
        lastError = error;
    }

    private void take(double error, double allowedDeg) {
        int at = taken % errors.length;
        double before = errors[at];
        errors[at] = error;
        taken++;
        if (taken > errors.length) {
            double offDeg = Math.max(Math.abs(error), Math.abs(before));
            least = Math.min(least, Math.max(offDeg / WITHIN_DEG, Math.abs(error - before) / allowedDeg));
        }
    }

    /** Nothing is concluded from the time to the next error. */
    void breakOff() {
        taken = 0;
        lastS = Double.NaN;
    }

    /**
     * How far from taken up: 0 where it nearly was, 1 where it was no nearer than twice what is allowed, or turned through at
     * the standard rate.
     */
    double shortfall() {
        return Math.min(1, Math.max(0, least - 1));
    }
}
