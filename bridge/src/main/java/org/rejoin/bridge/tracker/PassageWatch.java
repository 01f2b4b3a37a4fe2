package org.rejoin.bridge.tracker;

import java.util.List;

import org.rejoin.bridge.flight.FlightEvent;
import java.util.OptionalDouble;

/**
 * From the first crossing of the course to intercept until the aircraft is established on it: was there a turn toward
 * the course in time, and how far was the aircraft carried?
 */
final class PassageWatch {

    /** Flown through needs a crossing steeper than this, degrees (fixed by the project's contract). */
    private static final double FLOWN_THROUGH_DEG = 15;

    /** Time to begin the turn after crossing, seconds (fixed by the project's contract). */
    private static final double TURN_WITHIN_S = 10;

    /** A turn has begun when the track has come this much closer to the course, degrees; common practice, no source. */
    private static final double TURN_BEGUN_DEG = 2;

    /** Or this much with a turn in progress of {@link #TURN_BEGUN_DEG_PER_S}; common practice, no source. */
    private static final double TURN_BEGINNING_DEG = 0.75;

    private static final double TURN_BEGUN_DEG_PER_S = 0.5;

    /** Turned away by this much in the time allowed: perhaps onto the reciprocal; common practice, no source. */
    private static final double REVERSING_DEG = 10;

    /** Longest time such a turn is waited for, seconds: half a circle at standard rate. */
    private static final double REVERSAL_S = 60;

    /** Overshoot is logged from here, nautical miles (fixed by the project's contract). */
    private static final double OVERSHOOT_LOGGED_NM = 0.1;

    private final double beganS;
    private double crossedS;
    private double angleDeg;
    private final double farSide;
    private double farthestNm;
    private boolean judged;

    /** The first crossing: when (flown seconds), at what angle, and on which side the aircraft is after it. */
    PassageWatch(double atS, double angleDeg, Measure after) {
        this.beganS = atS;
        this.farSide = Math.signum(after.crossTrackNm());
        crossed(atS, angleDeg, after);
    }

    /** A crossing back, or forth again. */
    void crossed(double atS, double angle, Measure after) {
        crossedS = atS;
        angleDeg = angle;
        judged = angle <= FLOWN_THROUGH_DEG;
        carried(after);
    }

    /** Overshoot is on the far side of the first crossing; back on the near side the line is yet to be met. */
    private void carried(Measure now) {
        farthestNm = Math.max(farthestNm, farSide * now.crossTrackNm());
    }

    /** Takes a step; true when the line has been flown through, and the event is added. */
    boolean step(Measure before, Measure now, List<FlightEvent> events) {
        carried(now);
        if (judged) {
            return false;
        }
        double endS = crossedS + TURN_WITHIN_S;
        double share = now.flownS() <= endS ? 1 : now.shareAt(before, Math.max(endS, before.flownS()));
        double error = Math.abs(now.trackErrorAt(before, share));
        double turned = angleDeg - error;
        double rate = -now.moment().turnRateDegPerS() * Math.signum(now.trackErrorDeg());
        if (turned >= TURN_BEGUN_DEG) {
            judged = true;
        } else if (now.flownS() >= endS) {
            // Turning onto the reciprocal is a turn onto the line, too: a fault of its own, not this one.
            boolean reversing = -turned >= REVERSING_DEG;
            boolean beginning = turned >= TURN_BEGINNING_DEG && rate > TURN_BEGUN_DEG_PER_S;
            if (beginning || 180 - Math.abs(now.trackErrorDeg()) <= CourseWatch.RECIPROCAL_DEG) {
                judged = true;
            } else if (!reversing || now.flownS() >= endS + REVERSAL_S) {
                double atS = reversing ? now.flownS() : Math.max(endS, before.flownS());
                double cross =
                        before.crossTrackNm() + (now.crossTrackNm() - before.crossTrackNm()) * now.shareAt(before, atS);
                events.add(new FlightEvent.FlownThrough(now.timeAt(atS), cross));
                return true;
            }
        }
        return false;
    }

    /** Across a gap nobody saw whether there was a turn. */
    void breakOff() {
        judged = true;
    }

    /** Established, at this flown time. */
    void settled(double atS, Measure now, List<FlightEvent> events) {
        if (farthestNm > OVERSHOOT_LOGGED_NM) {
            events.add(new FlightEvent.Overshoot(now.timeAt(atS), farthestNm, OptionalDouble.of(atS - beganS)));
        }
    }

    /** Over without having been established. */
    void abandoned(double timeS, List<FlightEvent> events) {
        if (farthestNm > OVERSHOOT_LOGGED_NM) {
            events.add(new FlightEvent.Overshoot(timeS, farthestNm, OptionalDouble.empty()));
        }
    }
}
