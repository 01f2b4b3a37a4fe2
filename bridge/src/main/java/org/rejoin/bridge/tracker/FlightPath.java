package org.rejoin.bridge.tracker;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.ToDoubleBiFunction;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Variation;
import org.rejoin.protocol.AircraftState;

import org.jspecify.annotations.Nullable;

/**
 * From samples to moments: fills in what the feed leaves out (track and speed from positions, magnetic heading from
 * true), measures the rate of turn over two seconds whatever the sample rate, and splits long steps.
 */
final class FlightPath {

    /** No step handed to the detectors is longer, seconds. */
    private static final double LONGEST_STEP_S = 1;

    /** The rate of turn is measured over this, seconds. */
    private static final double RATE_OVER_S = 2;

    /** Track and speed from positions are measured over at least this, seconds. */
    private static final double MOTION_OVER_S = 1;

    private record Past(double flownS, double unwrappedTrackDeg, Position position) {}

    private final ToDoubleBiFunction<Position, Double> variationEastDeg;
    private final Deque<Past> past = new ArrayDeque<>();
    private @Nullable Moment last;
    private double knownTrackDeg = Double.NaN;
    private @Nullable Past unaimed;

    /**
     * A path.
     *
     * @param variationEastDeg today's variation at a place and altitude in feet
     */
    FlightPath(ToDoubleBiFunction<Position, Double> variationEastDeg) {
        this.variationEastDeg = variationEastDeg;
    }

    @Nullable
    Moment last() {
        return last;
    }

    /** The moments from the last sample (excluded) to this one (included). */
    List<Moment> to(AircraftState state, double pausedS) {
        double flownS = state.timeS() - pausedS;
        Position position = new Position(state.latitudeDeg(), state.longitudeDeg());
        boolean sent = state.trackTrueDeg().isPresent() && state.groundSpeedKt().isPresent();
        Motion motion = sent ? Motion.NONE : motion(position, flownS);
        Moment before = last;
        double track = state.trackTrueDeg()
                .orElseGet(() -> Double.isNaN(motion.trackDeg())
                        ? state.headingTrueDeg().orElse(knownTrackDeg)
                        : motion.trackDeg());
        if (Double.isNaN(track)) {
            // Positions only, and no motion yet: no direction to speak of.
            unaimed = unaimed == null ? new Past(flownS, Double.NaN, position) : unaimed;
            return List.of();
        }
        knownTrackDeg = track;
        double speed = state.groundSpeedKt().orElse(motion.knots());
        double unwrapped = past.isEmpty()
                ? track
                : past.getLast().unwrappedTrackDeg()
                        + Angles.turn(track - Angles.circle(past.getLast().unwrappedTrackDeg()));
        double rate = rate(flownS, unwrapped);
        past.addLast(new Past(flownS, unwrapped, position));
        forgetBefore(flownS - RATE_OVER_S);
        Moment now = new Moment(
                state.timeS(),
                flownS,
                position,
                track,
                rate,
                speed,
                magnetic(state, position),
                state.altitudeMslFt(),
                state.indicatedAirspeedKt());
        last = now;
        if (before == null) {
            return List.of(now);
        }
        int pieces = Math.max(1, (int) Math.ceil((now.flownS() - before.flownS()) / LONGEST_STEP_S - 1e-6));
        List<Moment> moments = new ArrayList<>(pieces);
        for (int i = 1; i < pieces; i++) {
            moments.add(Moment.between(before, now, (double) i / pieces));
        }
        moments.add(now);
        return moments;
    }

    /** Keeps the last sample before a time, and what follows. */
    private void forgetBefore(double wantedS) {
        while (past.size() > 2) {
            Past first = past.removeFirst();
            if (past.getFirst().flownS() > wantedS) {
                past.addFirst(first);
                return;
            }
        }
    }

    /** Over the ground, by positions a while apart; NaN and 0 while the aircraft has not moved. */
    private record Motion(double trackDeg, double knots) {
        static final Motion NONE = new Motion(Double.NaN, 0);
    }

    private Motion motion(Position position, double flownS) {
        Past from = null;
        for (Past each : past) {
            if (each.flownS() <= flownS - MOTION_OVER_S || from == null) {
                from = each;
            }
        }
        from = from == null ? unaimed : from;
        if (from == null || flownS <= from.flownS()) {
            return Motion.NONE;
        }
        Geodesics.Inverse way = from.position().to(position);
        return way.distanceNm() > 0.002
                ? new Motion(way.onward().deg(), way.distanceNm() / (flownS - from.flownS()) * 3600)
                : Motion.NONE;
    }

    private double rate(double flownS, double unwrapped) {
        double wanted = flownS - RATE_OVER_S;
        Past older = null;
        for (Past each : past) {
            if (each.flownS() <= wanted) {
                older = each;
            } else if (older != null) {
                double share = (wanted - older.flownS()) / (each.flownS() - older.flownS());
                double then =
                        older.unwrappedTrackDeg() + (each.unwrappedTrackDeg() - older.unwrappedTrackDeg()) * share;
                return (unwrapped - then) / RATE_OVER_S;
            } else {
                break;
            }
        }
        if (past.isEmpty()) {
            return 0;
        }
        Past from = older == null ? past.getFirst() : older;
        return (unwrapped - from.unwrappedTrackDeg()) / Math.max(flownS - from.flownS(), 0.1);
    }

    private OptionalDouble magnetic(AircraftState state, Position position) {
        if (state.headingMagneticDeg().isPresent() || state.headingTrueDeg().isEmpty()) {
            return state.headingMagneticDeg();
        }
        Variation variation = new Variation(
                variationEastDeg.applyAsDouble(position, state.altitudeMslFt().orElse(0)));
        MagneticDirection magnetic = new TrueDirection(state.headingTrueDeg().getAsDouble()).toMagnetic(variation);
        return OptionalDouble.of(magnetic.deg());
    }

    /** Starts anew at the next sample. */
    void breakOff() {
        past.clear();
        unaimed = null;
        last = null;
    }
}
