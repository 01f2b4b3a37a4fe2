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
import org.rejoin.bridge.clearance.When;
import org.rejoin.bridge.flight.Assigned;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Point;
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
    private final Trend climbing = new Trend();
    private final Trend speeding = new Trend();
    private Assigned inForce = Assigned.NOTHING;
    private @Nullable Restriction restriction;

    Assignments(Rules rules) {
        this.rules = rules;
        this.rule = rules.of(Rule.ChangeOver.class);
    }

    /**
     * A crossing ahead that the altitude in force would break.
     *
     * @param crossing ahead
     * @param of the altitude that it restricts
     * @param onTheWay whether its altitude lies on the way to the one in force, which is flown on to behind it
     */
    private record Restriction(CrossingWatch crossing, AssignedWatch of, boolean onTheWay) {}

    /** How an altitude or a speed has changed of late. */
    private static final class Trend {

        /** Over this, seconds. */
        private static final double OVER_S = 6;

        private final Series series = new Series(OVER_S);
        private double lastS = Double.NEGATIVE_INFINITY;

        void add(FlightInstant now, double value, boolean carried) {
            if (Double.isNaN(value)) {
                series.clear();
            } else if (!carried && now.flownS() > lastS) {
                series.add(now.flownS(), value);
                lastS = now.flownS();
            }
        }

        /** Whether the feed has ever sent it. */
        boolean seen() {
            return Double.isFinite(lastS);
        }

        double perS() {
            return series.isEmpty() ? 0 : series.rate(lastS, OVER_S);
        }
    }

    /** What comes into force later. */
    private final class Later<T extends Instruction> {

        private final Deque<InTurn<T>> next = new ArrayDeque<>();
        private @Nullable Clearance clearance;
        private @Nullable AmendedRoute route;
        private @Nullable ChangeOverWatch watch;
        private boolean near;
        private boolean turned;

        void clear() {
            next.clear();
            watch = null;
            near = false;
            turned = false;
        }

        /** Whether one is still to come that the route or the clearance cannot be over without. */
        boolean toCome() {
            return watch != null
                    && (watch.isOfRoute() || !(next.getLast().said() instanceof Instruction.ResumeNormalSpeed));
        }

        /** Whether one of a value is still to come. */
        boolean toCome(Instruction said) {
            return next.stream().anyMatch(each -> each.said().equals(said));
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
            turned = true;
            watchNext(flownS);
        }

        void watchNext(double flownS) {
            near = false;
            watch = next.isEmpty()
                    ? null
                    : new ChangeOverWatch(
                            next.getFirst().from().orElseThrow(), route, flownS, rule, Assignments.this::reachedS);
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

    /** Whether another altitude or speed is to be in force before the amendment is over. */
    boolean goOn() {
        return altitudes.toCome() || speeds.toCome();
    }

    /**
     * The altitude or speed in force that was said with the amendment, and has not been reached; of several in turn the one
     * that took the place of another, until it is judged. Null where there is none.
     */
    @Nullable
    AssignedWatch toReach() {
        AssignedWatch high = altitude;
        if (high != null && (altitudes.turned ? !high.settled() : climbing.seen() && high.awaited())) {
            return high;
        }
        // A feed without airspeed has no more to come.
        AssignedWatch fast = speed;
        return fast != null && speeding.seen() && (speeds.turned ? !fast.settled() : fast.awaited()) ? fast : null;
    }

    /** Whether what was said with the amendment was reached, and how it is kept cannot be told yet. */
    boolean justReached(FlightInstant now, double judgedS) {
        AssignedWatch high = altitude;
        AssignedWatch fast = speed;
        return (high != null && high.justReached(now, judgedS)) || (fast != null && fast.justReached(now, judgedS));
    }

    /** An amendment begins: what was assigned before is no part of it. */
    void nextAmendment() {
        if (altitude != null) {
            altitude.ofAmendment(false);
        }
        if (speed != null) {
            speed.ofAmendment(false);
        }
    }

    /** What is said before "then": when it was reached or should have been; at once where it is not asked for any more. */
    private double reachedS(When.Reached said, FlightInstant now) {
        AssignedWatch first = said.altitude() ? altitude : speed;
        Later<?> later = said.altitude() ? altitudes : speeds;
        if (later.toCome(said.said())) {
            return Double.POSITIVE_INFINITY;
        }
        boolean inForceNow = first != null
                && !later.near
                && (said.said() instanceof Instruction.Maintain maintain
                        ? first.assigned() == maintain.feet()
                        : said.said() instanceof Instruction.MaintainSpeed speedSaid
                                && first.assigned() == speedSaid.knots());
        if (first == null || !inForceNow) {
            return now.flownS();
        }
        double reached = first.reachedOrDueS(now);
        // "Climb now to 9000, then at pilot's discretion": the second takes the place of the first, which is still
        // owed.
        boolean inItsPlace = !later.next.isEmpty()
                && later.next.getFirst().from().filter(said::equals).isPresent();
        return inItsPlace && !first.done() ? Double.POSITIVE_INFINITY : reached;
    }

    private AssignedWatch watchFor(double feet) {
        return AssignedWatch.altitude(feet, rules).moving(climbing.perS());
    }

    private AssignedWatch watchFor(Instruction.MaintainSpeed said) {
        return AssignedWatch.speed(said, rules).moving(speeding.perS());
    }

    /** What was assigned before the aircraft was moved, to be reached anew. */
    void carry(Assigned before) {
        before.altitudeFt().ifPresent(feet -> altitude = watchFor(feet));
        before.speed().ifPresent(said -> speed = watchFor(said));
        inForce = before;
    }

    /**
     * What was assigned before, to be reached anew, by the clearances that stand, in the order issued; what is the same
     * goes on.
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
                AssignedWatch again = watchFor(feet);
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
            speed = before.speed().map(this::watchFor).orElse(null);
        }
        inForce = before;
    }

    /**
     * What a clearance assigns, each with a fair time to reach it, on a route or, without one, on the filed one; a
     * deviation from the one before is over.
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
        if (clearance.leavesAltitudeOpen()) {
            noAltitude(timeS, events);
        }
        if (said.isEmpty()) {
            return;
        }
        boolean followed = route == null || ChangeOvers.followed(said, route);
        if (!followed) {
            noAltitude(timeS, events);
            return;
        }
        altitudes.follow(said, clearance, route, flownS);
        if (isLeftFor(said.get(0), clearance)) {
            altitude(null, timeS, events);
        }
        InTurn.atOnce(said).ifPresent(first -> {
            AssignedWatch assigned = watchFor(first.feet()).ofAmendment(true);
            altitude(clearance.inOwnTime(first) ? assigned.inOwnTime() : assigned, timeS, events);
            inForce = new Assigned(OptionalDouble.of(first.feet()), inForce.speed());
        });
    }

    /** Up to a crossing that comes before it the altitude is the pilot's, but for one that is held to the crossing itself. */
    private boolean isLeftFor(InTurn<Instruction.Maintain> first, Clearance clearance) {
        OptionalDouble kept = inForce.altitudeFt();
        return clearance.instructions().stream()
                .flatMap(each -> InTurn.crossed(each).stream())
                .anyMatch(crossed -> first.from().equals(Optional.of(crossed.where()))
                        && !kept.equals(OptionalDouble.of(crossed.feet())));
    }

    private void speeds(
            Clearance clearance,
            @Nullable AmendedRoute route,
            @Nullable FlightInstant here,
            double timeS,
            double flownS,
            List<FlightEvent> events) {
        List<InTurn<Instruction.Speed>> said = clearance.speeds();
        if (clearance.leavesSpeedOpen()) {
            noSpeed(timeS, events);
        }
        if (said.isEmpty()) {
            return;
        }
        if (route != null && !ChangeOvers.followed(said, route)) {
            noSpeed(timeS, events);
            return;
        }
        speeds.follow(said, clearance, route, flownS);
        InTurn.atOnce(said).ifPresent(first -> speed(first.assigned(presentKt(here)), timeS, events));
        if (speed != null) {
            speed.ofAmendment(true);
        }
    }

    private static OptionalDouble presentKt(@Nullable FlightInstant here) {
        return Point.given(here == null ? Double.NaN : here.state().indicatedAirspeedKtOrNaN());
    }

    private void altitude(@Nullable AssignedWatch next, double timeS, List<FlightEvent> events) {
        finish(altitude, timeS, events);
        altitude = next;
    }

    private void speed(Optional<Instruction.MaintainSpeed> said, double timeS, List<FlightEvent> events) {
        finish(speed, timeS, events);
        speed = said.map(this::watchFor).orElse(null);
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

    /** Whether the next altitude or speed is in force now. */
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
            altitude(watchFor(next.feet()).inOwnTime().ofAmendment(true), now.timeS(), events);
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
                    now.timeAt(at.passedS()), at.words(), OptionalDouble.of(next.feet()), OptionalDouble.empty()));
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
            speed = next.map(each -> watchFor(each).inOwnTime().ofAmendment(true))
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
                    now.timeAt(at.passedS()),
                    at.words(),
                    OptionalDouble.empty(),
                    next.stream().mapToDouble(Instruction.MaintainSpeed::knots).findFirst()));
        }
    }

    /**
     * Nobody can be at the altitude in force and keep to a crossing ahead that it would break: until that is passed what
     * lies between the two is as good, and of a descent, to any crossing on its way, what lies above. AIM 4-4-10; FAA Order
     * JO 7110.65, 4-5-7.
     *
     * @param crossings to be made, and those made
     */
    void restrictedBy(List<CrossingWatch> crossings, FlightInstant now, List<FlightEvent> events) {
        Restriction before = restriction;
        if (before != null && before.of() == altitude) {
            if (!before.crossing().passed() && crossings.contains(before.crossing())) {
                return;
            }
            boolean kept = before.crossing().passed() && !before.onTheWay();
            restriction = null;
            if (!kept) {
                AssignedWatch of = before.of();
                AssignedWatch again = watchFor(of.assigned()).ofAmendment(of.ofAmendment());
                altitude(of.isInOwnTime() ? again.inOwnTime() : again, now.timeS(), events);
            }
        }
        AssignedWatch watch = altitude;
        if (watch == null || altitudes.near || crossings.isEmpty()) {
            return;
        }
        for (CrossingWatch crossing : crossings) {
            boolean breaks = crossing.said().nearestFt(watch.assigned()) != watch.assigned();
            if (!crossing.passed() && (breaks || isOnTheWayDown(crossing.said(), watch, now))) {
                restrict(watch, crossing, now);
                return;
            }
        }
    }

    /**
     * "Cross at or below" on the way down breaks no altitude, and leaves the descent to the pilot as far as the place all the
     * same: AIM 4-4-10.
     */
    private static boolean isOnTheWayDown(Instruction.CrossAt said, AssignedWatch watch, FlightInstant now) {
        return !watch.isInOwnTime()
                && !watch.done()
                && said.feet() > watch.assigned()
                && now.altitudeFt() > said.feet();
    }

    private void restrict(AssignedWatch watch, CrossingWatch crossing, FlightInstant now) {
        double there = crossing.said().feet();
        double behind = watch.assigned();
        double way = Math.signum(there - behind);
        boolean onTheWay = (now.altitudeFt() - there) * way
                >= -rules.of(Rule.Altitude.class).limitFt();
        // A descent is at the pilot's discretion up to a crossing on its way: Instrument Procedures Handbook,
        // FAA-H-8083-16, of descent clearances; AIM 4-4-10.
        boolean toOneEnd = onTheWay ? way < 0 : crossing.said().bound() == Instruction.CrossAt.Bound.AT;
        double far = toOneEnd ? there : way * Double.POSITIVE_INFINITY;
        watch.between(Math.min(behind, far), Math.max(behind, far));
        restriction = new Restriction(crossing, watch, onTheWay);
    }

    /** A place with an altitude to have there is passed: where it is the one to be reached, that is due. */
    void crossed(Instruction.CrossAt said, double flownS) {
        if (altitude != null && !altitudes.near && altitude.assigned() == said.feet()) {
            altitude.fallsDue(flownS);
        }
    }

    /** Altitude less assigned, feet, while one is judged; else NaN. */
    double altitudeErrorFt() {
        return altitude == null ? Double.NaN : altitude.errorNow();
    }

    /** Indicated airspeed less assigned, knots, while one is judged; else NaN. */
    double speedErrorKt() {
        return speed == null ? Double.NaN : speed.errorNow();
    }

    void step(FlightInstant now, List<FlightEvent> events) {
        climbing.add(now, now.altitudeFt(), now.state().altitudeCarried());
        speeding.add(now, now.state().indicatedAirspeedKtOrNaN(), now.state().airspeedCarried());
        if (speed != null) {
            speed.step(now, events);
        }
        if (altitude != null) {
            altitude.step(now, events);
        }
    }

    /** Across a gap or a pause. */
    void breakOff() {
        climbing.series.clear();
        speeding.series.clear();
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
