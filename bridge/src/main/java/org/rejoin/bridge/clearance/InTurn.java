package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * One of several altitudes or speeds that a clearance assigns one after the other: "maintain 8000 until PRION, then climb
 * and maintain 10000".
 *
 * @param from where or when it comes into force; empty for at once
 * @param said what is assigned from there
 * @param <T> an altitude or a speed
 */
public record InTurn<T extends Instruction>(Optional<When> from, T said) {

    /** The altitudes in the order in which they are in force. */
    public static List<InTurn<Instruction.Maintain>> altitudes(List<Instruction> instructions) {
        Turns<Instruction.Maintain> turns = new Turns<>(Instruction.Maintain.class, Noted.Until.What.ALTITUDE);
        turns.take(instructions);
        return turns.all;
    }

    /** The speeds likewise; a speed that ends somewhere, with none after it, is followed by a normal one. */
    public static List<InTurn<Instruction.Speed>> speeds(List<Instruction> instructions) {
        Turns<Instruction.Speed> turns = new Turns<>(Instruction.Speed.class, Noted.Until.What.SPEED);
        turns.take(instructions);
        turns.ends
                .filter(end -> !(end instanceof When.Advised))
                .ifPresent(end -> turns.all.add(new InTurn<>(Optional.of(end), new Instruction.ResumeNormalSpeed())));
        return turns.all;
    }

    /**
     * A crossing as the place from which another altitude or speed may be in force: "cross PRION at or above 8000, then
     * descend and maintain 6000" (FAA Order JO 7110.65, 4-5-7).
     */
    public record Crossed(When where, double feet, Instruction.CrossAt.Bound bound) {

        /** The altitude that keeps it and is nearest to another, feet above mean sea level. */
        public double nearestFt(double altitudeFt) {
            return bound.nearestFt(feet, altitudeFt);
        }

        /** Whether an altitude said behind it, with no "then", cannot be in force before it. */
        private boolean isBefore(Instruction.Maintain said) {
            boolean same = said.feet() == feet;
            boolean within = nearestFt(said.feet()) == said.feet();
            return said.when() == Instruction.Maintain.Begin.NOW
                    && said.levelBy().isEmpty()
                    && !same
                    && (!within || said.vertical() != Instruction.Maintain.Vertical.UNSAID);
        }
    }

    /** The crossing that an instruction asks for; empty where it asks for none. */
    public static Optional<Crossed> crossed(Instruction said) {
        if (said instanceof Instruction.CrossAt cross) {
            When where = cross.before()
                    .<When>map(away -> new When.Beside(cross.fix(), away))
                    .orElseGet(() -> new When.AtLine(new Instruction.Until.AtFix(cross.fix())));
            return Optional.of(new Crossed(where, cross.feet(), cross.bound()));
        }
        return said instanceof Noted.CrossLevel cross
                ? Optional.of(new Crossed(cross.where(), cross.feet(), cross.bound()))
                : Optional.empty();
    }

    /** What is in force at once; empty where nothing is said, or the first one comes into force later too. */
    public static <T extends Instruction> Optional<T> atOnce(List<InTurn<T>> all) {
        return all.isEmpty() || all.get(0).from().isPresent()
                ? Optional.empty()
                : Optional.of(all.get(0).said());
    }

    /** How many come into force later and say a value; a normal speed that follows the last does not. */
    public static int later(List<? extends InTurn<?>> all) {
        return (int) all.stream()
                .filter(each -> each.from().isPresent() && !(each.said() instanceof Instruction.ResumeNormalSpeed))
                .count();
    }

    /**
     * Whether it says where an altitude or a speed ends, what is assigned from a place on, which way to turn onto the line
     * that is said next, what no longer holds, which fix is left out, or where the route is joined at the latest: followed, each with the next.
     */
    public static boolean says(Noted said) {
        return end(said, Noted.Until.What.ALTITUDE).isPresent()
                || end(said, Noted.Until.What.SPEED).isPresent()
                || said instanceof Noted.TurnOnto
                || said instanceof Noted.LeftOut
                || said instanceof Noted.JoinedWithin
                || (said instanceof Noted.RouteBy by && !(by.when() instanceof When.AtTime))
                || (said instanceof Noted.Lifted lifted && lifted.isFollowed())
                || (said instanceof Noted.After after
                        && after.then().stream()
                                .allMatch(then -> then instanceof Instruction.Maintain
                                        || then instanceof Instruction.Speed
                                        || (then instanceof Noted noted && says(noted))));
    }

    /** Where or when something of this kind ends; empty where it does not say so. */
    public static Optional<When> end(Instruction said, Noted.Until.What what) {
        if (said instanceof Noted.Until until && until.what() == what) {
            return Optional.of(until.when());
        }
        if (what == Noted.Until.What.ALTITUDE && said instanceof Noted.EstablishedOn on) {
            return Optional.of(new When.Established(Optional.of(on.line())));
        }
        return Optional.empty();
    }

    private static final class Turns<T extends Instruction> {

        private final Class<T> kind;
        private final Noted.Until.What what;
        private final List<InTurn<T>> all = new ArrayList<>();
        private Optional<When> ends = Optional.empty();
        private Optional<Crossed> crossing = Optional.empty();

        /** Whether up to where it ends only a lowest or a highest altitude is said. */
        private boolean floor;

        Turns(Class<T> kind, Noted.Until.What what) {
            this.kind = kind;
            this.what = what;
        }

        void take(List<Instruction> instructions) {
            for (Instruction each : instructions) {
                if (kind.isInstance(each)) {
                    add(kind.cast(each));
                } else if (each instanceof Noted.Lifted lifted) {
                    lifted(lifted);
                } else if (each instanceof Noted.After after) {
                    Turns<T> then = new Turns<>(kind, what);
                    then.take(after.then());
                    for (InTurn<T> later : then.all) {
                        all.add(
                                later.from().isPresent()
                                        ? later
                                        : new InTurn<>(Optional.of(after.when()), later.said()));
                    }
                    ends = then.all.isEmpty() ? ends : then.ends;
                } else {
                    floor |= what == Noted.Until.What.ALTITUDE && each instanceof Noted.Bounded;
                    ends = end(each, what).or(() -> ends);
                    crossing = crossed(each).or(() -> crossing);
                }
            }
        }

        /** "Delete speed restrictions" is "resume normal speed" in other words (FAA Order JO 7110.65, 5-7-4). */
        private void lifted(Noted.Lifted said) {
            boolean speed = said.what() == Noted.Lifted.Kind.SPEED && said.at().isEmpty();
            if (speed && what == Noted.Until.What.SPEED) {
                add(kind.cast(new Instruction.ResumeNormalSpeed()));
            }
        }

        /** What is said after one that does not end counts in its place. */
        private void add(T said) {
            Optional<When> after = crossing.filter(
                            at -> said instanceof Instruction.Maintain maintain && at.isBefore(maintain))
                    .map(Crossed::where);
            if (ends.isEmpty() && after.isPresent()) {
                all.add(new InTurn<>(after, said));
                crossing = Optional.empty();
            } else if (!all.isEmpty() && ends.isEmpty()) {
                InTurn<T> before = all.remove(all.size() - 1);
                all.add(new InTurn<>(before.from(), said));
            } else {
                all.add(new InTurn<>(all.isEmpty() && !floor ? Optional.empty() : ends, said));
            }
            ends = said instanceof Instruction.Maintain maintain && maintain.untilEstablished()
                    ? Optional.of(new When.Established(Optional.empty()))
                    : Optional.empty();
        }
    }
}
