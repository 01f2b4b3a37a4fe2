package org.rejoin.console.grade;

import java.util.Optional;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.HeadingPlan;

import org.jspecify.annotations.Nullable;

/** A turn that was ordered or assigned: whether it was begun, and how far it went to the other side. */
final class FirstTurnMeasures {

    /** Nobody has turned to a heading who has not come so much nearer to it, degrees; common practice, no source. */
    private static final double BEGUN_DEG = 10;

    /** Turned so far the other way it is as grave as can be, degrees; common practice, no source. */
    private static final double GRAVE_DEG = 60;

    /** And so far where that is all of the way round, which may be shorter, degrees; common practice, no source. */
    private static final double LEAST_GRAVE_DEG = 20;

    private static final double FROM_DEG =
            Rules.STANDARD.of(Rule.WrongTurn.class).orderedDeg();

    private final Optional<MagneticDirection> assigned;
    private double firstOffDeg = Double.NaN;
    private double nearestDeg = Double.POSITIVE_INFINITY;
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
            double off = Math.abs(
                    Angles.turn(now.headingMagneticDeg() - assigned.get().deg()));
            firstOffDeg = Double.isNaN(firstOffDeg) ? off : firstOffDeg;
            nearestDeg = Math.min(nearestDeg, off);
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
