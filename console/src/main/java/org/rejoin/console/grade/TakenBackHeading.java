package org.rejoin.console.grade;

import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.console.words.Words;

/** A heading that was taken back, and the one that stands again: which of them was flown. */
final class TakenBackHeading {

    private static final double WITHIN_DEG =
            Rules.STANDARD.of(Rule.Heading.class).limitDeg();

    /** Flown on for so long it is taken for the one in force, seconds; common practice, no source. */
    private static final double FLOWN_ON_S = 30;

    private final MagneticDirection takenBack;
    private final MagneticDirection inForce;
    private double fromS = Double.POSITIVE_INFINITY;
    private double lastS = Double.NaN;
    private double flownOnS;

    TakenBackHeading(MagneticDirection takenBack, MagneticDirection inForce) {
        this.takenBack = takenBack;
        this.inForce = inForce;
    }

    void point(Point now) {
        fromS = Math.min(fromS, now.timeS());
        double passedS = Double.isNaN(lastS) || now.newPiece() ? 0 : now.flownS() - lastS;
        lastS = now.flownS();
        boolean judged = !Double.isNaN(now.headingErrorDeg());
        if (judged && off(now, takenBack) <= WITHIN_DEG && off(now, inForce) > WITHIN_DEG) {
            flownOnS += passedS;
        }
    }

    private static double off(Point now, MagneticDirection heading) {
        return Math.abs(Angles.turn(now.headingMagneticDeg() - heading.deg()));
    }

    /** Since when the other one stands again, seconds since the first sample. */
    double fromS() {
        return fromS;
    }

    boolean flownOn() {
        return flownOnS >= FLOWN_ON_S;
    }

    String words() {
        return Words.say(
                "the disregard was not followed: heading %s was flown, and heading %s was in force again",
                Angles.figures(takenBack.deg()), Angles.figures(inForce.deg()));
    }
}
