package org.rejoin.bridge.tracker;

import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;

/** Closing on the line, then parallel to it without having met it: turned too early. */
final class TurnedEarlyWatch {

    private final Rule.TurnedEarly rule;
    private final double turningShare;
    private final Dwell parallel;
    private final Dwell level = new Dwell(0);
    private double nearSide;
    private boolean closing;
    private boolean told;
    private boolean ever;

    TurnedEarlyWatch(Rules rules) {
        this.rule = rules.of(Rule.TurnedEarly.class);
        this.turningShare = rules.of(Rule.Rates.class).turningShare();
        this.parallel = new Dwell(rule.heldS());
    }

    /** Whether the turn onto the course was made, if only too early. */
    boolean ever() {
        return ever;
    }

    /** The line is come to from the side on which the aircraft is. */
    void from(CourseMeasure now) {
        nearSide = Math.signum(now.crossTrackNm());
    }

    /** The next try comes from the other side, and is to close on the line first. */
    void again(CourseMeasure now) {
        from(now);
        closing = false;
    }

    void note(CourseMeasure now) {
        nearSide = nearSide == 0 ? Math.signum(now.crossTrackNm()) : nearSide;
        double error = Math.abs(now.trackErrorDeg());
        closing |= error > rule.closingDeg() && Math.signum(now.trackErrorDeg()) != Math.signum(now.crossTrackNm());
    }

    /**
     * Takes a step.
     *
     * @param judged false where the line is met, or a heading is still flown
     */
    void step(CourseMeasure before, CourseMeasure now, double fullScaleNm, boolean judged, List<FlightEvent> events) {
        if (!judged || !closing) {
            parallel.reset();
            told = false;
            return;
        }
        level.step(before.flownS(), before.turning(turningShare), now.flownS(), now.turning(turningShare));
        double since = parallel.sinceS();
        OptionalDouble held =
                parallel.step(before.flownS(), off(before, fullScaleNm), now.flownS(), off(now, fullScaleNm));
        if (held.isEmpty() && !parallel.lasting()) {
            told = false;
            return;
        }
        if (told || !level.lasting()) {
            return;
        }
        told = true;
        ever = true;
        double atS = Math.max(held.orElse(since + rule.heldS()), level.sinceS());
        events.add(new FlightEvent.TurnedEarly(
                now.timeAt(Math.min(now.flownS(), Math.max(before.flownS(), atS))), now.crossTrackNm()));
    }

    /** Zero or less while parallel to the course, short of it. */
    private double off(CourseMeasure m, double fullScaleNm) {
        double off = Math.abs(m.meanTrackErrorDeg()) / rule.alongDeg();
        return Math.max(off - 1, 1 - m.crossTrackNm() * nearSide / (rule.ofScale() * fullScaleNm));
    }

    void reset() {
        parallel.reset();
        level.reset();
    }
}
