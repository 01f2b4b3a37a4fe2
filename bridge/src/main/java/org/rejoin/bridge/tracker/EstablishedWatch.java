package org.rejoin.bridge.tracker;

import java.util.OptionalDouble;

import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;

/**
 * Established on a course: close to it and along it for a few seconds, or less close and less well for longer, as long
 * as the aircraft goes along it and not across it.
 */
final class EstablishedWatch {

    private final Rule.Established rule;
    private final double turningShare;
    private final boolean beforeStart;
    private final Dwell close;
    private final Dwell loose;
    private final Dwell level = new Dwell(0);
    private final Series crossNm;
    private final Series alongNm;

    /**
     * Not established.
     *
     * @param rules in force
     * @param beforeStart whether one may be established before the start of the line
     */
    EstablishedWatch(Rules rules, boolean beforeStart) {
        this.rule = rules.of(Rule.Established.class);
        this.turningShare = rules.of(Rule.Rates.class).turningShare();
        this.beforeStart = beforeStart;
        this.close = new Dwell(rule.heldS());
        this.loose = new Dwell(rule.looseS());
        this.crossNm = new Series(rule.looseS());
        this.alongNm = new Series(rule.looseS());
    }

    /** Takes a step; when the aircraft was established, if that was in this step. */
    OptionalDouble step(Measure before, Measure now, double fullScaleNm) {
        if (crossNm.isEmpty()) {
            note(before);
        }
        note(now);
        boolean was = holding();
        OptionalDouble held =
                close.step(before.flownS(), offClose(before, fullScaleNm), now.flownS(), offClose(now, fullScaleNm));
        loose.step(before.flownS(), offLoose(before, fullScaleNm), now.flownS(), offLoose(now, fullScaleNm));
        level.step(before.flownS(), turning(before), now.flownS(), turning(now));
        if (!was && held.isPresent() && !close.lasting() && level.lasting()) {
            // Held long enough, and left again within this step.
            return held;
        }
        return was || !holding() ? OptionalDouble.empty() : OptionalDouble.of(sinceS(before, now));
    }

    private void note(Measure m) {
        crossNm.add(m.flownS(), m.crossTrackNm());
        alongNm.add(m.flownS(), m.alongNm());
    }

    /** Whether the aircraft is established now. */
    boolean holding() {
        return (close.lasting() && level.lasting()) || (loose.lasting() && goesAlong());
    }

    private double sinceS(Measure before, Measure now) {
        double atS = close.lasting() && level.lasting()
                ? Math.max(
                        close.since().orElse(now.flownS()) + rule.heldS(),
                        level.since().orElse(now.flownS()))
                : loose.since().orElse(now.flownS()) + rule.looseS();
        return Math.min(now.flownS(), Math.max(before.flownS(), atS));
    }

    /** From where the longer time began to here along the course, not across it. */
    private boolean goesAlong() {
        double across = Math.abs(crossNm.last() - crossNm.at(crossNm.firstS()));
        double along = alongNm.last() - alongNm.at(alongNm.firstS());
        return across <= along * Math.tan(Math.toRadians(rule.alongDeg()));
    }

    private double offClose(Measure m, double fullScaleNm) {
        return off(m, rule.ofScale() * fullScaleNm, rule.alongDeg());
    }

    private double offLoose(Measure m, double fullScaleNm) {
        return off(m, rule.looseScale() * fullScaleNm, rule.looseDeg());
    }

    /** Zero or less within the limits and not before the start of the line. */
    private double off(Measure m, double limitNm, double limitDeg) {
        double off = Math.max(Math.abs(m.crossTrackNm()) / limitNm, Math.abs(m.meanTrackErrorDeg()) / limitDeg) - 1;
        return beforeStart ? off : Math.max(off, -m.alongNm());
    }

    private double turning(Measure m) {
        return m.moment().turning() / turningShare - 1;
    }

    void reset() {
        close.reset();
        loose.reset();
        level.reset();
        crossNm.clear();
        alongNm.clear();
    }
}
