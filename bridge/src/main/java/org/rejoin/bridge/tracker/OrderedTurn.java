package org.rejoin.bridge.tracker;

import java.util.List;
import java.util.function.ToDoubleFunction;

import org.rejoin.bridge.clearance.Instruction.TurnDirection;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.route.AmendedRoute;

import org.jspecify.annotations.Nullable;

/**
 * A turn that ATC ordered to the left or to the right: it is made that way, also where that is the long way round (FAA Order
 * JO 7110.65, 5-6-2; 14 CFR 91.123). Who turns the other way has made a wrong turn; the time to come round runs anew from
 * where he turns back.
 */
final class OrderedTurn {

    /** As near as this to the heading there is no turn to be made, degrees; a heading is held within it (IR.V.A.S5). */
    private static final double NO_TURN_DEG = 5;

    /** The longest way round where no side is ordered, degrees. */
    private static final double HALF_ROUND_DEG = 180;

    private final ToDoubleFunction<FlightInstant> toTurnDeg;
    private final boolean right;
    private double roundDeg = Double.NaN;
    private final Rule.WrongTurn rule;
    private final double reactionS;
    private final double neverAfterS;
    private double begunByS = Double.NaN;

    private double fromNoseDeg = Double.NaN;
    private double carriedDeg;
    /** The heading of the clearance before, while there is still time to turn to it; null where there is none. */
    private final @Nullable HeadingWatch turnBefore;

    private boolean goesOn;
    private double reactsUntilS = Double.NaN;
    private double wentOnDeg;
    private double wentOnS;
    private double lastExcess;
    private double otherWayDeg;
    private double otherWayAtS = Double.NaN;
    private double fromThereS;
    private boolean told;
    private boolean over;

    private OrderedTurn(
            boolean right, ToDoubleFunction<FlightInstant> toTurnDeg, @Nullable HeadingWatch turnBefore, Rules rules) {
        this.turnBefore = turnBefore;
        this.toTurnDeg = toTurnDeg;
        this.right = right;
        this.rule = rules.of(Rule.WrongTurn.class);
        this.reactionS = rules.of(Rule.Heading.class).reactionS();
        this.neverAfterS = rules.of(Rule.Due.class).afterS();
    }

    /**
     * The turn that begins a route; null where the pilot may turn either way.
     *
     * @param turnBefore to the heading of the clearance before, while there is still time for it; null where there is none
     */
    static @Nullable OrderedTurn of(AmendedRoute route, @Nullable HeadingWatch turnBefore, Rules rules) {
        return of(route.orderedTurn(), now -> toTurnDeg(route, now), turnBefore, rules);
    }

    /** The turn onto the heading on which a fix is departed, begun by {@link #beginAt}; null where either way is as good. */
    static @Nullable OrderedTurn atDeparture(AmendedRoute route, Rules rules) {
        return of(
                route.orderedTurnAtDeparture(),
                now -> route.departHeading()
                        .map(heading -> Angles.turn(heading.deg() - now.headingMagneticDeg()))
                        .orElse(0.0),
                null,
                rules);
    }

    private static @Nullable OrderedTurn of(
            TurnDirection ordered,
            ToDoubleFunction<FlightInstant> toTurnDeg,
            @Nullable HeadingWatch turnBefore,
            Rules rules) {
        return ordered == TurnDirection.SHORTEST
                ? null
                : new OrderedTurn(ordered == TurnDirection.RIGHT, toTurnDeg, turnBefore, rules);
    }

    /** Whether it is to the right. */
    boolean right() {
        return right;
    }

    /** Whether the aircraft has come to where the turn begins. */
    boolean begun() {
        return !Double.isNaN(roundDeg);
    }

    /** How far it is round the way that was ordered, from where it was heard, degrees, [0, 360). */
    double roundDeg() {
        return roundDeg;
    }

    /** How far it is the other way round. */
    private double wholeDeg() {
        return 360 - roundDeg;
    }

    /** Whether the aircraft came to where it was to turn to, or near it, by turning the other way. */
    boolean cameTheOtherWay(double withinDeg) {
        return otherWayDeg >= wholeDeg() - withinDeg;
    }

    /**
     * When the turn should be over, flown seconds: who has turned the other way has the time to find that, and to turn all
     * the way round from there. A few degrees the other way give a share of that.
     *
     * @param saidDueS for who turns the way that was ordered from where it was said
     */
    double dueS(double saidDueS) {
        double dueS = saidDueS + wentOnS;
        double more = otherWayAtS + reactionS + fromThereS - dueS;
        return more > 0 ? dueS + more * Math.min(1, otherWayDeg / rule.orderedDeg()) : dueS;
    }

    void step(@Nullable FlightInstant before, FlightInstant now, List<FlightEvent> events) {
        if (over) {
            return;
        }
        if (Double.isNaN(fromNoseDeg)) {
            begin(now);
            return;
        }
        if (before == null) {
            // What was turned meanwhile nobody saw.
            over = true;
            return;
        }
        double turned = toward(now.noseDeg() - fromNoseDeg);
        carriedOn(now, -turned);
        if (now.flownS() > begunByS && otherWayDeg <= rule.orderedDeg()) {
            // Never begun: what is turned so late is no answer to the order.
            over = true;
            return;
        }
        double other = Math.min(wholeDeg(), -turned - carriedDeg);
        if (other > otherWayDeg) {
            otherWayDeg = other;
            otherWayAtS = now.flownS();
            fromThereS = Turn.standardTurnS(now.groundSpeedKt(), roundDeg + other);
        }
        // A gust swings the nose for a moment, and hardly its mean.
        double meanOther = toward(fromNoseDeg - now.meanNoseDeg()) - carriedDeg;
        double excess = Math.min(other - rule.orderedDeg(), meanOther - rule.orderedDeg() / 2);
        if (!told && excess > 0) {
            told = true;
            double atS = Dwell.root(before.flownS(), lastExcess, now.flownS(), excess);
            events.add(new FlightEvent.TurnedOtherWay(
                    now.timeAt(atS), right ? TurnDirection.RIGHT : TurnDirection.LEFT, other, wholeDeg()));
        }
        lastExcess = excess;
    }

    /** What is turned the other way while he reacts, because of the clearance before, has to be turned back first. */
    private void carriedOn(FlightInstant now, double otherDeg) {
        if (!(now.flownS() <= reactsUntilS)) {
            return;
        }
        carriedDeg = goesOn ? Math.max(carriedDeg, otherDeg) : carriedDeg;
        wentOnDeg = Math.max(wentOnDeg, Math.min(carriedDeg, otherDeg));
        wentOnS = Turn.standardTurnS(now.groundSpeedKt(), roundDeg + wentOnDeg)
                - Turn.standardTurnS(now.groundSpeedKt(), roundDeg);
    }

    /** Who is turning the other way when it is said, or about to as cleared before, goes on so while he reacts. */
    private void begin(FlightInstant now) {
        ahead(now, toward(toTurnDeg.applyAsDouble(now)));
        double against = Math.max(0, -toward(now.turnRateDegPerS()));
        carriedDeg = against * reactionS;
        reactsUntilS = now.flownS() + reactionS;
        goesOn = turnBefore != null && turnBefore.leadsRight(now) != right;
        over = roundDeg <= NO_TURN_DEG && !goesOn;
        // The mean lags behind a turn that goes on.
        fromNoseDeg = toward(now.noseDeg() - now.meanNoseDeg()) > 0 ? now.meanNoseDeg() : now.noseDeg();
    }

    /** So much is to be turned from here on, the short way. */
    private void ahead(FlightInstant now, double shortDeg) {
        roundDeg = Math.abs(shortDeg) <= NO_TURN_DEG ? Math.abs(shortDeg) : Angles.circle(shortDeg);
        begunByS = now.flownS() + reactionS + Turn.standardTurnS(now.groundSpeedKt(), roundDeg) + neverAfterS;
        lastExcess = -rule.orderedDeg();
    }

    /**
     * Begins at a fix, from the course on which it is passed: what was turned off that already is part of the turn. Where the
     * passing or the heading was not seen there is nothing to tell.
     */
    void beginAt(@Nullable FlightInstant before, FlightInstant now, double offCourseDeg) {
        if (before == null || Double.isNaN(now.headingMagneticDeg())) {
            roundDeg = HALF_ROUND_DEG;
            over = true;
            return;
        }
        ahead(now, Angles.turn(toward(toTurnDeg.applyAsDouble(now) + offCourseDeg)));
        over = roundDeg <= NO_TURN_DEG;
        fromNoseDeg = now.noseDeg() - offCourseDeg;
    }

    /** To what was cleared, the short way, right positive. */
    private static double toTurnDeg(AmendedRoute route, FlightInstant now) {
        boolean heading = !Double.isNaN(now.headingMagneticDeg());
        return route.heading()
                .map(plan -> heading
                        ? plan.magnetic().deg() - now.headingMagneticDeg()
                        : plan.ground().track().deg() - now.trackDeg())
                .or(() -> route.legs()
                        .get(0)
                        .endsAt()
                        .map(fix -> now.position().to(fix.position()).initial().deg() - now.trackDeg()))
                .map(Angles::turn)
                .orElse(0.0);
    }

    private double toward(double degrees) {
        return right ? degrees : -degrees;
    }

    /** The turn is over: the heading was taken up, or the course met. */
    void end() {
        over = true;
    }
}
