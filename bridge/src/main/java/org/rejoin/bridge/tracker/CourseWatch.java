package org.rejoin.bridge.tracker;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

import org.jspecify.annotations.Nullable;

import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.FlightEvent;

/**
 * One course line: closing on it, crossing it, being established on it, staying on it.
 *
 * <p>Thresholds, where no source is named: common practice, no source.
 */
final class CourseWatch {

    /** Track this close to the course counts as along it, degrees. */
    static final double ALONG_DEG = 10;

    /** Wings near enough level, degrees a second of turn. */
    static final double STEADY_DEG_PER_S = 1;

    /** Reciprocal to within this, degrees (fixed by the project's contract). */
    static final double RECIPROCAL_DEG = 30;

    /** How long all signs must agree before the aircraft is established, seconds. */
    private static final double ESTABLISHED_S = 5;

    /** A crossing flatter than this is not worth a line in the log, degrees. */
    private static final double LOGGED_CROSSING_DEG = 5;

    /** Nor is one before which the aircraft was never this far off: position noise, nautical miles. */
    private static final double LOGGED_CROSSING_NM = 0.01;

    /** Parallel or reciprocal for this long is a fault, seconds (fixed by the project's contract). */
    private static final double SETTLED_WRONG_S = 15;

    /** A closing track is at least this far from the course, degrees: clearly not along it. */
    private static final double CLOSING_DEG = 12;

    /** Whoever flies the reciprocal when the line becomes his gets time to react and to turn round, seconds. */
    private static final double REVERSAL_S = 10 + 180 / 3;

    private final boolean intercepting;
    private final Limits limits;
    private final Hold established = new Hold(ESTABLISHED_S);
    private final Hold parallel = new Hold(SETTLED_WRONG_S);
    private final Hold reciprocal = new Hold(SETTLED_WRONG_S);
    private WeaveWatch weave = new WeaveWatch();

    private @Nullable Measure last;
    private double side;
    private double nearSide;
    private double sinceCrossingNm;
    private boolean closing;
    private double closingAngleDeg = Double.NaN;
    private boolean met;
    private boolean onCourse;
    private double onCourseTimeS = Double.NaN;
    private double reciprocalFromS = Double.NaN;
    private @Nullable PassageWatch passage;
    private boolean deviating;
    private double deviationNm;
    private double deviationLimitNm;

    /**
     * A watch over one line.
     *
     * @param intercepting whether this is the line to intercept: only there are crossing it and turning early judged,
     *     and only there may the aircraft be established before the start of the line
     * @param limits in force
     */
    CourseWatch(boolean intercepting, Limits limits) {
        this.intercepting = intercepting;
        this.limits = limits;
    }

    boolean onCourse() {
        return onCourse;
    }

    /** When the aircraft was established, as logged; NaN before. */
    double onCourseTimeS() {
        return onCourseTimeS;
    }

    /** Whether the line was crossed or joined: from here on the assigned heading no longer binds. */
    boolean met() {
        return met || onCourse;
    }

    /** Whether another leg of the same airway may still be taken for the one being met. */
    boolean undecided() {
        return !onCourse && passage == null && !met;
    }

    /** The line becomes the one to follow: what was seen of it from the leg before is no fault. */
    void begin() {
        reciprocal.reset();
        reciprocalFromS = Double.NaN;
        weave = new WeaveWatch();
    }

    /**
     * Takes a step along the line.
     *
     * @param now the end of the step, measured from this line
     * @param stationDistanceNm from the guiding station, for an angular scale; infinity where none guides
     * @param onAssignedHeading whether the aircraft still flies an assigned heading that has not met the line
     * @return what happened
     */
    List<FlightEvent> step(Measure now, double stationDistanceNm, boolean onAssignedHeading) {
        Measure before = last;
        last = now;
        if (Double.isNaN(reciprocalFromS)) {
            reciprocalFromS = now.flownS() + REVERSAL_S;
        }
        if (before == null) {
            first(now);
            return List.of();
        }
        List<FlightEvent> events = new ArrayList<>();
        double fullScale = limits.fullScaleAtNm(stationDistanceNm);
        noteClosing(now);
        crossing(before, now, events);
        passage(before, now, events);
        established(before, now, fullScale / 2, events);
        settledWrong(before, now, fullScale / 2, onAssignedHeading, events);
        deviation(before, now, fullScale * limits.courseScale(), events);
        if (met()) {
            weave.note(now);
        }
        return events;
    }

    private void first(Measure now) {
        double here = Math.signum(now.crossTrackNm());
        if (side != 0 && here != 0 && here != side) {
            // Crossed where nobody looked.
            met = true;
        }
        side = here;
        nearSide = here;
        noteClosing(now);
    }

    private void noteClosing(Measure now) {
        double error = Math.abs(now.trackErrorDeg());
        if (error > CLOSING_DEG && Math.signum(now.trackErrorDeg()) != Math.signum(now.crossTrackNm())) {
            closing = true;
        }
        if (!onCourse && error > ALONG_DEG && Math.abs(now.moment().turnRateDegPerS()) < STEADY_DEG_PER_S) {
            closingAngleDeg = error;
        } else if (Double.isNaN(closingAngleDeg)) {
            closingAngleDeg = error;
        }
    }

    /** A change of sign, with any number of zeros between; the line is left at the last of them. */
    private void crossing(Measure before, Measure now, List<FlightEvent> events) {
        sinceCrossingNm = Math.max(sinceCrossingNm, Math.abs(before.crossTrackNm()));
        double here = Math.signum(now.crossTrackNm());
        if (here == 0) {
            return;
        }
        double was = side;
        side = here;
        nearSide = nearSide == 0 ? here : nearSide;
        if (was == 0 || was == here) {
            return;
        }
        double atS = Hold.root(before.flownS(), before.crossTrackNm(), now.flownS(), now.crossTrackNm());
        double angle = Math.abs(now.trackErrorAt(before, now.shareAt(before, atS)));
        if (sinceCrossingNm >= LOGGED_CROSSING_NM && Math.min(angle, 180 - angle) > LOGGED_CROSSING_DEG) {
            events.add(new FlightEvent.CourseCrossed(now.timeAt(atS), angle));
        }
        if (met()) {
            weave.crossed(atS, now.timeAt(atS), angle, events);
        }
        sinceCrossingNm = Math.abs(now.crossTrackNm());
        met = true;
        PassageWatch open = passage;
        if (open != null) {
            open.crossed(atS, angle, now);
        } else if (intercepting && !onCourse) {
            passage = new PassageWatch(atS, angle, now);
        }
    }

    private void passage(Measure before, Measure now, List<FlightEvent> events) {
        if (passage != null && passage.step(before, now, events)) {
            passage = null;
            // The next try comes from the other side.
            nearSide = Math.signum(now.crossTrackNm());
            closing = false;
        }
    }

    private void established(Measure before, Measure now, double halfScale, List<FlightEvent> events) {
        if (onCourse) {
            return;
        }
        OptionalDouble at = established.step(
                before.flownS(), offCourse(before, halfScale), now.flownS(), offCourse(now, halfScale));
        if (at.isEmpty()) {
            return;
        }
        onCourse = true;
        onCourseTimeS = now.timeAt(at.getAsDouble());
        PassageWatch open = passage;
        passage = null;
        if (!intercepting) {
            return;
        }
        if (open != null) {
            open.settled(at.getAsDouble(), now, events);
        }
        double cross = before.crossTrackNm()
                + (now.crossTrackNm() - before.crossTrackNm()) * now.shareAt(before, at.getAsDouble());
        events.add(new FlightEvent.InterceptAchieved(onCourseTimeS, now.courseDeg(), closingAngleDeg, cross));
    }

    /** Zero or less while established: within half scale, along the course, wings level, not before its start. */
    private double offCourse(Measure m, double halfScale) {
        double off = Math.max(
                Math.max(Math.abs(m.crossTrackNm()) / halfScale, Math.abs(m.trackErrorDeg()) / ALONG_DEG),
                Math.abs(m.moment().turnRateDegPerS()) / STEADY_DEG_PER_S);
        return intercepting ? off - 1 : Math.max(off - 1, -m.alongNm());
    }

    private void settledWrong(
            Measure before, Measure now, double halfScale, boolean onAssignedHeading, List<FlightEvent> events) {
        if (180 - Math.abs(now.trackErrorDeg()) > RECIPROCAL_DEG) {
            reciprocalFromS = Double.NEGATIVE_INFINITY;
        }
        if (onAssignedHeading || now.flownS() < reciprocalFromS) {
            reciprocal.reset();
        } else {
            reciprocal
                    .step(
                            before.flownS(),
                            offReciprocal(before, halfScale),
                            now.flownS(),
                            offReciprocal(now, halfScale))
                    .ifPresent(at -> events.add(new FlightEvent.WrongDirection(
                            now.timeAt(at), now.moment().trackDeg(), now.courseDeg())));
        }
        if (!intercepting || onCourse || met || !closing || onAssignedHeading) {
            parallel.reset();
            return;
        }
        parallel.step(before.flownS(), offParallel(before, halfScale), now.flownS(), offParallel(now, halfScale))
                .ifPresent(at -> events.add(new FlightEvent.TurnedEarly(now.timeAt(at), now.crossTrackNm())));
    }

    /** Zero or less while on the line and flying the reciprocal. */
    private static double offReciprocal(Measure m, double halfScale) {
        return Math.max(
                Math.abs(m.crossTrackNm()) / halfScale - 1, (180 - Math.abs(m.trackErrorDeg())) / RECIPROCAL_DEG - 1);
    }

    /** Zero or less while rolled out parallel to the course, beyond half scale on the near side. */
    private double offParallel(Measure m, double halfScale) {
        double off = Math.max(
                Math.abs(m.trackErrorDeg()) / ALONG_DEG, Math.abs(m.moment().turnRateDegPerS()) / STEADY_DEG_PER_S);
        return Math.max(off - 1, 1 - m.crossTrackNm() * nearSide / halfScale);
    }

    private void deviation(Measure before, Measure now, double limitNm, List<FlightEvent> events) {
        if (!onCourse) {
            return;
        }
        double cross = Math.abs(now.crossTrackNm());
        double atS =
                Hold.root(before.flownS(), Math.abs(before.crossTrackNm()) - limitNm, now.flownS(), cross - limitNm);
        if (!deviating && cross > limitNm) {
            deviating = true;
            deviationNm = now.crossTrackNm();
            deviationLimitNm = limitNm;
            events.add(new FlightEvent.CourseDeviationBegan(
                    now.timeAt(atS), Math.copySign(limitNm, now.crossTrackNm()), limitNm));
        } else if (deviating && cross <= limitNm) {
            deviating = false;
            events.add(new FlightEvent.CourseDeviationEnded(now.timeAt(atS), deviationNm, limitNm, true));
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
        if (passage != null) {
            passage.breakOff();
        }
    }

    /**
     * Ends the watch: the next leg is flown, or another clearance, or the flight is over.
     *
     * @param timeS as logged
     * @return what was still open
     */
    List<FlightEvent> finish(double timeS) {
        List<FlightEvent> events = new ArrayList<>();
        if (passage != null) {
            passage.abandoned(timeS, events);
            passage = null;
        }
        if (deviating) {
            deviating = false;
            events.add(new FlightEvent.CourseDeviationEnded(timeS, deviationNm, deviationLimitNm, false));
        }
        return events;
    }
}
