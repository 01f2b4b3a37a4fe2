package org.rejoin.bridge.tracker;

import java.util.List;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import java.util.function.Function;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.clearance.Instruction;

import org.jspecify.annotations.Nullable;

/** An assigned altitude or speed: from when it is first reached, or should have been, until it is taken back. */
final class AssignedWatch {

    /** Time to react, seconds; common practice, no source. */
    private static final double REACTION_S = 10;

    /** The value is missing for this long: the feed has none, seconds; common practice, no source. */
    private static final double UNSEEN_S = 30;

    /** An event of this kind. */
    private interface Told {
        FlightEvent at(double timeS, double error);
    }

    /**
     * What is assigned.
     *
     * @param value as the feed has it
     * @param limit off by more than this is a deviation, whatever the grade allows
     * @param leastPerS least rate at which it may be expected to change
     * @param off how far an error counts, 0 or more
     * @param began a deviation
     * @param ended the same
     */
    private record Kind(
            Function<Moment, OptionalDouble> value,
            double limit,
            double leastPerS,
            DoubleUnaryOperator off,
            Told began,
            Told ended) {}

    /** 100 ft is fixed by the project's contract; 500 ft a minute is what ATC may expect (AIM 4-4-10). */
    private static final Kind ALTITUDE = new Kind(
            Moment::altitudeFt,
            100,
            500.0 / 60,
            Math::abs,
            FlightEvent.AltitudeDeviationBegan::new,
            (timeS, error) -> new FlightEvent.AltitudeDeviationEnded(timeS, error, true));

    /** Airspeed within 10 kt (FAA-S-ACS-8C, tolerances of IR.V); half a knot a second: common practice, no source. */
    private static Kind speed(DoubleUnaryOperator off) {
        return new Kind(
                Moment::indicatedAirspeedKt,
                10,
                0.5,
                off,
                FlightEvent.SpeedDeviationBegan::new,
                (timeS, error) -> new FlightEvent.SpeedDeviationEnded(timeS, error, true));
    }

    private final Kind kind;
    private final double assigned;
    private double beganS = Double.NaN;
    private double dueS = Double.NaN;
    private boolean reached;
    private boolean judged;
    private double judgedFromS = Double.NaN;
    private @Nullable Moment last;
    private boolean deviating;
    private double worst;

    private AssignedWatch(Kind kind, double assigned) {
        this.kind = kind;
        this.assigned = assigned;
    }

    /** An altitude to be reached and kept, feet. */
    static AssignedWatch altitude(double feet) {
        return new AssignedWatch(ALTITUDE, feet);
    }

    /** An indicated airspeed to be reached and kept, knots. */
    static AssignedWatch speed(Instruction.MaintainSpeed speed) {
        return new AssignedWatch(
                speed(
                        switch (speed.bound()) {
                            case EXACTLY -> Math::abs;
                            case OR_GREATER -> error -> Math.max(0, -error);
                            case OR_LESS -> error -> Math.max(0, error);
                        }),
                speed.knots());
    }

    /** The indicated airspeed of the moment, to be kept, knots. */
    static AssignedWatch presentSpeed(double knots) {
        return new AssignedWatch(speed(Math::abs), knots);
    }

    /** In its unit. */
    double assigned() {
        return assigned;
    }

    /** The same, to be reached anew. */
    AssignedWatch again() {
        return new AssignedWatch(kind, assigned);
    }

    /** Value less assigned, while it is judged; 0 on a side that does not count. */
    OptionalDouble error(Moment now) {
        OptionalDouble value = kind.value().apply(now);
        if (!judged || value.isEmpty()) {
            return OptionalDouble.empty();
        }
        double error = value.getAsDouble() - assigned;
        return OptionalDouble.of(Math.copySign(kind.off().applyAsDouble(error), error));
    }

    List<FlightEvent> step(Moment now) {
        Moment before = last;
        last = now;
        beganS = Double.isNaN(beganS) ? now.flownS() : beganS;
        OptionalDouble value = kind.value().apply(now);
        if (value.isEmpty()) {
            return List.of();
        }
        double error = value.getAsDouble() - assigned;
        double off = kind.off().applyAsDouble(error);
        reached |= off <= kind.limit();
        if (Double.isNaN(dueS)) {
            dueS = now.flownS() + REACTION_S + off / kind.leastPerS();
        }
        OptionalDouble valueBefore =
                before == null ? OptionalDouble.empty() : kind.value().apply(before);
        if (before == null || valueBefore.isEmpty()) {
            judge(off <= kind.limit(), now.flownS());
            return List.of();
        }
        if (!judged) {
            judge(off <= kind.limit(), now.flownS());
            judge(now.flownS() >= dueS, dueS);
            if (!judged || (off <= kind.limit() && now.flownS() < dueS)) {
                return List.of();
            }
        }
        double excessBefore = kind.off().applyAsDouble(valueBefore.getAsDouble() - assigned) - kind.limit();
        double fromS = Math.max(before.flownS(), Math.min(judgedFromS, now.flownS()));
        // Already off when judging begins: off from then.
        double atS = excessBefore > 0 && !deviating
                ? fromS
                : Hold.root(fromS, excessBefore, now.flownS(), off - kind.limit());
        double at = atS + now.timeS() - now.flownS();
        if (!deviating && off > kind.limit()) {
            deviating = true;
            worst = error;
            return List.of(kind.began().at(at, error));
        }
        if (deviating && off <= kind.limit()) {
            deviating = false;
            return List.of(kind.ended().at(at, worst));
        }
        if (deviating && Math.abs(error) > Math.abs(worst)) {
            worst = error;
        }
        return List.of();
    }

    private void judge(boolean begins, double fromS) {
        if (begins && !judged) {
            judged = true;
            judgedFromS = fromS;
        }
    }

    /** Whether it was reached, or cannot be told although there was time to reach it. */
    boolean done(Moment now) {
        return reached || (Double.isNaN(dueS) && now.flownS() > beganS + UNSEEN_S);
    }

    /** Across a gap nothing is concluded: an open deviation ends where the flight was last seen. */
    List<FlightEvent> breakOff() {
        Moment seenLast = last;
        last = null;
        if (!deviating || seenLast == null) {
            return List.of();
        }
        deviating = false;
        return List.of(kind.ended().at(seenLast.timeS(), worst));
    }
}
