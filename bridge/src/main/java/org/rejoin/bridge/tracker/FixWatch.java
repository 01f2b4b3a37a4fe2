package org.rejoin.bridge.tracker;

import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.clearance.Instruction.TurnDirection;
import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.Turn;

import org.jspecify.annotations.Nullable;

/**
 * The end of one leg and the turn onto the next: when the fix is sequenced, whether the turn goes the right way, whether
 * it is made at all.
 *
 * <p>A fly-by fix is sequenced on the bisector of its legs (RTCA DO-236, from memory): there the distance still to go
 * along the old leg equals the distance gone along the new one. That counts once the turn is begun or due; a fix passed
 * without a turn is sequenced abeam, and one that is turned back at before that abeam on the next course. Where a heading is
 * flown from it there is no next course: who turns short of it comes no nearer once he is square to the old one, and it is
 * sequenced there.
 */
final class FixWatch {

    private final String ident;
    private final boolean computed;
    private final CourseLine line;
    private final GroundPath leg;
    private final @Nullable CourseLine next;
    private final boolean ontoHeading;
    /** Whether the old course was ever pointed along; that of a direct begins where it is due, pointed along or not. */
    private boolean pointed;

    private final double turnDeg;

    /** Lead of the turn for each mile of its radius. */
    private final double leadOfRadius;

    private final FixTurn turnFlown;
    private final double turningShare;
    private final Rule.FixSequenced passing;
    private final Rule.WrongTurn wrong;
    private final Rule.SequenceMissed missing;

    /** Along the next leg at the moment before; NaN before the first. */
    private double lastAlongNext = Double.NaN;

    private boolean pastBisector;
    private boolean sequenced;
    private double sequencedTimeS = Double.NaN;
    private double passedS = Double.NaN;
    private double abeamS = Double.NaN;
    private double turnedDeg = Double.NaN;
    private boolean wrongTurnTold;
    private boolean missedTold;
    private boolean settled;
    private boolean near;

    /** Since the fix was passed, off the old course, right positive, counted on past the reciprocal; NaN before. */
    private double roundDeg = Double.NaN;

    /**
     * A watch over the end of a leg.
     *
     * @param next the leg after it; null where there is none with a line
     * @param direct whether the leg is the way direct to its end
     * @param ontoHeading whether a heading is flown from its end
     * @param marginNm round the fly-by area, nautical miles
     */
    FixWatch(
            String ident,
            boolean computed,
            CourseLine leg,
            @Nullable CourseLine next,
            boolean direct,
            boolean ontoHeading,
            double marginNm,
            double fullScaleNm,
            Rules rules) {
        this.turningShare = rules.of(Rule.Rates.class).turningShare();
        this.passing = rules.of(Rule.FixSequenced.class);
        this.wrong = rules.of(Rule.WrongTurn.class);
        this.missing = rules.of(Rule.SequenceMissed.class);
        this.ident = ident;
        this.computed = computed;
        this.line = leg;
        this.leg = leg.path();
        this.next = next;
        this.pointed = !direct;
        this.ontoHeading = ontoHeading;
        this.turnDeg =
                next == null ? 0 : this.leg.finalCourse().turnTo(next.path().courseAt(0));
        this.leadOfRadius = Turn.leadOfRadius(turnDeg);
        this.turnFlown = new FixTurn(ident, computed, turnDeg, marginNm, fullScaleNm, rules);
    }

    boolean sequenced() {
        return sequenced;
    }

    /** When the fix was sequenced, as logged; NaN before. */
    double sequencedTimeS() {
        return sequencedTimeS;
    }

    /** When the fix was passed, flown seconds; NaN before. */
    double passedS() {
        return Double.isNaN(abeamS) ? passedS : abeamS;
    }

    /** Distance along the old leg to the fix at which the turn onto the next is to begin, nautical miles. */
    double leadNm(FlightInstant now) {
        return Turn.standardTurnRadiusNm(now.groundSpeedKt()) * leadOfRadius;
    }

    /** Whether the aircraft is where the turn at the fix may be made, and off the old course the way that turn goes. */
    boolean turnsOff(CourseMeasure now) {
        double togo = leg.lengthNm() - now.alongNm();
        return togo <= leadNm(now.instant()) + (turnDeg == 0 ? 0 : turnFlown.earliestNm())
                && now.trackErrorDeg() * turnDeg >= 0;
    }

    /** An instant measured from the leg that ends here. */
    CourseMeasure measure(FlightInstant now) {
        return line.measure(now);
    }

    /** Whether the turn at this fix is made, or should be. */
    boolean over(FlightInstant now) {
        double passed = Double.isNaN(passedS) ? abeamS : passedS;
        return left() || (!Double.isNaN(passed) && now.flownS() > passed + wrong.watchedS());
    }

    /** Whether it is behind and the next leg flown; who joined that inside the corner has still to come abeam. */
    boolean left() {
        return settled && (sequenced || !near);
    }

    /**
     * Takes a step.
     *
     * @param before start of the step, measured from the leg that ends here; null across a break
     * @param onto its end, measured from the next leg; null where nobody has measured that yet
     * @param onNext whether the aircraft is established on the next leg
     * @param onAssignedHeading whether the leg itself has not been met: then its end is not passed, only seen
     * @param wasOn whether the aircraft has been established on the leg that ends here
     */
    void step(
            @Nullable CourseMeasure before,
            CourseMeasure now,
            @Nullable CourseMeasure onto,
            boolean onNext,
            boolean onAssignedHeading,
            boolean wasOn,
            List<FlightEvent> events) {
        CourseLine onward = next;
        double togo = leg.lengthNm() - now.alongNm();
        CourseMeasure fromNext = fromNext(now.instant(), togo, onto);
        double alongNext = alongNext(fromNext, togo);
        double known = lastAlongNext;
        lastAlongNext = alongNext;
        if (before == null || onAssignedHeading) {
            return;
        }
        if (sequenced && onward != null && !settled && !onNext) {
            round(before, now, events);
        }
        if (over(now.instant())) {
            settled |= onNext;
            return;
        }
        double togoBefore = leg.lengthNm() - before.alongNm();
        double beforeNext =
                Double.isNaN(known) ? alongNext(fromNext(before.instant(), togoBefore, null), togoBefore) : known;
        if (fromNext != null && !settled) {
            turnFlown.step(before, now, togoBefore, togo, fromNext, events);
        }
        settled |= onNext;
        near = Math.abs(now.crossTrackNm()) < passing.reachNm() && Math.abs(togo) < 3 * passing.reachNm();
        if (Double.isNaN(abeamS) && near && togoBefore > 0 && togo <= 0) {
            abeamS = Dwell.root(before.flownS(), togoBefore, now.flownS(), togo);
        }
        if (!sequenced && near) {
            double past = alongNext - togo;
            double pastBefore = beforeNext - togoBefore;
            pastBisector = past >= 0 && (pastBisector || pastBefore < 0);
            pointed |= Math.abs(now.trackErrorDeg()) < wrong.alignedDeg()
                    && now.instant().turning() < turningShare;
            if (pastBisector && pointed && turnIsDue(now, togo)) {
                sequence(now, before, bisectorS(before, now, pastBefore, past, togoBefore, togo), events);
            } else if (!Double.isNaN(abeamS)) {
                sequence(now, before, Math.max(abeamS, before.flownS()), events);
            } else if (wasOn && beforeNext < 0 && alongNext >= 0 && turnedBack(now)) {
                sequence(now, before, Dwell.root(before.flownS(), beforeNext, now.flownS(), alongNext), events);
            } else if (ontoHeading && wasOn && togo < passing.reachNm() && square(before) < 0 && square(now) >= 0) {
                sequence(now, before, Dwell.root(before.flownS(), square(before), now.flownS(), square(now)), events);
            }
        }
        if (onward != null && !settled) {
            turn(before, now, togo, events);
            missed(before, now, onward.path(), fromNext, events);
        }
    }

    /** Far from the fix the exact figure does not matter, and outside the map's corridor it is not free. */
    private @Nullable CourseMeasure fromNext(FlightInstant now, double togo, @Nullable CourseMeasure known) {
        if (next == null || Math.abs(togo) > 3 * passing.reachNm()) {
            return null;
        }
        return known == null ? next.measure(now) : known;
    }

    private double alongNext(@Nullable CourseMeasure fromNext, double togo) {
        return fromNext != null ? fromNext.alongNm() : next == null ? -togo : -Math.abs(togo);
    }

    /** Where the turn begins, or toward the next leg already: before that a bisector far from the fix is only a line. */
    private boolean turnIsDue(CourseMeasure now, double togo) {
        double turned = now.trackErrorDeg() * Math.signum(turnDeg);
        return togo <= leadNm(now.instant()) || (turned > passing.begunDeg() && turned < 180 - passing.begunDeg());
    }

    /**
     * Turned back outside the corner, and nearer to the next course than to the old one: the bisector lies farther out than the
     * fix, and he passes that abeam on the new course.
     */
    private boolean turnedBack(CourseMeasure now) {
        double turned = now.trackErrorDeg() * Math.signum(turnDeg);
        return Math.abs(turnDeg) > 90 && turned > Math.abs(turnDeg) / 2 && Math.abs(turnDeg) - turned > -90;
    }

    /** Below zero until the track is square to the old course. */
    private static double square(CourseMeasure m) {
        return Math.abs(m.trackErrorDeg()) - 90;
    }

    /** On the bisector; inside the course of a sharp turn that is long before the turn is due, and then there. */
    private double bisectorS(
            CourseMeasure before, CourseMeasure now, double pastBefore, double past, double togoBefore, double togo) {
        if (pastBefore < 0) {
            return Dwell.root(before.flownS(), pastBefore, now.flownS(), past);
        }
        double dueBefore = leadNm(now.instant()) - togoBefore;
        double due = leadNm(now.instant()) - togo;
        return dueBefore < 0 && due >= 0 ? Dwell.root(before.flownS(), dueBefore, now.flownS(), due) : now.flownS();
    }

    private void sequence(CourseMeasure now, CourseMeasure before, double atS, List<FlightEvent> events) {
        sequenced = true;
        passedS = atS;
        sequencedTimeS = now.timeAt(atS);
        FlightInstant then = FlightInstant.between(before.instant(), now.instant(), now.shareAt(before, atS));
        events.add(new FlightEvent.FixSequenced(
                sequencedTimeS, ident, computed, then.position().distanceNm(leg.end())));
    }

    /** Follows the turn from the point where it may begin, and says when it has gone the other way. */
    private void turn(CourseMeasure before, CourseMeasure now, double togo, List<FlightEvent> events) {
        double lead = leadNm(now.instant());
        if (Double.isNaN(turnedDeg)) {
            boolean inReach = togo < lead + wrong.beforeLeadNm() && Math.abs(now.crossTrackNm()) < passing.reachNm();
            if (inReach && Math.abs(now.trackErrorDeg()) < wrong.alignedDeg()) {
                turnedDeg = now.trackErrorDeg();
            }
            return;
        }
        double turnedBefore = turnedDeg;
        turnedDeg += Angles.turn(now.instant().trackDeg() - before.instant().trackDeg());
        // Back toward the line of the old leg is a correction, not a turn.
        boolean leaving = now.crossTrackNm() * turnedDeg >= 0;
        double wrong = wrongBy(turnedDeg);
        if (wrongTurnTold || over(now.instant()) || !leaving || wrong < 0) {
            return;
        }
        wrongTurnTold = true;
        double wrongBefore = wrongBy(turnedBefore);
        double atS = wrongBefore < 0 ? Dwell.root(before.flownS(), wrongBefore, now.flownS(), wrong) : now.flownS();
        events.add(new FlightEvent.WrongTurn(now.timeAt(atS), ident, turnedInstead()));
    }

    /** The side that the route does not turn to; empty where it goes on nearly straight, and either side is wrong. */
    private Optional<TurnDirection> turnedInstead() {
        return Math.abs(turnDeg) < wrong.eitherWayDeg()
                ? Optional.empty()
                : Optional.of(turnDeg > 0 ? TurnDirection.LEFT : TurnDirection.RIGHT);
    }

    /**
     * Who goes on turning past the next course, through its reciprocal, has not gone on along it: he flies a circle, or another
     * circuit of a hold that he was to leave. However long its legs are.
     */
    private void round(CourseMeasure before, CourseMeasure now, List<FlightEvent> events) {
        double was = roundDeg;
        roundDeg = Double.isNaN(was)
                ? now.trackErrorDeg()
                : was + Angles.turn(now.instant().trackDeg() - before.instant().trackDeg());
        if (!wrongTurnTold && pastNext(roundDeg) > 0) {
            wrongTurnTold = true;
            double atS = pastNext(was) < 0
                    ? Dwell.root(before.flownS(), pastNext(was), now.flownS(), pastNext(roundDeg))
                    : now.flownS();
            events.add(new FlightEvent.WrongTurn(now.timeAt(atS), ident, Optional.empty()));
        }
    }

    /** Above zero past the reciprocal of the next course, or of the old one on the side where the turn does not go. */
    private double pastNext(double turned) {
        return wrong.beyondDeg(turnDeg, turned) - wrong.pastDeg();
    }

    private double wrongBy(double turned) {
        if (wrong.halfTurn(turnDeg)) {
            return -1;
        }
        double wrongWay = wrong.eitherWay(turnDeg) ? Math.abs(turned) : -turned * Math.signum(turnDeg);
        return wrongWay - wrong.wrongDeg();
    }

    private void missed(
            CourseMeasure before,
            CourseMeasure now,
            GroundPath onward,
            @Nullable CourseMeasure onto,
            List<FlightEvent> events) {
        double dueS = abeamS + missing.afterS();
        // Who turned the wrong way has left the old course, even if he comes back through its direction.
        if (missedTold
                || wrongTurnTold
                || Double.isNaN(abeamS)
                || now.flownS() < dueS
                || Math.abs(turnDeg) <= missing.oldCourseDeg()) {
            return;
        }
        missedTold = true;
        if (dueS < before.flownS()) {
            // It came due while nobody looked.
            return;
        }
        double fromOld = now.trackErrorAt(before, now.shareAt(before, dueS));
        double fromNew =
                fromOld + Angles.turn(now.courseDeg() - onward.courseAt(0).deg());
        // Inside the corner the old course leads to the next leg: he has turned, too early, and comes back to it.
        boolean inside = onto != null && onto.crossTrackNm() * turnDeg > 0;
        if (!inside
                && Math.abs(fromOld) <= missing.oldCourseDeg()
                && Math.abs(fromOld) < Math.abs(Angles.turn(fromNew))) {
            events.add(new FlightEvent.SequenceMissed(now.timeAt(dueS), ident));
        }
    }

    void breakOff() {
        turnedDeg = Double.NaN;
        roundDeg = Double.NaN;
        turnFlown.breakOff();
    }
}
