package org.rejoin.bridge.tracker;

import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Turn;

import org.jspecify.annotations.Nullable;

/**
 * The turn at a fix as it was flown, against the one that should have been led: where it began against the lead
 * R tan(turn / 2) of a standard turn, how far it carried past the new course or cut inside it.
 *
 * <p>The fly-by area is what lies between the two courses and the arc of the led turn (RTCA DO-236, from memory), here
 * with a margin on both sides. Where the turn began is worked back from two points well inside it, at the rate of turn
 * between them: the first degree of a turn cannot be seen in a noisy track or at one sample a second.
 */
final class FixTurn {

    /** A larger change of track in one step is a turn through the reciprocal, degrees. */
    private static final double WRAP_DEG = 90;

    private record Mark(double atS, double toGoNm, double crossNm) {}

    private final String ident;
    private final boolean computed;
    private final double turnDeg;
    private final double marginNm;
    private final double earliestNm;
    private final double fullScaleNm;
    private final double reachNm;
    private final double turningShare;
    private final Rule.TurnAtFix rule;
    private final Dwell rolledOut;
    private boolean aligned;
    private @Nullable Mark early;
    private double beganNm = Double.NaN;
    /** Along the old course, as the lead is worked out before the turn: the wind changes it in the turn. */
    private double speedKt;

    private double outsideNm;
    private double lastOffNew = Double.NaN;
    private boolean told;

    /**
     * A turn to come.
     *
     * @param turnDeg from the old course to the new, degrees, right positive
     * @param marginNm round the fly-by area, nautical miles
     * @param fullScaleNm here: begun farther than this before its lead it is another turn, nautical miles
     */
    FixTurn(String ident, boolean computed, double turnDeg, double marginNm, double fullScaleNm, Rules rules) {
        this.rule = rules.of(Rule.TurnAtFix.class);
        this.fullScaleNm = fullScaleNm;
        this.earliestNm = rule.earliestScale() * fullScaleNm;
        this.reachNm = rules.of(Rule.FixSequenced.class).reachNm();
        this.turningShare = rules.of(Rule.Rates.class).turningShare();
        this.rolledOut = new Dwell(rule.heldS());
        this.ident = ident;
        this.computed = computed;
        this.turnDeg = turnDeg;
        this.marginNm = marginNm;
    }

    /**
     * Takes a step near the fix.
     *
     * @param before measured from the old course
     * @param toGoBeforeNm along the old course to the fix
     * @param toGoNm the same, at the end of the step
     * @param fromNew the end of the step, measured from the new course
     */
    void step(
            CourseMeasure before,
            CourseMeasure now,
            double toGoBeforeNm,
            double toGoNm,
            CourseMeasure fromNew,
            List<FlightEvent> events) {
        double turn = Math.abs(turnDeg);
        if (told || turn < rule.leastDeg() || turn > rule.mostDeg()) {
            return;
        }
        double way = Math.signum(turnDeg);
        double turned = now.trackErrorDeg() * way;
        double turnedBefore = before.trackErrorDeg() * way;
        // Who turns through the direction of the old course does not come from it.
        if (Math.abs(turned) < rule.alongDeg() && now.instant().turning() < turningShare) {
            aligned = true;
            speedKt = now.instant().groundSpeedKt();
        }
        if (!aligned || Math.abs(turned - turnedBefore) > WRAP_DEG) {
            return;
        }
        begin(before, now, turnedBefore, turned, toGoBeforeNm, toGoNm);
        double offNew = Math.abs(fromNew.trackErrorDeg());
        double offBefore = Double.isNaN(lastOffNew) ? offNew : lastOffNew;
        lastOffNew = offNew;
        double outside = -way * fromNew.crossTrackNm();
        if (!Double.isNaN(beganNm)) {
            outsideNm = Math.max(outsideNm, outside);
        }
        OptionalDouble at =
                rolledOut.step(before.flownS(), offBefore - rule.alongDeg(), now.flownS(), offNew - rule.alongDeg());
        if (at.isPresent() && !Double.isNaN(beganNm)) {
            tell(now.timeAt(at.getAsDouble()), Math.max(0, -outside), events);
        }
    }

    private void begin(
            CourseMeasure before,
            CourseMeasure now,
            double turnedBefore,
            double turned,
            double toGoBeforeNm,
            double toGoNm) {
        double first = rule.earlyShare() * Math.abs(turnDeg);
        double second = rule.lateShare() * Math.abs(turnDeg);
        if (turned < first) {
            // Back on the old course or beyond it: what began was a swing about the course, not the turn.
            early = null;
            beganNm = Double.NaN;
            outsideNm = 0;
            rolledOut.reset();
            return;
        }
        if (!Double.isNaN(beganNm)) {
            return;
        }
        if (turnedBefore < first) {
            double atS = Dwell.root(before.flownS(), turnedBefore - first, now.flownS(), turned - first);
            early = new Mark(
                    atS, toGoBeforeNm + (toGoNm - toGoBeforeNm) * now.shareAt(before, atS), now.crossTrackNm());
        }
        Mark mark = early;
        if (mark != null && turnedBefore < second && turned >= second) {
            double atS = Dwell.root(before.flownS(), turnedBefore - second, now.flownS(), turned - second);
            double radiansPerS = Math.toRadians(second - first) / Math.max(atS - mark.atS(), 1e-3);
            double radiusNm = now.instant().groundSpeedKt() / 3600 / radiansPerS;
            double toGoThenNm = mark.toGoNm() + radiusNm * Math.sin(Math.toRadians(first));
            beganNm = atTheFix(toGoThenNm, mark.crossNm()) ? toGoThenNm : Double.NaN;
        }
    }

    /** How long before its lead the turn may begin, nautical miles. */
    double earliestNm() {
        return earliestNm;
    }

    /**
     * A turn far from the fix is another one: a cut back to the course, or a route left. Beyond full scale to the side
     * nobody is on the leg that ends there.
     */
    private boolean atTheFix(double toGoThenNm, double crossNm) {
        double leadNm = Turn.standardTurnLeadNm(speedKt, turnDeg);
        return toGoThenNm <= leadNm + earliestNm && toGoThenNm >= -reachNm && Math.abs(crossNm) <= fullScaleNm;
    }

    private void tell(double timeS, double insideNm, List<FlightEvent> events) {
        told = true;
        double leadNm = Turn.standardTurnLeadNm(speedKt, turnDeg);
        double lateS = speedKt > 0 ? (leadNm - beganNm) / speedKt * 3600 : 0;
        events.add(new FlightEvent.TurnAtFix(
                timeS,
                ident,
                computed,
                beganNm,
                leadNm,
                lateS,
                outsideNm,
                insideNm,
                outsideNm <= marginNm && insideNm <= marginNm));
    }

    /** Not seen for a while: where the turn began is not known. */
    void breakOff() {
        aligned = false;
        early = null;
        beganNm = Double.NaN;
        outsideNm = 0;
        lastOffNew = Double.NaN;
        rolledOut.reset();
    }
}
