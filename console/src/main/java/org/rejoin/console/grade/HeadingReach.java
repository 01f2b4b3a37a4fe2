package org.rejoin.console.grade;

import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.console.words.Words;

import org.jspecify.annotations.Nullable;

/**
 * Whether an assigned heading leads to its line in the wind that there was. What was flown is taken with the heading error out
 * of its track: that is what the heading itself would have given.
 */
final class HeadingReach {

    private static final Rule.Heading RULE = Rules.STANDARD.of(Rule.Heading.class);

    private static final double TAKEN_UP_DEG =
            Rules.STANDARD.of(Rule.HeadingTakenUp.class).withinDeg();

    private final double assignedDeg;
    private final double toleranceDeg;
    private boolean takenUp;
    private boolean unknown;
    private boolean crossed;
    private boolean wouldMeet;
    private double side;
    private double crossNm = Double.NaN;
    private double flownNm;
    private double errorDegNm;
    private double lastErrorDeg;

    /**
     * Nothing flown yet.
     *
     * @param assignedDeg magnetic
     * @param toleranceDeg within which a heading is held
     */
    HeadingReach(double assignedDeg, double toleranceDeg) {
        this.assignedDeg = assignedDeg;
        this.toleranceDeg = toleranceDeg;
    }

    void point(@Nullable Point before, Point now) {
        if (now.phase() != Point.Phase.CLOSING || now.direct() || !now.hasLine() || now.toGoNm() < 0) {
            return;
        }
        unknown |= Double.isNaN(now.headingMagneticDeg());
        double error = unknown ? 0 : Angles.turn(now.headingMagneticDeg() - assignedDeg);
        takenUp |= Math.abs(error) <= TAKEN_UP_DEG || !Double.isNaN(now.headingErrorDeg());
        lastErrorDeg = error;
        double outNm = now.crossTrackNm();
        crossed |= side * outNm < 0;
        side = outNm == 0 ? side : Math.signum(outNm);
        boolean goesOn = before != null && !now.newPiece() && before.hasLine();
        if (Double.isNaN(crossNm) || !goesOn || !takenUp) {
            crossNm = Double.isNaN(crossNm) || !takenUp ? outNm : crossNm;
            return;
        }
        if (before.legIndex() != now.legIndex()) {
            // Another leg of the same airway: as far from it as flown.
            crossNm = outNm;
            return;
        }
        double stepNm = now.groundSpeedKt() * (now.flownS() - before.flownS()) / 3600;
        flownNm += stepNm;
        errorDegNm += stepNm * error;
        double nextNm = crossNm + stepNm * Math.sin(Math.toRadians(now.trackErrorDeg() - error));
        wouldMeet |= nextNm * crossNm <= 0;
        crossNm = nextNm;
    }

    /** Whether the line was not met by who held the heading; less nearly will do where the heading itself does not meet it. */
    boolean missesLine() {
        double withinDeg = wouldMeet ? toleranceDeg : RULE.limitDeg();
        boolean held =
                flownNm > 0 && Math.abs(errorDegNm / flownNm) <= withinDeg && Math.abs(lastErrorDeg) <= RULE.limitDeg();
        return takenUp && !unknown && !crossed && held;
    }

    /** Why what needs the line is not judged. */
    String words() {
        return Words.say(
                "heading %s did not take you to the course: say so, and ask for one that does",
                Angles.figures(assignedDeg));
    }
}
