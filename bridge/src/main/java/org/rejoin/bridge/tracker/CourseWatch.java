package org.rejoin.bridge.tracker;

import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Angles;

import org.jspecify.annotations.Nullable;

/** One course line: closing on it, crossing it, being established on it, staying on it. */
final class CourseWatch {

    /** Straight: less than this share of a standard turn; common practice, no source. */
    private static final double STRAIGHT_SHARE = 0.1;

    private final boolean intercepting;
    private final boolean direct;
    private final Rules rules;
    private final Rule.CrossingLogged logged;
    private final Rule.TurnedEarly early;
    private final Rule.Established along;
    private final double deviationShare;
    private final TurnedEarlyWatch turnedEarly;
    private final ReciprocalWatch reciprocal;
    private final EstablishedWatch established;
    private final SignChange crossing = new SignChange();
    private final Excursion deviation = new Excursion();
    private final Series meanNose;
    private WeaveWatch weave;

    private double sinceCrossingNm;
    private double closingAngleDeg = Double.NaN;
    private boolean met;
    /** Whether the simulation stood before the next step, which is as short as any. */
    private boolean stood;

    private boolean joined;
    private double metS = Double.NaN;
    private boolean onCourse;
    private double onCourseTimeS = Double.NaN;
    private @Nullable PassageWatch passage;
    private double limitNm;

    /**
     * A watch over one line.
     *
     * @param intercepting whether this is the line to intercept: only there are crossing it and turning early judged,
     *     and only there may the aircraft be established before the start of the line
     * @param direct whether the line is the way direct to a fix: it starts with the aircraft, so there is nothing to
     *     fly through and nothing to fall short of
     */
    CourseWatch(boolean intercepting, boolean direct, Rules rules) {
        this.intercepting = intercepting;
        this.direct = direct;
        this.rules = rules;
        this.logged = rules.of(Rule.CrossingLogged.class);
        this.early = rules.of(Rule.TurnedEarly.class);
        this.along = rules.of(Rule.Established.class);
        this.deviationShare = rules.of(Rule.CourseDeviation.class).ofScale();
        this.turnedEarly = new TurnedEarlyWatch(rules);
        this.reciprocal = new ReciprocalWatch(rules);
        this.established = new EstablishedWatch(rules, intercepting, direct);
        this.meanNose = new Series(rules.of(Rule.FlownThrough.class).beforeS() + 2);
        this.weave = new WeaveWatch(rules.of(Rule.Weaving.class));
    }

    boolean onCourse() {
        return onCourse;
    }

    /** Whether the aircraft is established now, not only once. */
    boolean holding() {
        return established.holding();
    }

    /** When the aircraft was established, as logged; NaN before. */
    double onCourseTimeS() {
        return onCourseTimeS;
    }

    /** Whether the line was crossed or joined: from here on the assigned heading no longer binds. */
    boolean met() {
        return met || onCourse;
    }

    /** Whether the turn onto the course was made, if only too early: from here on the assigned heading no longer binds. */
    boolean turnedOnto() {
        return met() || turnedEarly.ever();
    }

    /** When the line was first crossed, flown seconds; NaN before. */
    double metS() {
        return metS;
    }

    /** Angle at which the course was closed on, degrees; NaN where that was not seen. */
    double closingAngleDeg() {
        return closingAngleDeg;
    }

    /** Whether another leg of the same airway may still be taken for the one being met. */
    boolean undecided() {
        return !onCourse && passage == null && !met;
    }

    /** The line becomes the one to follow: what was seen of it from the leg before is no fault. */
    void begin() {
        reciprocal.begin();
        joined = false;
        weave = new WeaveWatch(rules.of(Rule.Weaving.class));
    }

    /**
     * Takes a step along the line.
     *
     * @param before the start of the step, measured from this line; null where it was not, and across a break
     * @param lengthNm of the line: past its end there is nothing to be flown through
     * @param onAssignedHeading whether the aircraft still flies an assigned heading that has not met the line
     * @param turningToHeading whether it still turns to that heading: such a turn is not the one onto the course
     */
    void step(
            @Nullable CourseMeasure before,
            CourseMeasure now,
            double fullScaleNm,
            double lengthNm,
            boolean onAssignedHeading,
            boolean turningToHeading,
            List<FlightEvent> events) {
        reciprocal.note(now);
        noteNose(now, turningToHeading);
        deviation(before, now, fullScaleNm * deviationShare, events);
        if (before == null) {
            first(now, lengthNm, events);
            return;
        }
        noteClosing(now);
        crossing(before, now, lengthNm, events);
        passage(before, now, fullScaleNm, events);
        established(before, now, fullScaleNm, onAssignedHeading, turningToHeading, events);
        reciprocal.step(before, now, fullScaleNm, onAssignedHeading, events);
        boolean tooEarlyIsJudged = intercepting && !direct && !met() && !onAssignedHeading && !turningToHeading;
        turnedEarly.step(before, now, fullScaleNm, tooEarlyIsJudged, events);
        joined |= Math.abs(now.meanTrackErrorDeg()) <= along.alongDeg()
                && Math.abs(now.crossTrackNm()) <= along.ofScale() * fullScaleNm;
        if (met() || joined) {
            weave.note(now, fullScaleNm);
        }
    }

    private void noteNose(CourseMeasure now, boolean turningToHeading) {
        if (!intercepting || onCourse) {
            return;
        }
        if (turningToHeading) {
            meanNose.clear();
        }
        meanNose.add(now.flownS(), now.instant().meanNoseDeg());
    }

    private void first(CourseMeasure now, double lengthNm, List<FlightEvent> events) {
        boolean changed = crossing.begin(now.crossTrackNm());
        turnedEarly.from(now);
        noteClosing(now);
        if (changed && stood) {
            crossed(now.flownS(), Math.abs(now.trackErrorDeg()), now, lengthNm, events);
        }
        // Else it was crossed where nobody looked.
        met |= changed;
        stood = false;
    }

    private void noteClosing(CourseMeasure now) {
        turnedEarly.note(now);
        double error = Math.abs(now.trackErrorDeg());
        // Rates are means: by half a standard turn the heading that closed on the course is already left.
        boolean steady = now.instant().turning() < STRAIGHT_SHARE;
        if (Double.isNaN(closingAngleDeg) || (!onCourse && steady && error > early.alongDeg())) {
            closingAngleDeg = error;
        }
    }

    private void crossing(CourseMeasure before, CourseMeasure now, double lengthNm, List<FlightEvent> events) {
        sinceCrossingNm = Math.max(sinceCrossingNm, Math.abs(before.crossTrackNm()));
        OptionalDouble at = crossing.step(before.flownS(), before.crossTrackNm(), now.flownS(), now.crossTrackNm());
        if (at.isEmpty()) {
            return;
        }
        double atS = at.getAsDouble();
        crossed(atS, Math.abs(now.trackErrorAt(before, now.shareAt(before, atS))), now, lengthNm, events);
    }

    private void crossed(double atS, double angle, CourseMeasure now, double lengthNm, List<FlightEvent> events) {
        if (sinceCrossingNm >= logged.offNm() && Angles.acute(angle) > logged.angleDeg()) {
            events.add(new FlightEvent.CourseCrossed(now.timeAt(atS), angle));
        }
        if (met() || joined) {
            weave.crossed(atS, now.timeAt(atS), angle, events);
        }
        sinceCrossingNm = Math.abs(now.crossTrackNm());
        metS = met ? metS : atS;
        met = true;
        PassageWatch open = passage;
        if (open != null) {
            open.crossed(atS, angle, now, meanNose);
        } else if (intercepting && !direct && !onCourse && now.alongNm() <= lengthNm) {
            passage = new PassageWatch(atS, angle, now, meanNose, rules);
        }
    }

    private void passage(CourseMeasure before, CourseMeasure now, double fullScaleNm, List<FlightEvent> events) {
        if (passage != null && passage.step(before, now, fullScaleNm, events)) {
            passage = null;
            turnedEarly.again(now);
        }
    }

    private void established(
            CourseMeasure before,
            CourseMeasure now,
            double fullScaleNm,
            boolean onAssignedHeading,
            boolean turningToHeading,
            List<FlightEvent> events) {
        OptionalDouble at = established.step(before, now, fullScaleNm, onAssignedHeading, turningToHeading);
        if (onCourse || at.isEmpty()) {
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
        double cross = now.crossTrackAt(before, now.shareAt(before, at.getAsDouble()));
        events.add(new FlightEvent.InterceptAchieved(onCourseTimeS, now.courseDeg(), closingAngleDeg, cross));
    }

    private void deviation(@Nullable CourseMeasure before, CourseMeasure now, double limit, List<FlightEvent> events) {
        if (!onCourse) {
            return;
        }
        limitNm = limit;
        double from = before == null ? Double.NaN : Math.abs(before.crossTrackNm()) - limit;
        double fromS = before == null ? now.flownS() : before.flownS();
        double cross = Math.abs(now.crossTrackNm());
        switch (deviation.step(fromS, from, now.flownS(), cross - limit, limit, now.crossTrackNm())) {
            case BEGAN ->
                events.add(new FlightEvent.CourseDeviationBegan(
                        now.timeAt(deviation.atS()), Math.copySign(limit, now.crossTrackNm()), limit));
            case ENDED ->
                events.add(new FlightEvent.CourseDeviationEnded(
                        now.timeAt(deviation.atS()), deviation.worst(), limit, true));
            case NONE -> {}
        }
    }

    /**
     * After a gap, a pause or a jump nothing is concluded from the step across it. A pause hides no turn and no swing: the
     * simulation stood.
     *
     * @param goesOnFromS flown seconds from which it goes on as before, where the simulation stood; NaN after a gap
     */
    void breakOff(double goesOnFromS) {
        established.reset();
        turnedEarly.reset();
        reciprocal.reset();
        stood = !Double.isNaN(goesOnFromS);
        if (stood) {
            meanNose.forgetAfter(goesOnFromS);
            return;
        }
        meanNose.clear();
        weave.reset();
        if (passage != null) {
            passage.breakOff();
        }
    }

    /** Another clearance stands in its place: told as far as it has come, and watched on. */
    void setAside(double timeS, List<FlightEvent> events) {
        if (passage != null) {
            passage.abandoned(timeS, events);
        }
        if (deviation.close()) {
            events.add(new FlightEvent.CourseDeviationEnded(timeS, deviation.worst(), limitNm, false));
        }
    }

    /** Ends the watch: the next leg is flown, or another clearance, or the flight is over. */
    void finish(double timeS, List<FlightEvent> events) {
        setAside(timeS, events);
        passage = null;
    }
}
