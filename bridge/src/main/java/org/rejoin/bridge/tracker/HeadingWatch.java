package org.rejoin.bridge.tracker;

import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Turn;

import org.jspecify.annotations.Nullable;

/**
 * The assigned heading: taken up, held, left for the course. Judged from the end of a fair time to react and to turn
 * until the turn onto the course begins.
 */
final class HeadingWatch {

    private final double assignedDeg;
    private final Rule.Heading rule;
    private final Rule.TurnOntoCourse onto;
    private final double takenUpDeg;
    private final double heldS;
    private final Dwell takenUp;
    private final Dwell level = new Dwell(0);
    private final Series errors;
    private double lastTurningOnto = 1;
    private final Dwell off;
    private final Excursion deviation = new Excursion();

    private double beganS = Double.NaN;
    private double judgedFromS = Double.NaN;
    private final @Nullable OrderedTurn ordered;
    private double dueS = Double.NaN;
    private double saidS = Double.NaN;
    private double toTurnDeg;
    private final boolean turnBefore;
    private double goesOnFromS = Double.NaN;
    private double goesOnToTurnDeg;
    private double goesOnDueS = Double.NEGATIVE_INFINITY;
    private double cameTheOtherWayS = Double.POSITIVE_INFINITY;
    /** When a heading was last sent, and how far off the assigned one it was; NaN where none was since a break. */
    private double lastS = Double.NaN;

    private double lastErrorDeg = Double.NaN;
    private boolean seen;
    private boolean established;
    private boolean flown;
    private boolean onItWhenSaid;
    private final double turnShowsS;
    private final double turningShare;
    private double establishedTimeS = Double.NaN;
    private boolean excused;
    private double turnsOnto;
    private double lastTurning = 1;
    private double worstDeg;
    /** As near as the aircraft came to it so far, but for a turn that went through it. */
    private double nearestDeg = Double.POSITIVE_INFINITY;

    private boolean ended;
    /** Whether it was left for the line near to it; farther from it again, it was not. */
    private boolean leftForLine;

    private double asideErrorDeg;
    private double lastBeyondNearNm = Double.NaN;
    private double lastCrossNm = Double.NaN;

    /**
     * A watch over a heading.
     *
     * @param ordered null where the pilot may turn to it either way
     * @param turnBefore whether there is still time for the turn of the clearance before: it goes on until he has reacted
     */
    HeadingWatch(double assignedDeg, @Nullable OrderedTurn ordered, boolean turnBefore, Rules rules) {
        this.ordered = ordered;
        this.turnBefore = turnBefore;
        this.assignedDeg = assignedDeg;
        this.rule = rules.of(Rule.Heading.class);
        this.onto = rules.of(Rule.TurnOntoCourse.class);
        this.turningShare = rules.of(Rule.Rates.class).turningShare();
        this.turnShowsS = rules.of(Rule.Rates.class).overS();
        Rule.HeadingTakenUp taken = rules.of(Rule.HeadingTakenUp.class);
        this.takenUpDeg = taken.withinDeg();
        this.heldS = taken.heldS();
        this.takenUp = new Dwell(heldS);
        this.errors = new Series(heldS);
        this.off = new Dwell(rule.heldS());
    }

    boolean established() {
        return established;
    }

    /** When the heading was taken up, as logged; NaN before. */
    double establishedTimeS() {
        return establishedTimeS;
    }

    /** Whether the time to take the heading up is over and no heading was ever seen: nothing can be said of it. */
    boolean unseen(FlightInstant now) {
        return !seen && now.flownS() >= beganS + rule.reactionS();
    }

    /** Whether it should have been taken up by now. */
    boolean due(FlightInstant now) {
        return judged(now) && now.flownS() >= judgedFromS + rule.heldS();
    }

    /** Whether there is still time to turn to it. */
    boolean turnGoesOn(FlightInstant now) {
        return seen && !over() && !established && !judged(now);
    }

    /** Whether the turn to it leads to the right from here. */
    boolean leadsRight(FlightInstant now) {
        return ordered == null ? error(now) < 0 : ordered.right();
    }

    /** Whether the aircraft is on the assigned heading, or still within the time to turn to it. */
    boolean flying(FlightInstant now) {
        if (over() || Double.isNaN(now.headingMagneticDeg())) {
            return false;
        }
        return Math.abs(error(now)) <= rule.limitDeg() || !judged(now);
    }

    /** Whether the aircraft has yet to fly it: no turn so far was the one onto the course. */
    boolean turningTo(FlightInstant now) {
        return !over() && !flown && !Double.isNaN(now.headingMagneticDeg());
    }

    /** Whether it is not to be flown any more, as far as can be told by now. */
    private boolean over() {
        return ended || leftForLine;
    }

    /** Heading less assigned while it is judged; NaN while it is not. */
    double errorNow() {
        return over() || excused || turnsOnto > 0 || !(lastS >= judgedFromS) ? Double.NaN : lastErrorDeg;
    }

    /** Whether the fair time is over; it begins with the first heading seen. */
    private boolean judged(FlightInstant now) {
        return now.flownS() >= judgedFromS;
    }

    private double error(FlightInstant now) {
        return Double.isNaN(now.headingMagneticDeg()) ? 0 : Angles.turn(now.headingMagneticDeg() - assignedDeg);
    }

    /**
     * Takes a step.
     *
     * @param course the line to intercept as measured now; null where the heading leads to none
     * @param courseMet whether the line was crossed or joined, or turned onto too early
     * @param toTurnDeg turn that is left to the fix of a direct that has no line yet, degrees, right positive; else NaN
     */
    void step(
            FlightInstant now,
            @Nullable CourseMeasure course,
            boolean courseMet,
            double toTurnDeg,
            double fullScaleNm,
            List<FlightEvent> events) {
        beganS = Double.isNaN(beganS) ? now.flownS() : beganS;
        if (ended) {
            return;
        }
        if (Double.isNaN(now.headingMagneticDeg())) {
            unknown(now, courseMet, events);
            return;
        }
        if (now.state().headingCarried()) {
            return;
        }
        double beforeS = lastS;
        double errorBefore = lastErrorDeg;
        lastS = now.flownS();
        lastErrorDeg = error(now);
        judgeFrom(now);
        seen = true;
        nearestDeg = now.turning() < turningShare ? Math.min(nearestDeg, Math.abs(lastErrorDeg)) : nearestDeg;
        flown |= flies(now);
        if (!Double.isNaN(beforeS)) {
            takeUp(beforeS, errorBefore, now, events);
        }
        double shiftS = now.timeS() - now.flownS();
        double beyondNear = course == null ? Double.NaN : Math.abs(course.crossTrackNm()) - nearNm(course, fullScaleNm);
        double cross = course == null ? Double.NaN : course.crossTrackNm();
        boolean left = leftFor(now, toTurnDeg);
        leftForLine = beyondNear <= 0 && (leftForLine || (course != null && turnedOnto(now, course)));
        if (courseMet || left || leftForLine) {
            ended = courseMet || left;
            end(beforeS, now, courseMet ? lastCrossNm : lastBeyondNearNm, courseMet ? cross : beyondNear, events);
            lastBeyondNearNm = beyondNear;
            lastCrossNm = cross;
            off.reset();
            return;
        }
        lastBeyondNearNm = beyondNear;
        lastCrossNm = cross;
        excused = course != null && excused(now, course, fullScaleNm);
        turnsOnto = turnsOnto(now, course);
        deviation(beforeS, errorBefore, now, shiftS, events);
    }

    private void judgeFrom(FlightInstant now) {
        if (Double.isNaN(dueS)) {
            onItWhenSaid = Math.abs(error(now)) <= takenUpDeg;
            toTurnDeg = ordered == null ? Math.abs(error(now)) : ordered.roundDeg();
            saidS = now.flownS();
            dueS = dueS(saidS, now, toTurnDeg);
        }
        if (turnBefore && ordered == null && now.flownS() <= saidS + rule.reactionS()) {
            toTurnDeg = Math.max(toTurnDeg, Math.abs(error(now)));
            dueS = dueS(saidS, now, toTurnDeg);
        }
        if (now.flownS() <= goesOnFromS + rule.reactionS()) {
            goesOnToTurnDeg = Math.max(goesOnToTurnDeg, Math.abs(error(now)));
            boolean turned = goesOnToTurnDeg > asideErrorDeg + takenUpDeg;
            goesOnDueS = dueS(goesOnFromS, now, turned ? goesOnToTurnDeg : 0);
        }
        judgedFromS = Math.max(goesOnDueS, inTimeS(now));
    }

    private double dueS(double fromS, FlightInstant now, double turnDeg) {
        return fromS + rule.reactionS() + Turn.standardTurnS(now.groundSpeedKt(), turnDeg);
    }

    /** From when on it is judged, by when it was said. */
    private double inTimeS(FlightInstant now) {
        if (ordered == null) {
            return dueS;
        }
        if (established && ordered.cameTheOtherWay(rule.limitDeg())) {
            cameTheOtherWayS = Math.min(cameTheOtherWayS, now.flownS());
        }
        return Math.min(ordered.dueS(dueS), cameTheOtherWayS);
    }

    /** The feed has had no heading for a while: nothing is concluded from the way to the next one. */
    private void unknown(FlightInstant now, boolean courseMet, List<FlightEvent> events) {
        breakOff();
        if (courseMet) {
            ended = true;
            finish(now.timeS(), events);
        }
    }

    private void takeUp(double beforeS, double errorBefore, FlightInstant now, List<FlightEvent> events) {
        if (established) {
            return;
        }
        takenUp.step(beforeS, Math.abs(errorBefore) - takenUpDeg, now.flownS(), Math.abs(error(now)) - takenUpDeg);
        errors.add(now.flownS(), error(now));
        double turning = turningOnto(now);
        level.step(beforeS, lastTurningOnto, now.flownS(), turning);
        lastTurningOnto = turning;
        // A turn goes through it.
        if (takenUp.lasting() && level.lasting()) {
            double sinceS = Math.max(takenUp.sinceS() + heldS, level.sinceS());
            established = true;
            establishedTimeS = now.timeAt(Math.min(now.flownS(), Math.max(beforeS, sinceS)));
            events.add(new FlightEvent.HeadingEstablished(establishedTimeS, assignedDeg));
        }
    }

    /** Above zero while the heading changes as in a turn, over the time for which it is to be held. */
    private double turningOnto(FlightInstant now) {
        return Math.abs(errors.rate(now.flownS(), heldS)) / Turn.standardTurnRateDegPerS(now.groundSpeedKt())
                - turningShare;
    }

    /** Met, or near enough to lead the turn and turned: located where the line or its nearness was reached. */
    private void end(double beforeS, FlightInstant now, double from, double to, List<FlightEvent> events) {
        if (deviation.close()) {
            double fromS = Double.isNaN(beforeS) ? now.flownS() : beforeS;
            boolean inStep = from > 0 == !(to > 0);
            double atS = inStep ? Dwell.root(fromS, from, now.flownS(), to) : now.flownS();
            boolean back = Math.abs(error(now)) <= rule.limitDeg();
            events.add(new FlightEvent.HeadingDeviationEnded(now.timeAt(atS), worstDeg, back));
        }
    }

    /**
     * Steady on it; a turn may go through it. Who was on it when it was said has not flown it before he had the time to
     * react, and a turn begun meanwhile shows: left before that, it was never taken for the heading to fly.
     */
    private boolean flies(FlightInstant now) {
        double off = Math.abs(error(now));
        boolean takenFor = !onItWhenSaid || now.flownS() >= dueS + turnShowsS;
        return takenFor && off <= (judged(now) ? rule.limitDeg() : takenUpDeg) && now.turning() < turningShare;
    }

    /** The heading was flown until the direct is begun: off it toward the fix. */
    private boolean leftFor(FlightInstant now, double toTurnDeg) {
        double error = error(now);
        return flown && Math.abs(error) > rule.limitDeg() && error * toTurnDeg > 0;
    }

    /**
     * The turn onto the course has begun: off the heading toward the course. Who never flew the heading turns off it, or has left it by as
     * much as the limit, from as near as he came to it.
     */
    private boolean turnedOnto(FlightInstant now, CourseMeasure course) {
        double error = error(now);
        boolean left = flown || turning(now, error) > 0 || Math.abs(error) > nearestDeg + rule.limitDeg();
        return judged(now) && left && Math.abs(error) > rule.limitDeg() && toward(error, course);
    }

    private double nearNm(CourseMeasure course, double fullScaleNm) {
        return onto.nearNm(course.instant().groundSpeedKt(), closingDeg(course), fullScaleNm);
    }

    /** Not judged: the course itself, and its reciprocal near the line. */
    private boolean excused(FlightInstant now, CourseMeasure course, double fullScaleNm) {
        double error = error(now);
        double off = Math.abs(course.trackErrorDeg());
        boolean near = Math.abs(course.crossTrackNm()) <= nearNm(course, fullScaleNm);
        if (near && 180 - off <= onto.reciprocalDeg()) {
            return true;
        }
        if (!toward(error, course)) {
            // Round the other way, or back along the course: onto the line all the same, and a fault of its own.
            return near && (turning(now, error) > 0 || off > 90);
        }
        // Where the heading itself leads along the course, being along it is no sign of having left the heading.
        boolean left = Math.abs(error) > takenUpDeg && closingDeg(course) > onto.parallelDeg();
        return flown && left && off <= onto.parallelDeg();
    }

    /** Between the course and where the assigned heading leads, degrees. */
    private double closingDeg(CourseMeasure course) {
        return Math.abs(Angles.turn(course.trackErrorDeg() - error(course.instant())));
    }

    /** Above zero while a turn goes on that may be the turn onto the course. */
    private double turnsOnto(FlightInstant now, @Nullable CourseMeasure course) {
        double error = error(now);
        return course == null || !flown || Math.abs(error) <= onto.leavingDeg() || !toward(error, course)
                ? -onto.turningDegPerS()
                : turning(now, error);
    }

    private double turning(FlightInstant now, double error) {
        return now.turnRateDegPerS() * Math.signum(error) - onto.turningDegPerS();
    }

    /** Off the heading on the side the course lies. */
    private boolean toward(double error, CourseMeasure course) {
        double toCourse = -course.trackErrorDeg();
        return Math.signum(error) == Math.signum(toCourse) || Math.abs(toCourse) < onto.parallelDeg();
    }

    private void deviation(
            double beforeS, double errorBefore, FlightInstant now, double shiftS, List<FlightEvent> events) {
        double error = error(now);
        double excess = Math.abs(error) - rule.limitDeg();
        boolean first = Double.isNaN(beforeS);
        double fromS = first ? now.flownS() : Math.min(now.flownS(), Math.max(beforeS, judgedFromS));
        double excessBefore = Math.abs(errorBefore) - rule.limitDeg();
        if (deviation.open() && excess <= 0) {
            deviation.close();
            double backS = Dwell.root(fromS, excessBefore, now.flownS(), excess);
            events.add(new FlightEvent.HeadingDeviationEnded(backS + shiftS, worstDeg, true));
        }
        if (excused || now.flownS() <= judgedFromS) {
            off.reset();
            lastTurning = 1;
            return;
        }
        worstDeg = excess <= 0 && !deviation.open() ? 0 : Math.abs(error) > Math.abs(worstDeg) ? error : worstDeg;
        // A deviation is one that has lasted; its end is where the limit is passed again. On the limit is within it.
        OptionalDouble lasted = first
                ? OptionalDouble.empty()
                : off.step(fromS, Math.nextUp(-excessBefore), now.flownS(), Math.nextUp(-excess));
        // While a turn goes on it may be the turn onto the course; its end is where the rate has died away.
        double turningBefore = lastTurning;
        lastTurning = turnsOnto;
        if (deviation.open() || turnsOnto > 0 || (lasted.isEmpty() && !off.lasting())) {
            return;
        }
        double overS = turningBefore > 0 ? Dwell.root(fromS, turningBefore, now.flownS(), turnsOnto) : fromS;
        deviation.step(fromS, -1, now.flownS(), 1, rule.limitDeg(), error);
        events.add(new FlightEvent.HeadingDeviationBegan(Math.max(lasted.orElse(fromS), overS) + shiftS, error));
    }

    /** Across a gap or a pause nothing is concluded; a deviation that goes on after it is the same one. */
    void breakOff() {
        lastS = Double.NaN;
        lastErrorDeg = Double.NaN;
        lastBeyondNearNm = Double.NaN;
        lastCrossNm = Double.NaN;
        takenUp.reset();
        level.reset();
        errors.clear();
        lastTurningOnto = 1;
        off.reset();
    }

    /** Another heading may be in force for a moment. */
    void setAside(@Nullable FlightInstant here) {
        asideErrorDeg = here == null ? 0 : Math.abs(error(here));
    }

    /**
     * This one is in force again: who turns to the other goes on so until he has reacted, and has a fair time to turn back from
     * there.
     */
    void goOn(FlightInstant now) {
        goesOnFromS = now.flownS();
        goesOnToTurnDeg = 0;
        judgedFromS = Math.max(judgedFromS, goesOnFromS + rule.reactionS());
    }

    /** Over: the next clearance, or the end. */
    void finish(double timeS, List<FlightEvent> events) {
        if (deviation.close()) {
            events.add(new FlightEvent.HeadingDeviationEnded(timeS, worstDeg, false));
        }
    }
}
