package org.rejoin.console.grade;

import java.util.Optional;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.HeadingPlan;
import org.rejoin.console.words.Words;

import org.jspecify.annotations.Nullable;

/** A turn that was ordered or assigned: whether it was begun, and how far it went to the other side. */
final class FirstTurnMeasures {

    /** Nobody has turned to a heading who has not come so much nearer to it, degrees; common practice, no source. */
    private static final double BEGUN_DEG = 10;

    /** Turned so far the other way, or past it, it is as grave as can be, degrees; common practice, no source. */
    private static final double GRAVE_DEG = 60;

    /** And so far where that is all of the way round, which may be shorter, degrees; common practice, no source. */
    private static final double LEAST_GRAVE_DEG = 20;

    /** So far off a heading it counts as flown, if badly, degrees. */
    private static final double HELD_WITHIN_DEG =
            Rules.STANDARD.of(Rule.Heading.class).limitDeg();

    /** A heading is held that is not turned off for so long, seconds. */
    private static final double HELD_S = Rules.STANDARD.of(Rule.Heading.class).heldS();

    /** So long after a turn should have been over it was never begun, seconds. */
    private static final double NEVER_AFTER_S =
            Rules.STANDARD.of(Rule.Due.class).afterS();

    private static final double TURNING_SHARE =
            Rules.STANDARD.of(Rule.Rates.class).turningShare();

    private static final double FROM_DEG =
            Rules.STANDARD.of(Rule.WrongTurn.class).orderedDeg();

    private final Optional<MagneticDirection> assigned;
    private final HeadingNearness nearness = new HeadingNearness();
    private double firstOffDeg = Double.NaN;
    private double nearestDeg = Double.POSITIVE_INFINITY;
    /** As near as a heading was held on this side of the assigned one, and beyond it. */
    private double heldDeg = Double.POSITIVE_INFINITY;

    private double heldPastDeg = Double.POSITIVE_INFINITY;
    private boolean past;
    private double dueS = Double.NaN;
    private double lastErrorDeg = Double.NaN;
    private double steadyFromS = Double.NaN;
    private double steadyDeg;
    private double takenUpS = Double.POSITIVE_INFINITY;
    private FlightEvent.@Nullable TurnedOtherWay other;
    private double otherNowDeg;
    private double otherDeg;
    private boolean back;
    private double lastDeg = Double.NaN;

    FirstTurnMeasures(AmendedRoute route) {
        assigned = route.assignedHeading().map(HeadingPlan::magnetic);
    }

    void event(FlightEvent event) {
        if (event instanceof FlightEvent.TurnedOtherWay turned && other == null) {
            other = turned;
            otherNowDeg = turned.turnedDeg();
            otherDeg = otherNowDeg;
            back = false;
        } else if (event instanceof FlightEvent.HeadingEstablished) {
            takenUpS = Math.min(takenUpS, event.timeS());
            back = true;
        }
        back |= event instanceof FlightEvent.InterceptAchieved;
    }

    void point(Point now) {
        boolean heading = !Double.isNaN(now.headingMagneticDeg());
        if (heading && assigned.isPresent()) {
            double error = Angles.turn(now.headingMagneticDeg() - assigned.get().deg());
            dueS = Double.isNaN(dueS) && !Double.isNaN(now.headingErrorDeg()) ? now.flownS() : dueS;
            // By way of the assigned heading, not of the opposite one; what is turned long after is no answer to it.
            boolean through = error * lastErrorDeg < 0 && Math.abs(error - lastErrorDeg) < 180;
            past ^= through && (past || !(now.flownS() > dueS + NEVER_AFTER_S));
            lastErrorDeg = error == 0 ? lastErrorDeg : error;
            double off = Math.abs(error);
            firstOffDeg = Double.isNaN(firstOffDeg) ? off : firstOffDeg;
            nearestDeg = Math.min(nearestDeg, off);
            if (now.phase() == Point.Phase.CLOSING) {
                held(now, off);
            }
            if (now.newPiece()) {
                nearness.breakOff();
            }
            nearness.add(now.flownS(), error, now.groundSpeedKt());
        }
        double noseDeg = heading ? now.headingMagneticDeg() : now.trackTrueDeg();
        FlightEvent.TurnedOtherWay turned = other;
        if (turned != null && !back && !Double.isNaN(lastDeg)) {
            double more = Angles.turn(noseDeg - lastDeg);
            otherNowDeg += turned.toTheRight() ? more : -more;
            otherDeg = Math.min(turned.wholeDeg(), Math.max(otherDeg, otherNowDeg));
            back = otherNowDeg <= 0;
        }
        lastDeg = noseDeg;
    }

    /** How near a heading was that was held for a while, and not turned through. */
    private void held(Point now, double off) {
        boolean turning =
                Math.abs(now.turnRateDegPerS()) > TURNING_SHARE * Turn.standardTurnRateDegPerS(now.groundSpeedKt());
        if (turning || now.newPiece() || Double.isNaN(steadyFromS)) {
            steadyFromS = turning ? Double.NaN : now.flownS();
            steadyDeg = off;
            return;
        }
        steadyDeg = Math.max(steadyDeg, off);
        if (now.flownS() - steadyFromS >= HELD_S) {
            heldDeg = past ? heldDeg : Math.min(heldDeg, steadyDeg);
            heldPastDeg = past ? Math.min(heldPastDeg, steadyDeg) : heldPastDeg;
            steadyFromS = now.flownS();
            steadyDeg = off;
        }
    }

    /** How far off the assigned heading the nearest one was that was held, degrees; where none was held, the first one. */
    private double offDeg() {
        return turnedPast() ? heldPastDeg : Double.isFinite(heldDeg) ? heldDeg : firstOffDeg;
    }

    /** Whether the turn was made, and went on to a heading beyond the assigned one. */
    boolean turnedPast() {
        // What was held before the turn was begun is not what was held in place of the assigned heading.
        return Double.isFinite(heldPastDeg) && (heldPastDeg < heldDeg || heldDeg > firstOffDeg - BEGUN_DEG);
    }

    /**
     * Whether another heading was held in place of the assigned one: he came more than half of the way nearer, or not far past, or
     * is within what is a fault of it.
     */
    boolean heldOther() {
        return beyondHeldDeg() == 0 || (turnedPast() ? missingOfTurn() < 0.5 : offDeg() < firstOffDeg / 2);
    }

    /**
     * How much of the turn was not made, as a fault: 0 where the heading counts as held, 1 of who made a quarter of it or less. Past
     * it the turn was made, however far it was to be: by how far past. Who all but took it up has left it, and made the turn.
     */
    double notMade() {
        return missingOfTurn() * notTakenUp();
    }

    /** How far from taken up by turning to it: who was near it when it was said, and turned away, has not turned to it. */
    private double notTakenUp() {
        double turned = Math.min(1, Math.max(0, (firstOffDeg - BEGUN_DEG) / HeadingNearness.WITHIN_DEG));
        return 1 - turned * (1 - nearness.shortfall());
    }

    private double missingOfTurn() {
        if (turnedPast()) {
            return Math.min(1, beyondHeldDeg() / (GRAVE_DEG - HELD_WITHIN_DEG));
        }
        if (beyondHeldDeg() == 0) {
            return 0;
        }
        double left = offDeg() / firstOffDeg;
        return Math.min(Math.min(1, Math.max(left, 2 * left - 0.5)), beyondHeldDeg() / HELD_WITHIN_DEG);
    }

    /** The same as a part of the clearance that was not done. */
    double notDone() {
        if (turnedPast()) {
            return notMade();
        }
        double all = Math.max(HELD_WITHIN_DEG, firstOffDeg - HELD_WITHIN_DEG);
        double linear = Math.min(1, beyondHeldDeg() / all);
        return (heldOther() ? linear : Math.max(linear, missingOfTurn())) * notTakenUp();
    }

    private double beyondHeldDeg() {
        return Math.max(0, offDeg() - HELD_WITHIN_DEG);
    }

    /** How it was not turned to, in words; who turned away from it was nearest where he began. */
    String missedInWords() {
        return turnedPast()
                ? Words.say("turned %.0f degrees past the assigned heading", offDeg())
                : Words.say("no nearer than %.0f degrees to the assigned heading", Math.min(offDeg(), firstOffDeg));
    }

    /** Whether a turn to the assigned heading was to be made, and nothing of it was. */
    boolean neverBegun() {
        return other == null && firstOffDeg > BEGUN_DEG && nearestDeg > firstOffDeg - BEGUN_DEG;
    }

    /** Whether the heading was not taken up before a moment. */
    boolean before(double timeS) {
        return timeS < takenUpS;
    }

    boolean takenUp() {
        return Double.isFinite(takenUpS);
    }

    /** Whether a fault at a moment is the turn to the side that was not ordered. */
    boolean wentOtherWayAt(double timeS) {
        return other != null && other.timeS() == timeS;
    }

    /** So far to the side that was not ordered, degrees; 0 where it was not. */
    double otherDeg() {
        return otherDeg;
    }

    /** 0 where that begins to count, 1 from where it is grave, or all of the way round. */
    double otherSeverity() {
        if (other == null) {
            return 0;
        }
        double all = Math.max(LEAST_GRAVE_DEG, Math.min(GRAVE_DEG, other.wholeDeg()));
        return Math.min(1, Math.max(0, otherDeg - FROM_DEG) / (all - FROM_DEG));
    }
}
