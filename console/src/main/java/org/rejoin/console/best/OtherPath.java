package org.rejoin.console.best;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.protocol.AircraftState;

/** Puts the rest of a {@link WhatIf} together, stretch by stretch, from where a turn begins. Used once. */
final class OtherPath {

    /** Rolled out nearer to the line than this is on it, nautical miles: less than a needle shows. */
    private static final double ON_LINE_NM = 0.02;

    /** Closing again on a line that the turn missed; common practice, no source. */
    private static final double CLOSING_DEG = 30;

    /** Onward on the last leg, seconds: the graded part ends half a minute after the amendment is complete. */
    private static final double ONWARD_S = 90;

    private static final double EVERY_S = Comparison.EVERY_S;

    private final AmendedRoute route;
    private final WhatIf.Choice choice;
    private final Recorded recorded;
    private final double beginS;
    private final Recorded.Moment begins;
    private final List<Stretch> stretches = new ArrayList<>();
    private Position here;
    private TrueDirection heading;

    OtherPath(AmendedRoute route, WhatIf.Choice choice, Recorded recorded, double beginS) {
        this.route = route;
        this.choice = choice;
        this.recorded = recorded;
        this.beginS = beginS;
        this.begins = recorded.at(beginS);
        this.here = begins.position();
        this.heading = begins.heading();
    }

    /**
     * Flies it, different from the first turn on; the begin and bank of the other turn are chosen. Empty where the
     * aircraft does not get onto its lines that way.
     */
    Optional<WhatIf.Flight> fly(FlownTurns.Found first, FlownTurns.Found chosen) {
        GroundPath line = first.line();
        Position chosenAt = begins.position();
        double chosenS = beginS;
        if (!onto(line, air(first.leg()))) {
            return Optional.empty();
        }
        int last = PathPlan.lastLeg(route);
        for (int leg = first.leg(); ; leg++) {
            Optional<PathPlan.OnLine> on =
                    PathPlan.OnLine.from(here, line, air(leg)).filter(each -> !each.isPastEnd());
            if (on.isEmpty()) {
                return Optional.empty();
            }
            PathPlan.OnLine flown = on.get();
            if (leg >= last) {
                add(flown.of(Math.max(0, Math.min(ONWARD_S, flown.secondsToEnd()))));
                return Optional.of(flight(chosenAt, chosenS));
            }
            Optional<GroundPath> next = route.legs().get(leg + 1).groundPath();
            if (next.isEmpty()) {
                return Optional.empty();
            }
            boolean turns = Math.abs(line.finalCourse().turnTo(next.get().courseAt(0))) >= PathPlan.NO_TURN_DEG;
            Air after = air(leg + 1);
            double s = !turns
                    ? Math.max(0, flown.secondsToEnd())
                    : leg + 1 == chosen.leg() && chosen.leg() != first.leg()
                            ? secondsTo(chosen, flown)
                            : TurnStart.onto(next.get(), after, flown::at, flown::headingAt, flown.secondsToEnd())
                                    .map(TurnStart::seconds)
                                    .orElse(0.0);
            add(flown.of(s));
            if (leg + 1 == chosen.leg()) {
                chosenAt = here;
                chosenS = nowS();
            }
            if (turns && !onto(next.get(), after)) {
                return Optional.empty();
            }
            line = next.get();
        }
    }

    private Air air(int leg) {
        return leg >= choice.leg()
                ? Air.banked(begins.trueAirspeedKt(), choice.wind(), choice.bankDeg())
                : new Air(begins.trueAirspeedKt(), choice.wind());
    }

    /** To where the chosen turn begins; perhaps past the end of the leg. */
    private double secondsTo(FlownTurns.Found turn, PathPlan.OnLine flown) {
        double high = flown.secondsToEnd();
        while (miss(turn, flown.at(high)) > choice.beforeNm() && high < TurnStart.LONGEST_S) {
            high = high * 1.2 + 10;
        }
        return TurnStart.begins(0, high, s -> miss(turn, flown.at(s)) <= choice.beforeNm());
    }

    private static double miss(FlownTurns.Found turn, Position at) {
        return turn.near() * turn.line().offset(at).crossTrackNm();
    }

    /** Onto a line from here; where the turn misses it, closing on it again and rolling out on it. */
    private boolean onto(GroundPath line, Air air) {
        if (air.along(line.offset(here).course()).isEmpty()) {
            return false;
        }
        double turnDeg = TurnStart.turnDeg(here, heading, line, air);
        double miss = TurnStart.missNm(here, heading, line, air);
        if (Math.abs(miss) <= ON_LINE_NM) {
            add(new Stretch.Turning(here, heading, turnDeg, air));
            return true;
        }
        double side = Math.signum(miss);
        Optional<Stretch.OnHeading> straight = closing(line, air, turnDeg - side * CLOSING_DEG);
        // So near that half of that is too much: what turns there and back at once.
        double closingDeg = straight.isPresent()
                ? CLOSING_DEG
                : TurnStart.begins(CLOSING_DEG, 0, deg -> side * missAfter(line, air, turnDeg - side * deg) > 0);
        add(new Stretch.Turning(here, heading, turnDeg - side * closingDeg, air));
        straight.ifPresent(this::add);
        add(new Stretch.Turning(here, heading, TurnStart.turnDeg(here, heading, line, air), air));
        return straight.isPresent() || Math.abs(line.offset(here).crossTrackNm()) < ON_LINE_NM;
    }

    /** The heading after a turn until the turn onto the line; empty where that should have begun before. */
    private Optional<Stretch.OnHeading> closing(GroundPath line, Air air, double turnDeg) {
        Stretch.Turning turn = new Stretch.Turning(here, heading, turnDeg, air);
        Position from = turn.at(turn.seconds());
        TrueDirection held = turn.endHeading();
        Stretch.OnHeading straight = new Stretch.OnHeading(from, held, air.on(held), 0);
        return TurnStart.onto(line, air, straight::at, straight::headingAt, TurnStart.LONGEST_S)
                .map(start -> new Stretch.OnHeading(from, held, air.on(held), start.seconds()));
    }

    private double missAfter(GroundPath line, Air air, double turnDeg) {
        Stretch.Turning turn = new Stretch.Turning(here, heading, turnDeg, air);
        return TurnStart.missNm(turn.at(turn.seconds()), turn.endHeading(), line, air);
    }

    private void add(Stretch stretch) {
        stretches.add(stretch);
        here = stretch.at(stretch.seconds());
        heading = stretch.endHeading();
    }

    private double nowS() {
        return beginS + stretches.stream().mapToDouble(Stretch::seconds).sum();
    }

    private WhatIf.Flight flight(Position chosenAt, double chosenS) {
        List<AircraftState> states = new ArrayList<>(recorded.before(beginS));
        double fromS = beginS;
        double nextS = Math.ceil(beginS / EVERY_S) * EVERY_S;
        for (Stretch stretch : stretches) {
            for (; nextS < fromS + stretch.seconds(); nextS += EVERY_S) {
                states.add(state(stretch, nextS - fromS, nextS));
            }
            fromS += stretch.seconds();
        }
        return new WhatIf.Flight(
                states,
                recorded.inOtherWind() ? Math.min(beginS, recorded.heardS()) : beginS,
                chosenAt,
                chosenS,
                Turn.radiusAtBankNm(begins.trueAirspeedKt(), choice.bankDeg()));
    }

    private AircraftState state(Stretch stretch, double s, double timeS) {
        TrueDirection held = stretch.headingAt(s);
        double tas = begins.trueAirspeedKt();
        return recorded.state(
                timeS,
                stretch.at(s),
                held,
                GroundVector.onHeading(held, tas, choice.wind()),
                Turn.bankDeg(tas, stretch.rateDegPerS()));
    }
}
