package org.rejoin.console.grade;

import java.util.ArrayDeque;
import java.util.Deque;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Angles;

/**
 * How a chase of the needle goes on once it is a fault: whether its swings grow, and for how long they last. What counts as
 * a swing is the rule's: the lesser of its degrees and of its distance off the course, as multiples of what each needs.
 */
final class WeaveMeasures {

    private static final Rule.Weaving RULE = Rules.STANDARD.of(Rule.Weaving.class);

    /** The last swings, as many as make a fault. */
    private final Deque<Double> times = new ArrayDeque<>();

    private double beganS = Double.NaN;
    private double lastS = Double.NaN;
    private double worst;
    private double widestDeg;
    private double noseDeg = Double.NaN;
    private double turnedDeg;
    private double lowDeg;
    private double highDeg;
    private double farthestOfScale;
    private double side;

    void event(double flownS, FlightEvent.Weaving weaving) {
        if (Double.isNaN(beganS)) {
            beganS = flownS;
            lastS = flownS;
            worst = weaving.times();
            widestDeg = weaving.swingDeg();
            for (int i = 0; i < RULE.crossings(); i++) {
                times.addLast(weaving.times());
            }
        }
    }

    void point(Point now) {
        double nose = Double.isNaN(now.headingMagneticDeg()) ? now.trackTrueDeg() : now.headingMagneticDeg();
        boolean seen = now.hasLine() && !now.newPiece() && !Double.isNaN(noseDeg);
        turnedDeg += seen ? Angles.turn(nose - noseDeg) : 0;
        noseDeg = nose;
        if (Double.isNaN(beganS) || !seen || now.flownS() > lastS + RULE.windowS()) {
            forget(now);
            return;
        }
        lowDeg = Math.min(lowDeg, turnedDeg);
        highDeg = Math.max(highDeg, turnedDeg);
        if (side * now.crossTrackNm() < 0) {
            crossed(now);
            forget(now);
        }
        farthestOfScale = Math.max(farthestOfScale, Math.abs(now.crossTrackNm()) / now.fullScaleNm());
    }

    private void crossed(Point now) {
        double swing = Math.min((highDeg - lowDeg) / RULE.swingDeg(), farthestOfScale / RULE.ofScale());
        if (!(swing > 1) || Math.abs(now.trackErrorDeg()) > RULE.flatterDeg()) {
            return;
        }
        lastS = now.flownS();
        widestDeg = Math.max(widestDeg, highDeg - lowDeg);
        times.removeFirst();
        times.addLast(swing);
        worst = Math.max(
                worst, times.stream().mapToDouble(Double::doubleValue).min().orElse(worst));
    }

    private void forget(Point now) {
        side = now.hasLine() ? Math.signum(now.crossTrackNm()) : 0;
        lowDeg = turnedDeg;
        highDeg = turnedDeg;
        farthestOfScale = 0;
    }

    /** By its largest run of swings, and more the longer it goes on: 0 at what makes it a fault. */
    double severity() {
        return Math.min(1, Fault.severity(worst, 1) * (1 + (lastS - beganS) / RULE.windowS()));
    }

    /** The widest swing of the nose, degrees. */
    double widestDeg() {
        return widestDeg;
    }
}
