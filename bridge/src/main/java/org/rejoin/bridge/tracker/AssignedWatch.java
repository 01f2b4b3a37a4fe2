package org.rejoin.bridge.tracker;

import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;

import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightInstant;
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

    /** The value is missing for this long: nobody can tell, seconds; common practice, no source. */
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
     * @param readBackS who goes no other way has so much more time to begin, seconds
     * @param levelOffS time constant of a sound level-off, seconds
     * @param off how far an error counts, 0 or more
     */
    private record Kind(
            ToDoubleFunction<FlightInstant> value,
            Predicate<FlightInstant> carried,
            double limit,
            double leastPerS,
            double reactionS,
            double readBackS,
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
    private double movingPerS;
    private double earliestS = Double.NaN;
    private double reachedS = Double.POSITIVE_INFINITY;
    private double offNow;
    private double mostOff;
    private boolean seenNow;
    private boolean settled;
    private boolean ownTime;
    private boolean ofAmendment;
    private double least;
    private double most;

    private AssignedWatch(Kind kind, double assigned) {
        this.kind = kind;
        this.assigned = assigned;
        this.least = assigned;
        this.most = assigned;
    }

    /** An altitude to be reached and kept, feet. */
    static AssignedWatch altitude(double feet, Rules rules) {
        Rule.Altitude rule = rules.of(Rule.Altitude.class);
        return new AssignedWatch(
                new Kind(
                        FlightInstant::altitudeFt,
                        now -> now.state().altitudeCarried(),
                        rule.limitFt(),
                        rule.rateFpm() / 60,
                        rule.reactionS(),
                        rule.readBackS(),
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
                        now -> now.state().indicatedAirspeedKtOrNaN(),
                        now -> now.state().airspeedCarried(),
                        rule.limitKt(),
                        rule.rateKtPerS(),
                        rule.reactionS(),
                        0,
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

    /** The value changes so much a second when it is assigned: what goes on while the pilot reacts, and is to be reversed. */
    AssignedWatch moving(double perS) {
        movingPerS = perS;
        return this;
    }

    /** To be reached in the pilot's own time: until it is reached, or falls due, nothing is judged. */
    AssignedWatch inOwnTime() {
        ownTime = true;
        return this;
    }

    /** Whether it may still be left for as long as the pilot likes. */
    boolean isInOwnTime() {
        return ownTime;
    }

    /** Said with the amendment that is flown, or since: that is not done before this is reached. */
    AssignedWatch ofAmendment(boolean said) {
        ofAmendment = said;
        return this;
    }

    boolean ofAmendment() {
        return ofAmendment;
    }

    /** Whether the amendment waits for it: it is to be reached in a time that is known, and was not. */
    boolean awaited() {
        return ofAmendment && !ownTime && !done();
    }

    /** All between two values is as good, ends included; the time to reach it runs anew. */
    void between(double low, double high) {
        least = low;
        most = high;
        dueS = Double.NaN;
        changing.clear();
    }

    private double error(FlightInstant now) {
        double value = kind.value().applyAsDouble(now);
        return value - Math.max(least, Math.min(most, value));
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
        double error = error(now);
        seenNow = false;
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
        seen(fromS, errorBefore, now, off);
        if (Double.isNaN(dueS)) {
            begin(now, error, off);
        }
        judge(fromS, errorBefore, now.flownS(), error, off);
        settled |= done() && now.flownS() >= judgedFromS;
        if (now.flownS() < judgedFromS) {
            return;
        }
        double excessBefore =
                Double.isNaN(errorBefore) ? Double.NaN : kind.off().applyAsDouble(errorBefore) - kind.limit();
        double judgedS = Math.min(now.flownS(), Math.max(fromS, judgedFromS));
        double shiftS = now.timeS() - now.flownS();
        switch (deviation.step(judgedS, excessBefore, now.flownS(), off - kind.limit(), kind.limit(), error)) {
            case BEGAN -> events.add(kind.began(deviation.atS() + shiftS, error));
            case ENDED -> events.add(kind.ended(deviation.atS() + shiftS, deviation.worst(), true));
            case NONE -> {}
        }
    }

    private void seen(double fromS, double errorBefore, FlightInstant now, double off) {
        seenNow = true;
        offNow = off;
        mostOff = Math.max(mostOff, off);
        if (off <= kind.limit() && Double.isInfinite(reachedS)) {
            double offBefore = kind.off().applyAsDouble(errorBefore);
            reachedS = Double.isNaN(offBefore) || offBefore <= kind.limit()
                    ? now.flownS()
                    : Dwell.root(fromS, offBefore - kind.limit(), now.flownS(), off - kind.limit());
        }
    }

    /**
     * When it is to be reached. While its pilot reacts the aircraft goes on as it was; one that goes the other way has then to
     * be levelled off and brought to the rate back, each in the time of a sound level-off, and to come back as far as it was
     * carried.
     */
    private void begin(FlightInstant now, double error, double off) {
        double soonestS = now.flownS() + kind.reactionS();
        double needsS = Math.max(0, off - kind.limit()) / kind.leastPerS();
        double ratePerS = changing.firstS() <= now.flownS() - 1 ? changing.rate(now.flownS(), RATE_OVER_S) : movingPerS;
        double levelOffS = kind.levelOffS() * Math.min(1, Math.abs(ratePerS) / kind.leastPerS());
        double carriedTo = error + ratePerS * (kind.reactionS() + levelOffS);
        double readBackS = needsS > 0 ? kind.readBackS() : 0;
        if (carriedTo * ratePerS > 0 && kind.off().applyAsDouble(carriedTo) > 0) {
            double backS = Math.max(0, kind.off().applyAsDouble(carriedTo) - kind.limit()) / kind.leastPerS();
            // He is on his way already, and the wrong one.
            readBackS = 0;
            needsS = Math.max(needsS, 2 * levelOffS + backS);
            soonestS += 2 * levelOffS + backS;
        }
        earliestS = soonestS;
        dueS = ownTime && off > kind.limit()
                ? Double.POSITIVE_INFINITY
                : now.flownS() + foundAfterS + kind.reactionS() + readBackS + needsS;
        judgedFromS = dueS;
    }

    /** Whether it is to be kept from now on. */
    private void judge(double fromS, double errorBefore, double toS, double error, double off) {
        OptionalDouble passed = passing.step(fromS, errorBefore, toS, error);
        if (toS >= judgedFromS) {
            return;
        }
        if (passed.isPresent()) {
            judgedFromS = Math.min(judgedFromS, Math.max(passed.getAsDouble(), earliestS));
            return;
        }
        double ratePerS = Math.abs(changing.rate(toS, RATE_OVER_S));
        double lead = ratePerS * kind.levelOffS();
        if (Double.isNaN(levelOffOverS) && off <= kind.limit() + lead) {
            double straightS = ratePerS > 0 ? Math.max(0, off - lead) / ratePerS : 0;
            levelOffOverS = toS + straightS + kind.levelOffS() * kind.levelOffTimes();
            judgedFromS = Math.min(judgedFromS, Math.max(levelOffOverS, earliestS));
        }
    }

    /** Whether it was seen to be reached. */
    boolean done() {
        return Double.isFinite(reachedS);
    }

    /** Whether it was seen to be reached, and is judged. */
    boolean settled() {
        return settled;
    }

    /** Whether it was reached and has not been judged for long enough to tell how it was kept. */
    boolean justReached(FlightInstant now, double judgedS) {
        return ofAmendment && done() && now.flownS() < judgedFromS + judgedS;
    }

    /** Whether it should have been reached by now. */
    boolean due(FlightInstant now) {
        return now.flownS() >= dueS;
    }

    /**
     * When it was reached or should have been, flown seconds; infinite while that is to come, NaN where the value has been
     * missing since it was assigned and there was time to react.
     */
    double reachedOrDueS(FlightInstant now) {
        return Double.isNaN(dueS)
                ? (now.flownS() > beganS + UNSEEN_S ? Double.NaN : Double.POSITIVE_INFINITY)
                : Math.min(reachedS, dueS);
    }

    /** When it was due so long ago, flown seconds; NaN before, where it was reached, and where that is not seen now. */
    double overdueS(FlightInstant now, double afterS) {
        return !done() && seenNow && now.flownS() >= dueS + afterS ? dueS + afterS : Double.NaN;
    }

    /** How much of the change, or of as much as makes it a fault where that is more, was not made, (0, 1]; as far as it was seen. */
    double left() {
        return Math.min(1, Math.max(0, offNow - kind.limit()) / Math.max(kind.limit(), mostOff - kind.limit()));
    }

    /** In words. */
    String missing() {
        return String.format(
                Locale.ROOT,
                (done() ? "not yet held at %.0f " : "did not reach %.0f ") + (kind.altitude() ? "ft" : "knots"),
                assigned);
    }

    /** Across a gap or a pause nothing is concluded; a deviation that goes on after it is the same one. */
    void breakOff() {
        seenNow = false;
        changing.clear();
    }

    /** Over: another one is assigned, or none, or it is the end. */
    void finish(double timeS, List<FlightEvent> events) {
        if (deviation.close()) {
            events.add(kind.ended(timeS, deviation.worst(), false));
        }
    }
}
