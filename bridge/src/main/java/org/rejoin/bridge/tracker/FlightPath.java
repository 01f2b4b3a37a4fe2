package org.rejoin.bridge.tracker;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.ToDoubleBiFunction;

import org.rejoin.bridge.flight.FeedQuality;
import org.rejoin.bridge.flight.Rule;
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
 * true), measures means and rates over the same seconds whatever the sample rate, and splits long steps.
 */
final class FlightPath {

    /** No step handed to the detectors is longer, seconds. */
    private static final double LONGEST_STEP_S = 1;

    /** Track and speed from positions are measured over at least this, seconds. */
    private static final double MOTION_OVER_S = 1;

    /** Nearer than this nothing has moved, NM: four metres. */
    private static final double STILL_NM = 0.002;

    private record Past(double flownS, Position position) {}

    private final Rule.Rates rates;
    private final FeedQuality quality;
    private final ToDoubleBiFunction<Position, Double> variationEastDeg;
    private final Deque<Past> past = new ArrayDeque<>();
    private final Series track;
    private final Series nose;
    private @Nullable Moment last;
    private double knownTrackDeg = Double.NaN;
    private double lastHeadingDeg = Double.NaN;

    /**
     * A path.
     *
     * @param rates over how long they are measured
     * @param quality of the feed: how long a base a track from its positions needs
     * @param variationEastDeg today's variation at a place and altitude in feet
     */
    FlightPath(Rule.Rates rates, FeedQuality quality, ToDoubleBiFunction<Position, Double> variationEastDeg) {
        this.rates = rates;
        this.quality = quality;
        this.variationEastDeg = variationEastDeg;
        this.track = new Series(Math.max(rates.overS(), rates.longestBaseS()) + LONGEST_STEP_S);
        this.nose = new Series(rates.overS() + LONGEST_STEP_S);
    }

    @Nullable
    Moment last() {
        return last;
    }

    /** The moments from the last sample (excluded) to this one (included). */
    List<Moment> to(AircraftState state, double pausedS) {
        double flownS = state.timeS() - pausedS;
        Position position = new Position(state.latitudeDeg(), state.longitudeDeg());
        Motion motion = Motion.NONE;
        if (state.trackTrueDeg().isEmpty() || state.groundSpeedKt().isEmpty()) {
            motion = motion(position, flownS);
            past.addLast(new Past(flownS, position));
        }
        double direction = direction(state, motion);
        if (Double.isNaN(direction)) {
            // Positions only, and no motion yet: no direction to speak of.
            return List.of();
        }
        Moment before = last;
        knownTrackDeg = direction;
        Moment now = new Moment(
                state.timeS(),
                flownS,
                position,
                direction,
                direction,
                direction,
                direction,
                0,
                state.groundSpeedKt().orElse(motion.knots()),
                magnetic(state, position),
                state.altitudeMslFt(),
                state.indicatedAirspeedKt());
        follow(state, flownS, direction);
        now = measured(now);
        last = now;
        if (before == null) {
            return List.of(now);
        }
        int pieces = Math.max(1, (int) Math.ceil((now.flownS() - before.flownS()) / LONGEST_STEP_S - 1e-6));
        if (pieces == 1) {
            return List.of(now);
        }
        List<Moment> moments = new ArrayList<>(pieces);
        for (int i = 1; i < pieces; i++) {
            moments.add(measured(Moment.between(before, now, (double) i / pieces)));
        }
        moments.add(now);
        return moments;
    }

    private double direction(AircraftState state, Motion motion) {
        if (state.trackTrueDeg().isPresent()) {
            return state.trackTrueDeg().getAsDouble();
        }
        return Double.isNaN(motion.trackDeg()) ? state.headingTrueDeg().orElse(knownTrackDeg) : motion.trackDeg();
    }

    /** Counts track and nose on through north. */
    private void follow(AircraftState state, double flownS, double direction) {
        double turned = track.isEmpty() ? 0 : Angles.turn(direction - track.last());
        double heading =
                state.headingTrueDeg().orElse(state.headingMagneticDeg().orElse(Double.NaN));
        double swung =
                Double.isNaN(heading) || Double.isNaN(lastHeadingDeg) ? turned : Angles.turn(heading - lastHeadingDeg);
        nose.add(flownS, nose.isEmpty() ? (Double.isNaN(heading) ? direction : heading) : nose.last() + swung);
        lastHeadingDeg = Double.isNaN(heading) ? lastHeadingDeg + turned : heading;
        track.add(flownS, track.isEmpty() ? direction : track.last() + turned);
    }

    private Moment measured(Moment at) {
        double overS = rates.overS();
        double trackOverS = Math.max(overS, baseS());
        return at.measured(
                Angles.circle(track.mean(at.flownS(), trackOverS)),
                nose.at(at.flownS()),
                nose.mean(at.flownS(), overS),
                nose.rate(at.flownS(), overS));
    }

    private double baseS() {
        return Math.min(rates.longestBaseS(), Math.max(MOTION_OVER_S, quality.trackBaseS()));
    }

    /** Over the ground, by positions a while apart; NaN and 0 while the aircraft has not moved. */
    private record Motion(double trackDeg, double knots) {
        static final Motion NONE = new Motion(Double.NaN, 0);
    }

    private Motion motion(Position position, double flownS) {
        double wantedS = flownS - baseS() + 1e-6;
        Past from = past.peekFirst();
        while (past.size() > 1) {
            Past oldest = past.removeFirst();
            if (past.getFirst().flownS() > wantedS) {
                past.addFirst(oldest);
                from = oldest;
                break;
            }
            from = past.getFirst();
        }
        if (from == null || flownS <= from.flownS()) {
            return Motion.NONE;
        }
        Geodesics.Inverse way = from.position().to(position);
        return way.distanceNm() > STILL_NM
                ? new Motion(way.onward().deg(), way.distanceNm() / (flownS - from.flownS()) * 3600)
                : Motion.NONE;
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
        track.clear();
        nose.clear();
        lastHeadingDeg = Double.NaN;
        last = null;
    }
}
