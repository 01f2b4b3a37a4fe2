package org.rejoin.bridge.tracker;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;

import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.InTurn;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.flight.Assigned;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.ChangeOvers;

import org.jspecify.annotations.Nullable;

/**
 * The altitude and the speed in force, and those that come into force after them. Each stays in force until another clearance
 * says something of it, or until the place is passed at which the same clearance assigns the next.
 */
final class Assignments {

    private final Rules rules;
    private final Rule.ChangeOver rule;
    private final Later<Instruction.Maintain> altitudes = new Later<>();
    private final Later<Instruction.Speed> speeds = new Later<>();
    private @Nullable AssignedWatch altitude;
    private @Nullable AssignedWatch speed;
    private Assigned inForce = Assigned.NOTHING;

    Assignments(Rules rules) {
        this.rules = rules;
        this.rule = rules.of(Rule.ChangeOver.class);
    }

    /** What comes into force later. */
    private final class Later<T extends Instruction> {

        private final Deque<InTurn<T>> next = new ArrayDeque<>();
        private @Nullable Clearance clearance;
        private @Nullable AmendedRoute route;
        private @Nullable ChangeOverWatch watch;
        private boolean near;

        void clear() {
            next.clear();
            watch = null;
            near = false;
        }

        /** What is said after the first, or all of it where the first begins later too. */
        void follow(List<InTurn<T>> all, Clearance said, @Nullable AmendedRoute on, double flownS) {
            clear();
            clearance = said;
            route = on;
            all.stream().filter(each -> each.from().isPresent()).forEach(next::add);
            watchNext(flownS);
        }

        /** The same of the last clearance that says something of it. */
        void followLast(
                List<Clearance> stands, Function<Clearance, List<InTurn<T>>> of, AmendedRoute on, double flownS) {
            clear();
            stands.stream()
                    .filter(each -> !of.apply(each).isEmpty())
                    .reduce((first, second) -> second)
                    .ifPresent(said -> follow(of.apply(said), said, on, flownS));
        }

        /** The next one is in force. */
        void passed(double flownS) {
            next.removeFirst();
            watchNext(flownS);
        }

        void watchNext(double flownS) {
            near = false;
            watch = next.isEmpty()
                    ? null
                    : new ChangeOverWatch(next.getFirst().from().orElseThrow(), route, flownS, rule);
        }

        boolean inOwnTime(Instruction.Maintain said) {
            return clearance != null && clearance.inOwnTime(said);
        }

        void breakOff() {
            if (watch != null) {
                watch.breakOff();
            }
        }
    }

    /** All that is assigned now. */
    Assigned inForce() {
        return inForce;
    }

    /** The altitude; null where none is in force. */
    @Nullable
    AssignedWatch altitude() {
        return altitude;
    }

    /** The speed; null where none is in force. */
    @Nullable
    AssignedWatch speed() {
        return speed;
    }

    /** Whether the route is not flown to its end before another altitude or speed is in force. */
    boolean goOn() {
        return (altitudes.watch != null && altitudes.watch.isOfRoute())
                || (speeds.watch != null && speeds.watch.isOfRoute());
    }

    /** What was assigned before the aircraft was moved, to be reached anew. */
    void carry(Assigned before) {
        before.altitudeFt().ifPresent(feet -> altitude = AssignedWatch.altitude(feet, rules));
        before.speed().ifPresent(said -> speed = AssignedWatch.speed(said, rules));
        inForce = before;
    }

    /**
     * What was assigned before, to be reached anew; what is the same goes on.
     *
     * @param before all that was
     * @param stands the clearances that stand, in the order issued
     * @param route on which they are flown
     * @param timeS as logged
     * @param flownS the same, flown
     * @param events takes what is over
     */
    void restore(
            Assigned before,
            List<Clearance> stands,
            AmendedRoute route,
            double timeS,
            double flownS,
            List<FlightEvent> events) {
        if (!before.altitudeFt().equals(inForce.altitudeFt())) {
            altitude(null, timeS, events);
            altitudes.followLast(stands, Clearance::altitudes, route, flownS);
            before.altitudeFt().ifPresent(feet -> {
                AssignedWatch again = AssignedWatch.altitude(feet, rules);
                boolean inOwnTime = stands.stream()
                        .flatMap(each -> each.altitudes().stream()
                                .filter(turn -> turn.said().feet() == feet)
                                .map(turn -> each.inOwnTime(turn.said())))
                        .reduce((first, second) -> second)
                        .orElse(false);
                altitude = inOwnTime ? again.inOwnTime() : again;
            });
        }
        if (!before.speed().equals(inForce.speed())) {
            finish(speed, timeS, events);
            speeds.followLast(stands, Clearance::speeds, route, flownS);
            speed = before.speed().map(each -> AssignedWatch.speed(each, rules)).orElse(null);
        }
        inForce = before;
    }

    /**
     * What a clearance assigns, each with a fair time to reach it; a deviation from the one before is over.
     *
     * @param clearance in force from now on
     * @param route on which it is flown; null for the filed one
     * @param here where it is heard; null where that is not known
     * @param timeS as logged
     * @param flownS the same, flown
     * @param events takes what is over
     */
    void assign(
            Clearance clearance,
            @Nullable AmendedRoute route,
            @Nullable FlightInstant here,
            double timeS,
            double flownS,
            List<FlightEvent> events) {
        altitudes(clearance, route, timeS, flownS, events);
        speeds(clearance, route, here, timeS, flownS, events);
        if (here != null) {
            // The time to react runs from here, not from the next sample.
            step(here, events);
        }
    }

    private void altitudes(
            Clearance clearance, @Nullable AmendedRoute route, double timeS, double flownS, List<FlightEvent> events) {
        List<InTurn<Instruction.Maintain>> said = clearance.altitudes();
        if (said.isEmpty()) {
            return;
        }
        boolean followed = route == null || ChangeOvers.followed(said, route);
        if (!followed) {
            noAltitude(timeS, events);
            return;
        }
        altitudes.follow(said, clearance, route, flownS);
        InTurn.atOnce(said).ifPresent(first -> {
            AssignedWatch assigned = AssignedWatch.altitude(first.feet(), rules);
            altitude(clearance.inOwnTime(first) ? assigned.inOwnTime() : assigned, timeS, events);
            inForce = new Assigned(OptionalDouble.of(first.feet()), inForce.speed());
        });
    }

    private void speeds(
            Clearance clearance,
            @Nullable AmendedRoute route,
            @Nullable FlightInstant here,
            double timeS,
            double flownS,
            List<FlightEvent> events) {
        List<InTurn<Instruction.Speed>> said = clearance.speeds();
        if (said.isEmpty()) {
            return;
        }
        if (route != null && !ChangeOvers.followed(said, route)) {
            noSpeed(timeS, events);
            return;
        }
        speeds.follow(said, clearance, route, flownS);
        InTurn.atOnce(said).ifPresent(first -> speed(first.assigned(presentKt(here)), timeS, events));
    }

    private static OptionalDouble presentKt(@Nullable FlightInstant here) {
        double nowKt = here == null ? Double.NaN : here.indicatedAirspeedKt();
        return Double.isNaN(nowKt) ? OptionalDouble.empty() : OptionalDouble.of(nowKt);
    }

    private void altitude(@Nullable AssignedWatch next, double timeS, List<FlightEvent> events) {
        finish(altitude, timeS, events);
        altitude = next;
    }

    private void speed(Optional<Instruction.MaintainSpeed> said, double timeS, List<FlightEvent> events) {
        finish(speed, timeS, events);
        speed = said.map(each -> AssignedWatch.speed(each, rules)).orElse(null);
        inForce = new Assigned(inForce.altitudeFt(), said);
    }

    /** Which altitude is in force cannot be told any more. */
    private void noAltitude(double timeS, List<FlightEvent> events) {
        altitude(null, timeS, events);
        altitudes.clear();
        inForce = new Assigned(OptionalDouble.empty(), inForce.speed());
    }

    /** Which speed is in force cannot be told any more. */
    private void noSpeed(double timeS, List<FlightEvent> events) {
        speed(Optional.empty(), timeS, events);
        speeds.clear();
    }

    /**
     * Whether the next altitude or speed is in force now.
     *
     * @param before the start of the step; null at the first, and across a break
     * @param now the end of the step
     * @param legs flown; null where none are
     * @param events of this step so far; takes the change-over
     */
    void changeOver(
            @Nullable FlightInstant before, FlightInstant now, @Nullable LegSequence legs, List<FlightEvent> events) {
        ChangeOverWatch climb = altitudes.watch;
        if (climb != null) {
            nextAltitude(climb, climb.step(before, now, legs, events), now, events);
        }
        ChangeOverWatch faster = speeds.watch;
        if (faster != null) {
            nextSpeed(faster, faster.step(before, now, legs, events), now, events);
        }
    }

    private void nextAltitude(
            ChangeOverWatch at, ChangeOverWatch.State state, FlightInstant now, List<FlightEvent> events) {
        if (state == ChangeOverWatch.State.AHEAD) {
            return;
        }
        Instruction.Maintain next = altitudes.next.getFirst().said();
        if (!altitudes.near) {
            altitudes.near = true;
            altitude(AssignedWatch.altitude(next.feet(), rules).inOwnTime(), now.timeS(), events);
        }
        if (state == ChangeOverWatch.State.LOST) {
            noAltitude(now.timeS(), events);
        } else if (state == ChangeOverWatch.State.PASSED) {
            AssignedWatch begun = altitude;
            if (begun != null && !altitudes.inOwnTime(next)) {
                begun.begins(rule.aroundS());
            }
            altitudes.passed(now.flownS());
            inForce = new Assigned(OptionalDouble.of(next.feet()), inForce.speed());
            events.add(new FlightEvent.ChangeOver(
                    timeS(at, now), at.words(), OptionalDouble.of(next.feet()), OptionalDouble.empty()));
        }
    }

    private void nextSpeed(
            ChangeOverWatch at, ChangeOverWatch.State state, FlightInstant now, List<FlightEvent> events) {
        if (state == ChangeOverWatch.State.AHEAD) {
            return;
        }
        Optional<Instruction.MaintainSpeed> next = speeds.next.getFirst().said().assigned(presentKt(now));
        if (!speeds.near) {
            speeds.near = true;
            finish(speed, now.timeS(), events);
            speed = next.map(each -> AssignedWatch.speed(each, rules).inOwnTime())
                    .orElse(null);
        }
        if (state == ChangeOverWatch.State.LOST) {
            noSpeed(now.timeS(), events);
        } else if (state == ChangeOverWatch.State.PASSED) {
            AssignedWatch begun = speed;
            if (begun != null) {
                begun.begins(rule.aroundS());
            }
            speeds.passed(now.flownS());
            inForce = new Assigned(inForce.altitudeFt(), next);
            events.add(new FlightEvent.ChangeOver(
                    timeS(at, now),
                    at.words(),
                    OptionalDouble.empty(),
                    next.stream().mapToDouble(Instruction.MaintainSpeed::knots).findFirst()));
        }
    }

    private static double timeS(ChangeOverWatch at, FlightInstant now) {
        return at.passedS() + now.timeS() - now.flownS();
    }

    /** A place with an altitude to have there is passed: what was to be reached there is due. */
    void crossed(double flownS) {
        if (altitude != null && !altitudes.near) {
            altitude.fallsDue(flownS);
        }
    }

    void step(FlightInstant now, List<FlightEvent> events) {
        if (speed != null) {
            speed.step(now, events);
        }
        if (altitude != null) {
            altitude.step(now, events);
        }
    }

    /** Across a gap or a pause. */
    void breakOff() {
        if (altitude != null) {
            altitude.breakOff();
        }
        if (speed != null) {
            speed.breakOff();
        }
        altitudes.breakOff();
        speeds.breakOff();
    }

    /** At the end, or when taken back: what is open is closed. */
    void finish(double timeS, List<FlightEvent> events) {
        finish(altitude, timeS, events);
        finish(speed, timeS, events);
    }

    private static void finish(@Nullable AssignedWatch watch, double timeS, List<FlightEvent> events) {
        if (watch != null) {
            watch.finish(timeS, events);
        }
    }

    /** Nothing is assigned any more. */
    void clear(double timeS, List<FlightEvent> events) {
        finish(timeS, events);
        altitude = null;
        speed = null;
        altitudes.clear();
        speeds.clear();
        inForce = Assigned.NOTHING;
    }
}
