package org.rejoin.bridge.tracker;

import java.util.OptionalDouble;

import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;

/**
 * Established on a course: close to it and along it for a few seconds, or less close and less well for longer, as long
 * as the aircraft goes along it and not across it; or turned onto and not kept.
 */
final class EstablishedWatch {

    private final Rule.Established rule;
    private final double turningShare;
    private final double alongSlope;
    private final boolean beforeStart;
    private final boolean direct;
    private final Rule.Overshoot carried;
    private final double aimedDeg;
    private final Dwell close;
    private final Dwell loose;
    private final Dwell level = new Dwell(0);
    /** Going away from the line that was turned onto. */
    private final Dwell away;

    private boolean turnedOnto;
    private boolean toHeading;
    private final Series crossNm;
    private final Series alongNm;
    private double staySinceS = Double.NaN;
    private boolean held;
    private double stayCrossNm;
    private double stayAlongNm;

    /**
     * Not established.
     *
     * @param beforeStart whether one may be established before the start of the line
     * @param direct whether the line is the way direct to a fix: it starts with the aircraft, so that whoever goes
     *     beside it has not taken it up
     */
    EstablishedWatch(Rules rules, boolean beforeStart, boolean direct) {
        this.rule = rules.of(Rule.Established.class);
        this.turningShare = rules.of(Rule.Rates.class).turningShare();
        this.alongSlope = Math.tan(Math.toRadians(rule.alongDeg()));
        this.beforeStart = beforeStart;
        this.direct = direct;
        this.carried = rules.of(Rule.Overshoot.class);
        this.aimedDeg = rules.of(Rule.Direct.class).aimedDeg();
        this.close = new Dwell(rule.heldS());
        this.loose = new Dwell(rule.looseS());
        this.away = new Dwell(rule.heldS());
        this.crossNm = new Series(rule.looseS());
        this.alongNm = new Series(rule.looseS());
    }

    /**
     * Takes a step.
     *
     * @param onHeading whether an assigned heading is still flown: that is no going along the course, only close to it
     * @param turningToHeading whether it is still turned to: a turn through the course is no going along it either
     * @return when the aircraft was established, if that was in this step
     */
    OptionalDouble step(
            CourseMeasure before, CourseMeasure now, double fullScaleNm, boolean onHeading, boolean turningToHeading) {
        toHeading = onHeading && turningToHeading;
        if (crossNm.isEmpty()) {
            note(before);
        }
        note(now);
        boolean was = held;
        OptionalDouble lasted = close.step(
                before.flownS(),
                offClose(before, fullScaleNm, onHeading),
                now.flownS(),
                offClose(now, fullScaleNm, onHeading));
        away(before, now, fullScaleNm, onHeading);
        if (onHeading || direct) {
            loose.reset();
        } else {
            loose.step(before.flownS(), offLoose(before, fullScaleNm), now.flownS(), offLoose(now, fullScaleNm));
        }
        stay(now);
        level.step(before.flownS(), before.turning(turningShare), now.flownS(), now.turning(turningShare));
        held = holding();
        if (!was && lasted.isPresent() && !close.lasting() && level.lasting()) {
            // Held long enough, and left again within this step.
            return lasted;
        }
        return was || !held ? OptionalDouble.empty() : OptionalDouble.of(sinceS(before, now));
    }

    /** Turned onto the course, by the nose or by the track, and then not along it: that is drift, or a course badly held. */
    private void away(CourseMeasure before, CourseMeasure now, double fullScaleNm, boolean onHeading) {
        double halfScaleNm = rule.ofScale() * fullScaleNm;
        double pointing = Math.min(Math.abs(now.meanTrackErrorDeg()), Math.abs(now.noseErrorDeg()));
        turnedOnto |= beforeStart
                && !direct
                && !onHeading
                && pointing <= rule.alongDeg()
                && Math.abs(now.crossTrackNm()) <= halfScaleNm;
        if (turnedOnto) {
            away.step(before.flownS(), offAway(before, halfScaleNm), now.flownS(), offAway(now, halfScaleNm));
        }
    }

    /** Zero or less while going away from the line and not turning. */
    private double offAway(CourseMeasure m, double halfScaleNm) {
        return Math.max(
                Math.max(off(m, halfScaleNm, rule.awayDeg()), m.towardDeg() / rule.awayDeg()), m.turning(turningShare));
    }

    /** From where the stay within the looser limits began. */
    private void stay(CourseMeasure now) {
        boolean within = !Double.isNaN(loose.sinceS());
        if (within && Double.isNaN(staySinceS)) {
            stayCrossNm = now.crossTrackNm();
            stayAlongNm = now.alongNm();
        }
        staySinceS = loose.sinceS();
    }

    private void note(CourseMeasure m) {
        crossNm.add(m.flownS(), m.crossTrackNm());
        alongNm.add(m.flownS(), m.alongNm());
    }

    /** Whether the aircraft is established now. */
    boolean holding() {
        return (close.lasting() && level.lasting()) || away.lasting() || (loose.lasting() && goesAlong());
    }

    private double sinceS(CourseMeasure before, CourseMeasure now) {
        double atS = close.lasting() && level.lasting()
                ? Math.max(close.sinceS() + rule.heldS(), level.sinceS())
                : away.lasting() ? away.sinceS() + rule.heldS() : loose.sinceS() + rule.looseS();
        return Math.min(now.flownS(), Math.max(before.flownS(), atS));
    }

    /** Along the course and not across it: over the longer time, or, for whoever weaves, over all of the stay. */
    private boolean goesAlong() {
        return goesAlong(crossNm.first(), alongNm.first()) || goesAlong(stayCrossNm, stayAlongNm);
    }

    private boolean goesAlong(double fromCrossNm, double fromAlongNm) {
        double across = Math.abs(crossNm.last() - fromCrossNm);
        return across <= (alongNm.last() - fromAlongNm) * alongSlope;
    }

    private double offClose(CourseMeasure m, double fullScaleNm, boolean onHeading) {
        double halfScaleNm = rule.ofScale() * fullScaleNm;
        double off = direct
                ? offDirect(m, Math.min(halfScaleNm, carried.limitNm(fullScaleNm)))
                : off(m, halfScaleNm, rule.alongDeg());
        return onHeading ? Math.max(off, closing(m)) : off;
    }

    /** The way direct is taken up by who points along it, with the nose or with the track. */
    private double offDirect(CourseMeasure m, double limitNm) {
        double pointing =
                Math.min(Math.abs(m.meanTrackErrorDeg()) / rule.alongDeg(), Math.abs(m.meanNoseErrorDeg()) / aimedDeg);
        double off = Math.max(Math.abs(m.crossTrackNm()) / limitNm, pointing) - 1;
        return beforeStart ? off : Math.max(off, -m.alongNm());
    }

    /** Above zero while the line is still closed on and some way off: the heading that leads to it is not the course. */
    private double closing(CourseMeasure m) {
        double offNm = Math.abs(m.crossTrackNm()) / rule.closingNm();
        return (toHeading ? offNm : Math.min(m.towardDeg() / rule.closingDeg(), offNm)) - 1;
    }

    private double offLoose(CourseMeasure m, double fullScaleNm) {
        return off(m, rule.looseScale() * fullScaleNm, rule.looseDeg());
    }

    /** Zero or less within the limits and not before the start of the line. */
    private double off(CourseMeasure m, double limitNm, double limitDeg) {
        double off = Math.max(Math.abs(m.crossTrackNm()) / limitNm, Math.abs(m.meanTrackErrorDeg()) / limitDeg) - 1;
        return beforeStart ? off : Math.max(off, -m.alongNm());
    }

    void reset() {
        close.reset();
        loose.reset();
        level.reset();
        away.reset();
        turnedOnto = false;
        staySinceS = Double.NaN;
        held = false;
        crossNm.clear();
        alongNm.clear();
    }
}
