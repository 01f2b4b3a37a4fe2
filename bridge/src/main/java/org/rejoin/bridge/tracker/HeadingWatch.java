package org.rejoin.bridge.tracker;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.geo.Angles;

import org.jspecify.annotations.Nullable;

/**
 * The assigned heading: taken up, held, left for the course. Judged from the end of a fair time to react and to turn
 * until the turn onto the course begins.
 */
final class HeadingWatch {

    /** Time to react, seconds (fixed by the project's contract; RNAV turn design allows the same, ICAO Doc 8168). */
    private static final double REACTION_S = 10;

    /** Standard rate, degrees a second. */
    private static final double RATE_DEG_PER_S = 3;

    /** Taken up within this, degrees (FAA-S-ACS-8C, IR.V.A.S5). */
    private static final double TAKEN_UP_DEG = 5;

    /** Off for this long is a deviation, seconds (fixed by the project's contract). */
    private static final double DEVIATION_S = 10;

    private final double assignedDeg;
    private final double limitDeg;
    private final Hold takenUp = new Hold(3);
    private final Hold off = new Hold(DEVIATION_S);

    private double judgedFromS = Double.NaN;
    private @Nullable Moment last;
    private boolean established;
    private boolean deviating;
    private double worstDeg;
    private boolean ended;

    HeadingWatch(double assignedDeg, double limitDeg) {
        this.assignedDeg = assignedDeg;
        this.limitDeg = limitDeg;
    }

    boolean established() {
        return established;
    }

    /** Whether the heading still binds. */
    boolean binding() {
        return !ended;
    }

    /** Whether the aircraft is on the assigned heading, or still within the time to turn to it. */
    boolean flying(Moment now) {
        if (ended || now.headingMagneticDeg().isEmpty()) {
            return false;
        }
        return Math.abs(error(now)) <= limitDeg || now.flownS() < judgedFromS;
    }

    OptionalDouble errorDeg(Moment now) {
        return ended || now.headingMagneticDeg().isEmpty() || now.flownS() < judgedFromS
                ? OptionalDouble.empty()
                : OptionalDouble.of(error(now));
    }

    private double error(Moment now) {
        return Angles.turn(now.headingMagneticDeg().orElse(assignedDeg) - assignedDeg);
    }

    /**
     * Takes a step.
     *
     * @param now end of the step
     * @param course the line to intercept as measured now; null where the heading leads to none
     * @param courseMet whether the line was crossed or joined
     * @param nearNm this close to the line, a turn is the turn onto it
     * @return what happened
     */
    List<TrackerEvent> step(Moment now, @Nullable Measure course, boolean courseMet, double nearNm) {
        Moment before = last;
        last = now;
        if (ended || now.headingMagneticDeg().isEmpty()) {
            return List.of();
        }
        if (before == null || before.headingMagneticDeg().isEmpty()) {
            if (Double.isNaN(judgedFromS)) {
                judgedFromS = now.flownS() + REACTION_S + Math.abs(error(now)) / RATE_DEG_PER_S;
            }
            return List.of();
        }
        List<TrackerEvent> events = new ArrayList<>();
        double shift = now.timeS() - now.flownS();
        if (!established) {
            takenUp.step(
                            before.flownS(),
                            Math.abs(error(before)) - TAKEN_UP_DEG,
                            now.flownS(),
                            Math.abs(error(now)) - TAKEN_UP_DEG)
                    .ifPresent(at -> {
                        established = true;
                        events.add(new TrackerEvent.HeadingEstablished(at + shift, assignedDeg));
                    });
        }
        if (courseMet || (course != null && Math.abs(course.crossTrackNm()) < nearNm)) {
            end(now, events);
            return events;
        }
        deviation(before, now, course, shift, events);
        return events;
    }

    private void deviation(
            Moment before, Moment now, @Nullable Measure course, double shift, List<TrackerEvent> events) {
        double error = error(now);
        if (now.flownS() <= judgedFromS) {
            return;
        }
        double from = Math.max(before.flownS(), judgedFromS);
        double errorFrom = Math.abs(error(before)) - limitDeg;
        OptionalDouble at = off.step(from, -errorFrom, now.flownS(), limitDeg - Math.abs(error));
        if (deviating) {
            worstDeg = Math.abs(error) > Math.abs(worstDeg) ? error : worstDeg;
            if (Math.abs(error) <= limitDeg) {
                deviating = false;
                double back = Hold.root(from, errorFrom, now.flownS(), Math.abs(error) - limitDeg);
                events.add(new TrackerEvent.HeadingDeviationEnded(back + shift, worstDeg));
            }
        } else if (at.isPresent()) {
            if (course != null && turningOnto(now, course)) {
                end(now, events);
                return;
            }
            deviating = true;
            worstDeg = error;
            events.add(new TrackerEvent.HeadingDeviationBegan(at.getAsDouble() + shift, error));
        }
    }

    /** Off the heading toward the course, and either well on the way to it or still turning: the intercept has begun. */
    private boolean turningOnto(Moment now, Measure course) {
        double error = error(now);
        double toCourse = -course.trackErrorDeg();
        double angle = Math.abs(toCourse) + Math.abs(error);
        boolean towardCourse = Math.signum(error) == Math.signum(toCourse) || Math.abs(toCourse) < 10;
        boolean wellOn = Math.abs(error) >= angle / 2;
        boolean stillTurning = now.turnRateDegPerS() * Math.signum(error) > 1;
        return towardCourse && (wellOn || stillTurning);
    }

    private void end(Moment now, List<TrackerEvent> events) {
        ended = true;
        if (deviating) {
            deviating = false;
            events.add(new TrackerEvent.HeadingDeviationEnded(now.timeS(), worstDeg));
        }
    }

    void breakOff() {
        last = null;
        takenUp.reset();
        off.reset();
    }
}
