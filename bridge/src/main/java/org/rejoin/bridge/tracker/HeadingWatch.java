package org.rejoin.bridge.tracker;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.FlightEvent;
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

    /** Off by more than this, whatever the grade allows, degrees (fixed by the project's contract), ... */
    private static final double LIMIT_DEG = 10;

    /** ... for this long is a deviation, seconds (fixed by the project's contract). */
    private static final double DEVIATION_S = 10;

    /** Turning at least this fast, the aircraft is in a turn, degrees a second; common practice, no source. */
    private static final double TURNING_DEG_PER_S = 0.5;

    /** Below this a turn is not told from noise, degrees; common practice, no source. */
    private static final double LEAVING_DEG = 1;

    private final double assignedDeg;
    private final Hold takenUp = new Hold(3);
    private final Hold off = new Hold(DEVIATION_S);

    private double beganS = Double.NaN;
    private double judgedFromS = Double.NaN;
    private @Nullable Moment last;
    private @Nullable Measure lastCourse;
    private boolean seen;
    private boolean established;
    private double establishedTimeS = Double.NaN;
    private boolean turning;
    private boolean leaving;
    private boolean deviating;
    private double worstDeg;
    private boolean ended;

    HeadingWatch(double assignedDeg) {
        this.assignedDeg = assignedDeg;
    }

    boolean established() {
        return established;
    }

    /** When the heading was taken up, as logged; NaN before. */
    double establishedTimeS() {
        return establishedTimeS;
    }

    /** Whether the time to take the heading up is over and no heading was ever seen: nothing can be said of it. */
    boolean unseen(Moment now) {
        return !seen && now.flownS() >= beganS + REACTION_S;
    }

    /** Whether the aircraft is on the assigned heading, or still within the time to turn to it. */
    boolean flying(Moment now) {
        if (ended || now.headingMagneticDeg().isEmpty()) {
            return false;
        }
        return Math.abs(error(now)) <= LIMIT_DEG || !judged(now);
    }

    OptionalDouble errorDeg(Moment now) {
        return ended || turning || leaving || now.headingMagneticDeg().isEmpty() || !judged(now)
                ? OptionalDouble.empty()
                : OptionalDouble.of(error(now));
    }

    /** Whether the fair time is over; it begins with the first heading seen. */
    private boolean judged(Moment now) {
        return now.flownS() >= judgedFromS;
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
     * @param nearNm this close to the line, a turn toward it is the turn onto it
     * @return what happened
     */
    List<FlightEvent> step(Moment now, @Nullable Measure course, boolean courseMet, double nearNm) {
        Moment before = last;
        Measure courseBefore = lastCourse;
        last = now;
        lastCourse = course;
        beganS = Double.isNaN(beganS) ? now.flownS() : beganS;
        if (ended || now.headingMagneticDeg().isEmpty()) {
            return List.of();
        }
        if (Double.isNaN(judgedFromS)) {
            judgedFromS = now.flownS() + REACTION_S + Math.abs(error(now)) / RATE_DEG_PER_S;
        }
        seen = true;
        if (before == null || before.headingMagneticDeg().isEmpty()) {
            return List.of();
        }
        List<FlightEvent> events = new ArrayList<>();
        double shift = now.timeS() - now.flownS();
        if (!established) {
            takenUp.step(
                            before.flownS(),
                            Math.abs(error(before)) - TAKEN_UP_DEG,
                            now.flownS(),
                            Math.abs(error(now)) - TAKEN_UP_DEG)
                    .ifPresent(at -> {
                        established = true;
                        establishedTimeS = at + shift;
                        events.add(new FlightEvent.HeadingEstablished(at + shift, assignedDeg));
                    });
        }
        // The turn onto the course is no heading error from its first degree on.
        leaving = course != null
                && towardCourse(error(now), course)
                && Math.abs(error(now)) > LEAVING_DEG
                && now.turnRateDegPerS() * Math.signum(error(now)) > TURNING_DEG_PER_S;
        if (courseMet) {
            end(now, courseBefore, course, 0, events);
            return events;
        }
        deviation(before, now, courseBefore, course, nearNm, events);
        return events;
    }

    private void deviation(
            Moment before,
            Moment now,
            @Nullable Measure courseBefore,
            @Nullable Measure course,
            double nearNm,
            List<FlightEvent> events) {
        double error = error(now);
        if (now.flownS() <= judgedFromS) {
            return;
        }
        double shift = now.timeS() - now.flownS();
        double from = Math.max(before.flownS(), judgedFromS);
        double errorFrom = Math.abs(error(before)) - LIMIT_DEG;
        OptionalDouble at = off.step(from, -errorFrom, now.flownS(), LIMIT_DEG - Math.abs(error));
        if (deviating || turning) {
            worstDeg = Math.abs(error) > Math.abs(worstDeg) ? error : worstDeg;
        }
        if (Math.abs(error) <= LIMIT_DEG) {
            turning = false;
        }
        if (deviating) {
            if (Math.abs(error) <= LIMIT_DEG) {
                deviating = false;
                double back = Hold.root(from, errorFrom, now.flownS(), Math.abs(error) - LIMIT_DEG);
                events.add(new FlightEvent.HeadingDeviationEnded(back + shift, worstDeg, true));
            } else if (course != null && towardCourse(error, course)) {
                turning = now.turnRateDegPerS() * Math.signum(error) > TURNING_DEG_PER_S;
                if (ontoLine(error, course, nearNm)) {
                    end(now, courseBefore, course, nearNm, events);
                }
            }
            return;
        }
        if (at.isEmpty() && !turning) {
            return;
        }
        if (course != null && ontoLine(error, course, nearNm)) {
            end(now, courseBefore, course, nearNm, events);
            return;
        }
        // Not there yet: while the turn goes on it may be the turn onto the course.
        if (course != null
                && (towardCourse(error, course) || Math.abs(course.crossTrackNm()) < nearNm)
                && now.turnRateDegPerS() * Math.signum(error) > TURNING_DEG_PER_S) {
            worstDeg = turning ? worstDeg : error;
            turning = true;
            return;
        }
        boolean waited = turning;
        turning = false;
        deviating = true;
        worstDeg = waited && Math.abs(worstDeg) > Math.abs(error) ? worstDeg : error;
        events.add(new FlightEvent.HeadingDeviationBegan(
                (waited ? now.flownS() : at.orElse(now.flownS())) + shift, error));
    }

    /** A turn onto the line: toward the course near it or already along it; or near it onto the reciprocal, a fault
     * of its own. */
    private static boolean ontoLine(double error, Measure course, double nearNm) {
        boolean near = Math.abs(course.crossTrackNm()) < nearNm;
        double off = Math.abs(course.trackErrorDeg());
        return towardCourse(error, course)
                ? near || off <= CourseWatch.ALONG_DEG
                : near && 180 - off <= CourseWatch.RECIPROCAL_DEG;
    }

    /** Off the heading on the side the course lies. */
    private static boolean towardCourse(double error, Measure course) {
        double toCourse = -course.trackErrorDeg();
        return Math.signum(error) == Math.signum(toCourse) || Math.abs(toCourse) < CourseWatch.ALONG_DEG;
    }

    /** The line is met, or the turn onto it begins {@code nearNm} from it: located between the two measures. */
    private void end(
            Moment now,
            @Nullable Measure courseBefore,
            @Nullable Measure course,
            double nearNm,
            List<FlightEvent> events) {
        ended = true;
        if (!deviating) {
            return;
        }
        deviating = false;
        double atS = now.flownS();
        if (courseBefore != null && course != null && nearNm == 0) {
            atS = Hold.root(courseBefore.flownS(), courseBefore.crossTrackNm(), now.flownS(), course.crossTrackNm());
        } else if (courseBefore != null && course != null && Math.abs(courseBefore.crossTrackNm()) > nearNm) {
            atS = Hold.root(
                    courseBefore.flownS(),
                    Math.abs(courseBefore.crossTrackNm()) - nearNm,
                    now.flownS(),
                    Math.abs(course.crossTrackNm()) - nearNm);
        }
        events.add(new FlightEvent.HeadingDeviationEnded(atS + now.timeS() - now.flownS(), worstDeg, true));
    }

    /** Across a gap nothing is concluded: an open deviation ends where the flight was last seen. */
    List<FlightEvent> breakOff() {
        List<FlightEvent> events = new ArrayList<>();
        Moment seenLast = last;
        if (deviating && seenLast != null) {
            deviating = false;
            events.add(new FlightEvent.HeadingDeviationEnded(seenLast.timeS(), worstDeg, false));
        }
        last = null;
        lastCourse = null;
        turning = false;
        takenUp.reset();
        off.reset();
        return events;
    }
}
