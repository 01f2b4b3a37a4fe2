package org.rejoin.bridge.tracker;

import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Turn;

/** On the line, and flying it the wrong way. */
final class ReciprocalWatch {

    private final Rule.WrongDirection rule;
    private final double turningShare;
    private final Dwell held;
    /** Judged from here on, flown seconds; NaN until the line is the one to follow. */
    private double fromS = Double.NaN;

    ReciprocalWatch(Rules rules) {
        this.rule = rules.of(Rule.WrongDirection.class);
        this.turningShare = rules.of(Rule.Rates.class).turningShare();
        this.held = new Dwell(rule.heldS());
    }

    /** The line becomes the one to follow: time to turn round is given anew. */
    void begin() {
        held.reset();
        fromS = Double.NaN;
    }

    /** Whoever comes along it the wrong way has the time of reaction and of half a circle before it is a fault. */
    void note(CourseMeasure now) {
        if (Double.isNaN(fromS)) {
            fromS = now.flownS()
                    + rule.reactionS()
                    + Turn.standardTurnS(now.instant().groundSpeedKt(), 180);
        }
    }

    void step(
            CourseMeasure before,
            CourseMeasure now,
            double fullScaleNm,
            boolean onAssignedHeading,
            List<FlightEvent> events) {
        if (180 - Math.abs(now.trackErrorDeg()) > rule.reciprocalDeg()) {
            fromS = Double.NEGATIVE_INFINITY;
        }
        if (onAssignedHeading || now.flownS() < fromS) {
            held.reset();
            return;
        }
        OptionalDouble at = held.step(before.flownS(), off(before, fullScaleNm), now.flownS(), off(now, fullScaleNm));
        if (at.isPresent()) {
            events.add(new FlightEvent.WrongDirection(
                    now.timeAt(at.getAsDouble()), now.instant().trackDeg(), now.courseDeg()));
        }
    }

    /** Zero or less while on the line, flying the reciprocal and not turning. */
    private double off(CourseMeasure m, double fullScaleNm) {
        double sideways = Math.abs(m.crossTrackNm()) / (rule.ofScale() * fullScaleNm);
        double wrongWay = (180 - Math.abs(m.meanTrackErrorDeg())) / rule.reciprocalDeg();
        return Math.max(Math.max(sideways, wrongWay), m.instant().turning() / turningShare) - 1;
    }

    void reset() {
        held.reset();
    }
}
