package org.rejoin.bridge.tracker;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.geo.Angles;

import org.jspecify.annotations.Nullable;

/**
 * One course line: closing on it, crossing it, being established on it, staying on it.
 *
 * <p>Thresholds, where no source is named: common practice, no source.
 */
final class CourseWatch {

    /** Track this close to the course counts as along it, degrees. */
    static final double ALONG_DEG = 10;

    /** Wings near enough level, degrees a second of turn. */
    private static final double STEADY_DEG_PER_S = 1;

    /** How long all signs must agree before the aircraft is established, seconds. */
    private static final double ESTABLISHED_S = 5;

    /** A crossing flatter than this is not worth a line in the log, degrees. */
    private static final double LOGGED_CROSSING_DEG = 5;

    /** Flown through needs a crossing steeper than this, degrees (fixed by the project's contract). */
    private static final double FLOWN_THROUGH_DEG = 15;

    /** Time to begin the turn after crossing, seconds (fixed by the project's contract). */
    private static final double TURN_WITHIN_S = 10;

    /** A turn has begun when the track has come this much closer to the course, degrees. */
    private static final double TURN_BEGUN_DEG = 2;

    /** Overshoot is logged from here, nautical miles (fixed by the project's contract). */
    private static final double OVERSHOOT_LOGGED_NM = 0.1;

    /** Parallel or reciprocal for this long is a fault, seconds (fixed by the project's contract). */
    private static final double SETTLED_WRONG_S = 15;

    /** A closing track is at least this far from the course, degrees. */
    private static final double CLOSING_DEG = 20;

    /** Reciprocal to within this, degrees (fixed by the project's contract). */
    private static final double RECIPROCAL_DEG = 30;

    private final boolean intercepting;
    private final Limits limits;
    private final Hold established = new Hold(ESTABLISHED_S);
    private final Hold parallel = new Hold(SETTLED_WRONG_S);
    private final Hold reciprocal = new Hold(SETTLED_WRONG_S);
    private final WeaveWatch weave = new WeaveWatch();

    private @Nullable Measure last;
    private double nearSide;
    private double sinceCrossingNm;
    private boolean closing;
    private double closingAngleDeg = Double.NaN;
    private boolean met;
    private boolean onCourse;
    private @Nullable Passage passage;
    private boolean deviating;
    private double deviationNm;

    /**
     * A watch over one line.
     *
     * @param intercepting whether this is the line to intercept: only there are crossing it and turning early judged
     * @param limits in force
     */
    CourseWatch(boolean intercepting, Limits limits) {
        this.intercepting = intercepting;
        this.limits = limits;
    }

    /** A crossing that has not been recovered from yet. */
    private static final class Passage {
        final double atS;
        final double angleDeg;
        final double farSide;
        double farthestNm;
        boolean turned;

        Passage(double atS, double angleDeg, double farSide) {
            this.atS = atS;
            this.angleDeg = angleDeg;
            this.farSide = farSide;
        }
    }

    boolean onCourse() {
        return onCourse;
    }

    /** Whether the line was crossed or joined: from here on the assigned heading no longer binds. */
    boolean met() {
        return met || onCourse;
    }

    /** Whether another leg of the same airway may still be taken for the one being met. */
    boolean undecided() {
        return !onCourse && passage == null && !met;
    }

    /**
     * Takes a step along the line.
     *
     * @param now the end of the step, measured from this line
     * @param stationDistanceNm from the guiding station, for an angular scale; infinity where none guides
     * @param onAssignedHeading whether the aircraft still flies an assigned heading that has not met the line
     * @return what happened, in order of time
     */
    List<TrackerEvent> step(Measure now, double stationDistanceNm, boolean onAssignedHeading) {
        Measure before = last;
        last = now;
        if (before == null) {
            nearSide = Math.signum(now.crossTrackNm());
            noteClosing(now);
            return List.of();
        }
        List<TrackerEvent> events = new ArrayList<>();
        double fullScale = limits.fullScaleAtNm(stationDistanceNm);
        noteClosing(now);
        crossing(before, now, events);
        flownThrough(before, now, events);
        established(before, now, fullScale / 2, events);
        settledWrong(before, now, fullScale / 2, onAssignedHeading, events);
        deviation(before, now, fullScale * limits.courseScale(), events);
        if (met()) {
            weave.note(now);
        }
        return events;
    }

    private void noteClosing(Measure now) {
        double error = Math.abs(now.trackErrorDeg());
        if (error > CLOSING_DEG) {
            closing = true;
        }
        if (!onCourse && error > ALONG_DEG && Math.abs(now.moment().turnRateDegPerS()) < STEADY_DEG_PER_S) {
            closingAngleDeg = error;
        } else if (Double.isNaN(closingAngleDeg)) {
            closingAngleDeg = error;
        }
    }

    private void crossing(Measure before, Measure now, List<TrackerEvent> events) {
        sinceCrossingNm = Math.max(sinceCrossingNm, Math.abs(before.crossTrackNm()));
        Passage open = passage;
        if (open != null && Math.signum(now.crossTrackNm()) == open.farSide) {
            open.farthestNm = Math.max(open.farthestNm, Math.abs(now.crossTrackNm()));
        }
        boolean crossed = before.crossTrackNm() != 0
                && now.crossTrackNm() != 0
                && Math.signum(before.crossTrackNm()) != Math.signum(now.crossTrackNm());
        if (!crossed) {
            return;
        }
        double atS = Hold.root(before.flownS(), before.crossTrackNm(), now.flownS(), now.crossTrackNm());
        double share = (atS - before.flownS()) / Math.max(now.flownS() - before.flownS(), 1e-9);
        double error = before.trackErrorDeg() + Angles.turn(now.trackErrorDeg() - before.trackErrorDeg()) * share;
        double angle = Math.abs(Angles.turn(error));
        if (sinceCrossingNm >= 0.01 && angle > LOGGED_CROSSING_DEG) {
            events.add(new TrackerEvent.CourseCrossed(now.timeAt(atS), angle));
        }
        if (met()) {
            weave.crossed(atS, now.timeAt(atS), angle, events);
        }
        sinceCrossingNm = Math.abs(now.crossTrackNm());
        met = true;
        if (intercepting && !onCourse && passage == null) {
            Passage opened = new Passage(atS, angle, Math.signum(now.crossTrackNm()));
            opened.farthestNm = Math.abs(now.crossTrackNm());
            passage = opened;
        }
    }

    private void flownThrough(Measure before, Measure now, List<TrackerEvent> events) {
        Passage open = passage;
        if (open == null || open.turned) {
            return;
        }
        double endS = open.atS + TURN_WITHIN_S;
        double share =
                now.flownS() <= endS ? 1 : (endS - before.flownS()) / Math.max(now.flownS() - before.flownS(), 1e-9);
        double error = before.trackErrorDeg() + Angles.turn(now.trackErrorDeg() - before.trackErrorDeg()) * share;
        // Turning onto the reciprocal is a turn onto the line, too: a fault of its own, not this one.
        if (toLine(open.angleDeg) - toLine(error) >= TURN_BEGUN_DEG || toLine(open.angleDeg) <= FLOWN_THROUGH_DEG) {
            open.turned = true;
        } else if (now.flownS() >= endS) {
            double cross = before.crossTrackNm() + (now.crossTrackNm() - before.crossTrackNm()) * share;
            events.add(new TrackerEvent.FlownThrough(now.timeAt(endS), cross));
            passage = null;
            // The next try comes from the other side.
            nearSide = Math.signum(now.crossTrackNm());
            closing = false;
        }
    }

    /** Angle between a track and the line, whichever way the line is flown. */
    private static double toLine(double errorDeg) {
        double angle = Math.abs(Angles.turn(errorDeg));
        return Math.min(angle, 180 - angle);
    }

    private void established(Measure before, Measure now, double halfScale, List<TrackerEvent> events) {
        if (onCourse) {
            return;
        }
        OptionalDouble at = established.step(
                before.flownS(), offCourse(before, halfScale), now.flownS(), offCourse(now, halfScale));
        if (at.isEmpty()) {
            return;
        }
        onCourse = true;
        double timeS = now.timeAt(at.getAsDouble());
        Passage open = passage;
        passage = null;
        if (!intercepting) {
            return;
        }
        if (open != null && open.farthestNm > OVERSHOOT_LOGGED_NM) {
            events.add(
                    new TrackerEvent.Overshoot(timeS, open.farthestNm, OptionalDouble.of(at.getAsDouble() - open.atS)));
        }
        events.add(new TrackerEvent.InterceptAchieved(timeS, now.courseDeg(), closingAngleDeg, now.crossTrackNm()));
    }

    /** Zero or less while established: within half scale, along the course, wings level. */
    private static double offCourse(Measure m, double halfScale) {
        return Math.max(
                        Math.max(Math.abs(m.crossTrackNm()) / halfScale, Math.abs(m.trackErrorDeg()) / ALONG_DEG),
                        Math.abs(m.moment().turnRateDegPerS()) / STEADY_DEG_PER_S)
                - 1;
    }

    private void settledWrong(
            Measure before, Measure now, double halfScale, boolean onAssignedHeading, List<TrackerEvent> events) {
        if (onAssignedHeading) {
            parallel.reset();
            reciprocal.reset();
            return;
        }
        reciprocal
                .step(before.flownS(), offReciprocal(before, halfScale), now.flownS(), offReciprocal(now, halfScale))
                .ifPresent(at -> events.add(new TrackerEvent.WrongDirection(
                        now.timeAt(at), now.moment().trackDeg(), now.courseDeg())));
        if (!intercepting || onCourse || met || !closing) {
            parallel.reset();
            return;
        }
        parallel.step(before.flownS(), offParallel(before, halfScale), now.flownS(), offParallel(now, halfScale))
                .ifPresent(at -> events.add(new TrackerEvent.TurnedEarly(now.timeAt(at), now.crossTrackNm())));
    }

    /** Zero or less while on the line and flying the reciprocal. */
    private static double offReciprocal(Measure m, double halfScale) {
        return Math.max(
                Math.abs(m.crossTrackNm()) / halfScale - 1, (180 - Math.abs(m.trackErrorDeg())) / RECIPROCAL_DEG - 1);
    }

    /** Zero or less while parallel to the course, beyond half scale on the near side. */
    private double offParallel(Measure m, double halfScale) {
        return Math.max(Math.abs(m.trackErrorDeg()) / ALONG_DEG - 1, 1 - m.crossTrackNm() * nearSide / halfScale);
    }

    private void deviation(Measure before, Measure now, double limitNm, List<TrackerEvent> events) {
        if (!onCourse) {
            return;
        }
        double cross = Math.abs(now.crossTrackNm());
        double atS =
                Hold.root(before.flownS(), Math.abs(before.crossTrackNm()) - limitNm, now.flownS(), cross - limitNm);
        if (!deviating && cross > limitNm) {
            deviating = true;
            deviationNm = now.crossTrackNm();
            events.add(new TrackerEvent.CourseDeviationBegan(
                    now.timeAt(atS), Math.copySign(limitNm, now.crossTrackNm()), limitNm));
        } else if (deviating && cross <= limitNm) {
            deviating = false;
            events.add(new TrackerEvent.CourseDeviationEnded(now.timeAt(atS), deviationNm, limitNm));
        } else if (deviating && cross > Math.abs(deviationNm)) {
            deviationNm = now.crossTrackNm();
        }
    }

    /** Forgets the last measure: after a gap, a pause or a jump nothing is concluded from the step across it. */
    void breakOff() {
        last = null;
        established.reset();
        parallel.reset();
        reciprocal.reset();
        weave.reset();
    }

    /**
     * Ends the watch.
     *
     * @param timeS of the last sample
     * @return an overshoot that never settled
     */
    List<TrackerEvent> finish(double timeS) {
        Passage open = passage;
        if (open == null || open.farthestNm <= OVERSHOOT_LOGGED_NM) {
            return List.of();
        }
        passage = null;
        return List.of(new TrackerEvent.Overshoot(timeS, open.farthestNm, OptionalDouble.empty()));
    }
}
