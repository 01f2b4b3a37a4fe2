package org.rejoin.bridge.tracker;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Turn;

import org.jspecify.annotations.Nullable;

/**
 * The end of one leg and the turn onto the next: when the fix is sequenced, whether the turn goes the right way, whether
 * it is made at all.
 *
 * <p>A fly-by fix is sequenced on the bisector of its legs (RTCA DO-236, from memory): there the distance still to go
 * along the old leg equals the distance gone along the new one. A fix passed without a turn is sequenced abeam.
 */
final class FixWatch {

    /** Farther off than half an airway's width it is not this fix that is passed, NM (FAA Order JO 7400.2, ch. 20). */
    static final double REACH_NM = 4;

    /** A turn the other way by this much is a wrong turn, degrees; common practice, no source. */
    private static final double WRONG_TURN_DEG = 30;

    /** Still within this of the old course ... (fixed by the project's contract). */
    private static final double OLD_COURSE_DEG = 15;

    /** ... this long after passing abeam, seconds (fixed by the project's contract). */
    private static final double MISSED_AFTER_S = 30;

    /** How long after the fix a wrong turn is still this fix's, seconds; common practice, no source. */
    private static final double WATCHED_S = 90;

    private final String ident;
    private final boolean computed;
    private final GeodesicLine leg;
    private final @Nullable GeodesicLine next;
    private final double turnDeg;

    private @Nullable Measure last;
    private double lastAlongNext;
    private boolean sequenced;
    private double passedS = Double.NaN;
    private double abeamS = Double.NaN;
    private double turnedDeg = Double.NaN;
    private boolean wrongTurnTold;
    private boolean missedTold;

    FixWatch(String ident, boolean computed, GeodesicLine leg, @Nullable GeodesicLine next) {
        this.ident = ident;
        this.computed = computed;
        this.leg = leg;
        this.next = next;
        this.turnDeg = next == null ? 0 : leg.courseAt(leg.lengthNm()).turnTo(next.initialCourse());
    }

    boolean sequenced() {
        return sequenced;
    }

    /** A moment measured from the leg that ends here. */
    Measure measure(Moment now) {
        return Measure.of(now, leg);
    }

    /** Whether nothing more can come of this fix. */
    boolean over(Moment now) {
        double passed = Double.isNaN(passedS) ? abeamS : passedS;
        return !Double.isNaN(passed) && now.flownS() > passed + WATCHED_S;
    }

    /**
     * Takes a step.
     *
     * @param now measured from the leg that ends here
     * @param onNext whether the aircraft is established on the next leg
     * @return what happened
     */
    List<TrackerEvent> step(Measure now, boolean onNext) {
        Measure before = last;
        double beforeNext = lastAlongNext;
        GeodesicLine onward = next;
        double alongNext = onward == null ? now.alongNm() - leg.lengthNm() : alongNext(now, onward);
        last = now;
        lastAlongNext = alongNext;
        if (before == null) {
            return List.of();
        }
        List<TrackerEvent> events = new ArrayList<>();
        double togo = leg.lengthNm() - now.alongNm();
        double togoBefore = leg.lengthNm() - before.alongNm();
        boolean near = Math.abs(now.crossTrackNm()) < REACH_NM && Math.abs(togo) < 3 * REACH_NM;
        if (Double.isNaN(abeamS) && near && togoBefore > 0 && togo <= 0) {
            abeamS = Hold.root(before.flownS(), togoBefore, now.flownS(), togo);
        }
        if (!sequenced && near) {
            double past = alongNext - togo;
            double pastBefore = beforeNext - togoBefore;
            if (pastBefore < 0 && past >= 0) {
                sequence(now, before, Hold.root(before.flownS(), pastBefore, now.flownS(), past), events);
            } else if (!Double.isNaN(abeamS)) {
                sequence(now, before, Math.max(abeamS, before.flownS()), events);
            }
        }
        if (onward != null) {
            turn(before, now, togo, onNext, events);
            missed(now, onward, events);
        }
        return events;
    }

    private double alongNext(Measure now, GeodesicLine onward) {
        // Far from the fix the exact figure does not matter, and it is not free.
        double togo = leg.lengthNm() - now.alongNm();
        return Math.abs(togo) > 3 * REACH_NM
                ? -Math.abs(togo)
                : onward.offset(now.moment().position()).alongTrackNm();
    }

    private void sequence(Measure now, Measure before, double atS, List<TrackerEvent> events) {
        sequenced = true;
        passedS = atS;
        double share = (atS - before.flownS()) / Math.max(now.flownS() - before.flownS(), 1e-9);
        Moment then = Moment.between(before.moment(), now.moment(), Math.min(1, Math.max(0, share)));
        events.add(new TrackerEvent.FixSequenced(
                now.timeAt(atS), ident, computed, then.position().distanceNm(leg.end())));
    }

    /** Follows the turn from the point where it may begin, and says when it has gone the other way. */
    private void turn(Measure before, Measure now, double togo, boolean onNext, List<TrackerEvent> events) {
        double lead =
                Turn.leadNm(Turn.standardRadiusNm(now.moment().groundSpeedKt()), Math.min(Math.abs(turnDeg), 150));
        boolean inReach = togo < lead + 0.7 && Math.abs(now.crossTrackNm()) < REACH_NM;
        if (Double.isNaN(turnedDeg)) {
            if (inReach && Math.abs(now.trackErrorDeg()) < 60) {
                turnedDeg = now.trackErrorDeg();
            }
            return;
        }
        double turnedBefore = turnedDeg;
        turnedDeg += Angles.turn(now.moment().trackDeg() - before.moment().trackDeg());
        if (wrongTurnTold || onNext || over(now.moment())) {
            return;
        }
        double wrong = Math.abs(turnDeg) < 5
                ? Math.abs(turnedDeg) - WRONG_TURN_DEG
                : -turnedDeg * Math.signum(turnDeg) - WRONG_TURN_DEG;
        double wrongBefore = Math.abs(turnDeg) < 5
                ? Math.abs(turnedBefore) - WRONG_TURN_DEG
                : -turnedBefore * Math.signum(turnDeg) - WRONG_TURN_DEG;
        if (wrong >= 0 && wrongBefore < 0) {
            wrongTurnTold = true;
            double atS = Hold.root(before.flownS(), wrongBefore, now.flownS(), wrong);
            events.add(new TrackerEvent.WrongTurn(now.timeAt(atS), ident));
        }
    }

    private void missed(Measure now, GeodesicLine onward, List<TrackerEvent> events) {
        double dueS = abeamS + MISSED_AFTER_S;
        if (missedTold || Double.isNaN(abeamS) || now.flownS() < dueS || Math.abs(turnDeg) <= OLD_COURSE_DEG) {
            return;
        }
        missedTold = true;
        double fromOld = Math.abs(now.trackErrorDeg());
        double fromNew = Math.abs(
                Angles.turn(now.moment().trackDeg() - onward.initialCourse().deg()));
        if (fromOld <= OLD_COURSE_DEG && fromOld < fromNew) {
            events.add(new TrackerEvent.SequenceMissed(now.timeAt(dueS), ident));
        }
    }

    void breakOff() {
        last = null;
    }
}
