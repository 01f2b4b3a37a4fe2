package org.rejoin.bridge.tracker;

import java.util.List;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;

import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;

/**
 * An assigned altitude or speed. Judged from where it is passed, from where the level-off should be over, or from when
 * it should have been reached, whichever is first; until it is taken back.
 *
 * <p>A sound level-off is straight to a lead of a tenth of the rate of climb (Instrument Flying Handbook,
 * FAA-H-8083-15B, chapter 7), and from there exponential: its time constant is lead by rate.
 */
final class AssignedWatch {

    /** The value is missing for this long: the feed has none, seconds; common practice, no source. */
    private static final double UNSEEN_S = 30;

    /** The rate of change is measured over this, seconds. */
    private static final double RATE_OVER_S = 6;

    /**
     * What is assigned.
     *
     * @param value as the feed has it; NaN where it has none
     * @param carried whether the value is of an earlier sample
     * @param limit off by more than this is a deviation, whatever the grade allows
     * @param leastPerS least rate at which it may be expected to change
     * @param reactionS time to react, seconds
     * @param levelOffS time constant of a sound level-off, seconds
     * @param levelOffTimes time constants until it is over
     * @param off how far an error counts, 0 or more
     * @param altitude or speed
     */
    private record Kind(
            ToDoubleFunction<FlightInstant> value,
            Predicate<FlightInstant> carried,
            double limit,
            double leastPerS,
            double reactionS,
            double levelOffS,
            double levelOffTimes,
            DoubleUnaryOperator off,
            boolean altitude) {

        FlightEvent began(double timeS, double error) {
            return altitude
                    ? new FlightEvent.AltitudeDeviationBegan(timeS, error)
                    : new FlightEvent.SpeedDeviationBegan(timeS, error);
        }

        FlightEvent ended(double timeS, double error, boolean back) {
            return altitude
                    ? new FlightEvent.AltitudeDeviationEnded(timeS, error, back)
                    : new FlightEvent.SpeedDeviationEnded(timeS, error, back);
        }
    }

    private final Kind kind;
    private final double assigned;
    private final Excursion deviation = new Excursion();
    /** How far off it was whenever the feed sent it, since a break: what it was last is what it was before. */
    private final Series changing = new Series(RATE_OVER_S);

    private final SignChange passing = new SignChange();
    private double beganS = Double.NaN;
    private double foundAfterS;
    private double dueS = Double.NaN;
    private double levelOffOverS = Double.NaN;
    private double judgedFromS = Double.POSITIVE_INFINITY;
    private boolean reached;
    private boolean ownTime;

    private AssignedWatch(Kind kind, double assigned) {
        this.kind = kind;
        this.assigned = assigned;
    }

    /** An altitude to be reached and kept, feet. */
    static AssignedWatch altitude(double feet, Rules rules) {
        Rule.Altitude rule = rules.of(Rule.Altitude.class);
        return new AssignedWatch(
                new Kind(
                        FlightInstant::altitudeFt,
                        now -> now.carried().altitude(),
                        rule.limitFt(),
                        rule.rateFpm() / 60,
                        rule.reactionS(),
                        rule.levelOffS(),
                        rule.levelOffTimes(),
                        Math::abs,
                        true),
                feet);
    }

    /** An indicated airspeed to be reached and kept, knots. */
    static AssignedWatch speed(Instruction.MaintainSpeed speed, Rules rules) {
        Rule.Speed rule = rules.of(Rule.Speed.class);
        return new AssignedWatch(
                new Kind(
                        FlightInstant::indicatedAirspeedKt,
                        now -> now.carried().airspeed(),
                        rule.limitKt(),
                        rule.rateKtPerS(),
                        rule.reactionS(),
                        rule.levelOffS(),
                        rule.levelOffTimes(),
                        switch (speed.bound()) {
                            case EXACTLY -> Math::abs;
                            case OR_GREATER -> error -> Math.max(0, -error);
                            case OR_LESS -> error -> Math.max(0, error);
                        },
                        false),
                speed.knots());
    }

    /** To be reached in the pilot's own time: until it is reached, or falls due, nothing is judged. */
    AssignedWatch inOwnTime() {
        ownTime = true;
        return this;
    }

    /** The place is passed at which it was to be reached. */
    void fallsDue(double flownS) {
        if (ownTime) {
            ownTime = false;
            dueS = flownS;
            judgedFromS = Math.min(judgedFromS, flownS);
        }
    }

    /**
     * What was to be reached in the pilot's own time is to be reached now; the time it takes runs from here.
     *
     * @param laterS so much later he may find that it is to be begun, seconds
     */
    void begins(double laterS) {
        ownTime = false;
        if (judgedFromS == Double.POSITIVE_INFINITY) {
            foundAfterS = laterS;
            beganS = Double.NaN;
            dueS = Double.NaN;
        }
    }

    /** In its unit. */
    double assigned() {
        return assigned;
    }

    /** Value less assigned, while it is judged; 0 on a side that does not count; else NaN. */
    double errorNow() {
        if (changing.isEmpty() || changing.lastS() < judgedFromS) {
            return Double.NaN;
        }
        double error = changing.last();
        return Math.copySign(kind.off().applyAsDouble(error), error);
    }

    void step(FlightInstant now, List<FlightEvent> events) {
        beganS = Double.isNaN(beganS) ? now.flownS() : beganS;
        double error = kind.value().applyAsDouble(now) - assigned;
        if (Double.isNaN(error)) {
            breakOff();
            return;
        }
        if (kind.carried().test(now)) {
            return;
        }
        double errorBefore = changing.last();
        double fromS = changing.isEmpty() ? now.flownS() : changing.lastS();
        double off = kind.off().applyAsDouble(error);
        changing.add(now.flownS(), error);
        reached |= off <= kind.limit();
        if (Double.isNaN(dueS)) {
            dueS = ownTime && off > kind.limit()
                    ? Double.POSITIVE_INFINITY
                    : now.flownS()
                            + foundAfterS
                            + kind.reactionS()
                            + Math.max(0, off - kind.limit()) / kind.leastPerS();
            judgedFromS = dueS;
        }
        judge(fromS, errorBefore, now.flownS(), error, off);
        if (now.flownS() < judgedFromS) {
            return;
        }
        double excessBefore =
                Double.isNaN(errorBefore) ? Double.NaN : kind.off().applyAsDouble(errorBefore) - kind.limit();
        double judgedS = Math.min(now.flownS(), Math.max(fromS, judgedFromS));
        double shiftS = now.timeS() - now.flownS();
        switch (deviation.step(judgedS, excessBefore, now.flownS(), off - kind.limit(), error)) {
            case BEGAN -> events.add(kind.began(deviation.atS() + shiftS, error));
            case ENDED -> events.add(kind.ended(deviation.atS() + shiftS, deviation.worst(), true));
            case NONE -> {}
        }
    }

    /** Whether it is to be kept from now on. */
    private void judge(double fromS, double errorBefore, double toS, double error, double off) {
        OptionalDouble passed = passing.step(fromS, errorBefore, toS, error);
        if (toS >= judgedFromS) {
            return;
        }
        if (passed.isPresent()) {
            judgedFromS = Math.min(judgedFromS, Math.max(passed.getAsDouble(), beganS + kind.reactionS()));
            return;
        }
        double ratePerS = Math.abs(changing.rate(toS, RATE_OVER_S));
        double lead = ratePerS * kind.levelOffS();
        if (Double.isNaN(levelOffOverS) && off <= kind.limit() + lead) {
            double straightS = ratePerS > 0 ? Math.max(0, off - lead) / ratePerS : 0;
            levelOffOverS = toS + straightS + kind.levelOffS() * kind.levelOffTimes();
            judgedFromS = Math.min(judgedFromS, Math.max(levelOffOverS, beganS + kind.reactionS()));
        }
    }

    /** Whether it was reached, or cannot be told although there was time to reach it. */
    boolean done(FlightInstant now) {
        return reached || (Double.isNaN(dueS) && now.flownS() > beganS + UNSEEN_S);
    }

    /** Whether it should have been reached by now. */
    boolean due(FlightInstant now) {
        return now.flownS() >= dueS;
    }

    /** Across a gap or a pause nothing is concluded; a deviation that goes on after it is the same one. */
    void breakOff() {
        changing.clear();
    }

    /** Over: another one is assigned, or none, or it is the end. */
    void finish(double timeS, List<FlightEvent> events) {
        if (deviation.close()) {
            events.add(kind.ended(timeS, deviation.worst(), false));
        }
    }
}
