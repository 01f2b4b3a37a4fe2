package org.rejoin.bridge.tracker;

import java.util.ArrayDeque;
import java.util.Deque;

import org.rejoin.bridge.flight.FeedQuality;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.geo.VariationMap;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.earth.Normal;

import org.jspecify.annotations.Nullable;

/**
 * From samples to instants: fills in what the feed leaves out (track and speed from positions, magnetic heading from
 * true), measures means and rates over the same seconds whatever the sample rate, and splits long steps.
 */
final class FlightPath {

    /** No step handed to the detectors is longer, seconds. */
    private static final double LONGEST_STEP_S = 1;

    /** Track and speed from positions are measured over at least this, seconds. */
    private static final double MOTION_OVER_S = 1;

    /** Nearer than this nothing has moved, NM: four metres. */
    private static final double STILL_NM = 0.002;

    /** Set to another direction than this while it stood, it is another flight, degrees: standard turns of three seconds. */
    private static final double SAME_DIRECTION_DEG = 10;

    private record Past(double flownS, Normal normal) {}

    private final Rule.Rates rates;
    private final FeedQuality quality;
    private final VariationMap variation;
    private final Deque<Past> past = new ArrayDeque<>();
    private final Series track;
    private final Series nose;
    /** Where the flight was last seen: the one home of the moment before. */
    private @Nullable FlightInstant seen;

    private boolean broken;
    private double lastHeadingDeg = Double.NaN;
    private double stoodFromS = Double.NaN;

    /** A path. */
    FlightPath(Rule.Rates rates, FeedQuality quality, VariationMap variation) {
        this.rates = rates;
        this.quality = quality;
        this.variation = variation;
        this.track = new Series(Math.max(rates.overS(), rates.longestBaseS()) + LONGEST_STEP_S);
        this.nose = new Series(rates.overS() + LONGEST_STEP_S);
    }

    /** Takes the steps of a flight, one after the other. */
    @FunctionalInterface
    interface Steps {

        /**
         * Takes a step.
         *
         * @param before its start; null at the first, and across a break, from which nothing is concluded
         */
        void step(@Nullable FlightInstant before, FlightInstant now);
    }

    /** Where the flight stands: from here the next step begins; null before the first sample, and where it was broken off. */
    @Nullable
    FlightInstant last() {
        return broken ? null : seen;
    }

    /** Where the flight was last seen, broken off since or not; null before the first sample. */
    @Nullable
    FlightInstant seen() {
        return seen;
    }

    /**
     * Takes the next sample.
     *
     * @param state later than the last
     * @param pausedS for how long the simulation has stood still so far
     * @param steps takes the way from the last sample to this one
     */
    void to(AircraftState state, double pausedS, Steps steps) {
        double flownS = state.timeS() - pausedS;
        boolean motionSent = !Double.isNaN(state.trackTrueDegOrNaN()) && !Double.isNaN(state.groundSpeedKtOrNaN());
        Motion motion = motionSent ? Motion.NONE : motion(state.place().normal(), flownS);
        double direction = direction(state, motion);
        if (Double.isNaN(direction)) {
            // Positions only, and no motion yet: no direction to speak of.
            return;
        }
        FlightInstant from = last();
        follow(state, flownS, direction);
        double speedKt = state.groundSpeedKtOrNaN();
        FlightInstant now =
                instant(state, flownS, direction, Double.isNaN(speedKt) ? motion.knots() : speedKt, magneticDeg(state));
        seen = now;
        broken = false;
        FlightInstant before = from;
        if (from != null) {
            int pieces = (int) Math.ceil((flownS - from.flownS()) / LONGEST_STEP_S - 1e-6);
            for (int i = 1; i < pieces; i++) {
                FlightInstant on = FlightInstant.between(from, now, (double) i / pieces);
                FlightInstant piece =
                        instant(on.state(), on.flownS(), on.trackDeg(), on.groundSpeedKt(), on.headingMagneticDeg());
                steps.step(before, piece);
                before = piece;
            }
        }
        steps.step(before, now);
    }

    private double direction(AircraftState state, Motion motion) {
        double sentDeg = state.trackTrueDegOrNaN();
        if (!Double.isNaN(sentDeg)) {
            return sentDeg;
        }
        double headingDeg = state.headingTrueDegOrNaN();
        double knownDeg = seen == null ? Double.NaN : seen.trackDeg();
        double toldDeg = Double.isNaN(headingDeg) ? knownDeg : headingDeg;
        return Double.isNaN(motion.trackDeg()) ? toldDeg : motion.trackDeg();
    }

    /** Counts track and nose on through north. */
    private void follow(AircraftState state, double flownS, double direction) {
        double turned = track.isEmpty() ? 0 : Angles.turn(direction - track.last());
        double trueDeg = state.headingTrueDegOrNaN();
        double heading =
                state.headingCarried() ? Double.NaN : Double.isNaN(trueDeg) ? state.headingMagneticDegOrNaN() : trueDeg;
        double swung =
                Double.isNaN(heading) || Double.isNaN(lastHeadingDeg) ? turned : Angles.turn(heading - lastHeadingDeg);
        if (!Double.isNaN(stoodFromS)
                && !(Turn.knownFromItsEnds(turned, flownS - stoodFromS)
                        && Turn.knownFromItsEnds(swung, flownS - stoodFromS))) {
            // Set to another direction while it stood.
            track.clear();
            nose.clear();
        }
        stoodFromS = Double.NaN;
        nose.add(flownS, nose.isEmpty() ? noseDeg(state, direction) : nose.last() + swung);
        lastHeadingDeg = Double.isNaN(heading) ? lastHeadingDeg + turned : heading;
        track.add(flownS, track.isEmpty() ? direction : track.last() + turned);
    }

    /** Where the nose points, true; the track where there is no heading. */
    private double noseDeg(AircraftState state, double direction) {
        double trueDeg = state.headingTrueDegOrNaN();
        double magneticDeg = state.headingMagneticDegOrNaN();
        if (!Double.isNaN(trueDeg) || Double.isNaN(magneticDeg)) {
            return Double.isNaN(trueDeg) ? direction : trueDeg;
        }
        return magneticDeg + variationEastDeg(state);
    }

    private double variationEastDeg(AircraftState state) {
        double altitudeFt = state.altitudeMslFtOrNaN();
        return variation.eastDegAt(state.place(), Double.isNaN(altitudeFt) ? 0 : altitudeFt);
    }

    /** An instant, with what is measured over the last seconds. */
    private FlightInstant instant(
            AircraftState state, double flownS, double trackDeg, double groundSpeedKt, double headingMagneticDeg) {
        return new FlightInstant(
                state,
                flownS,
                trackDeg,
                Angles.circle(track.mean(flownS, Math.max(rates.overS(), baseS()))),
                nose.at(flownS),
                nose.mean(flownS, rates.overS()),
                nose.rate(flownS, rates.overS()),
                Math.min(rates.overS(), flownS - nose.firstS()),
                groundSpeedKt,
                headingMagneticDeg);
    }

    private double baseS() {
        return Math.min(rates.longestBaseS(), Math.max(MOTION_OVER_S, quality.trackBaseS()));
    }

    /** Over the ground, by positions a while apart; NaN and 0 while the aircraft has not moved. */
    private record Motion(double trackDeg, double knots) {
        static final Motion NONE = new Motion(Double.NaN, 0);
    }

    private Motion motion(Normal here, double flownS) {
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
        past.addLast(new Past(flownS, here));
        if (from == null || flownS <= from.flownS()) {
            return Motion.NONE;
        }
        Geodesics.Inverse way = Geodesics.between(from.normal(), here);
        return way.distanceNm() > STILL_NM
                ? new Motion(way.onward().deg(), way.distanceNm() / (flownS - from.flownS()) * 3600)
                : Motion.NONE;
    }

    private double magneticDeg(AircraftState state) {
        double trueDeg = state.headingTrueDegOrNaN();
        double sentDeg = state.headingMagneticDegOrNaN();
        if (!Double.isNaN(sentDeg) || Double.isNaN(trueDeg)) {
            return sentDeg;
        }
        return Angles.circle(trueDeg - variationEastDeg(state));
    }

    /** Whether a sample after a pause shows the aircraft in the direction in which it stood, or nearly so. */
    boolean goesOnAsBefore(AircraftState state) {
        FlightInstant stood = seen;
        if (stood == null) {
            return false;
        }
        double headingDeg = state.headingTrueDegOrNaN();
        double before =
                Double.isNaN(headingDeg) ? stood.trackDeg() : stood.state().headingTrueDegOrNaN();
        double now = Double.isNaN(headingDeg) ? state.trackTrueDegOrNaN() : headingDeg;
        return Math.abs(Angles.turn(now - before)) <= SAME_DIRECTION_DEG;
    }

    /** The simulation stood still from then on, flown seconds; it flies on at the next sample as it did before. */
    void stood(double fromS) {
        track.forgetAfter(fromS);
        nose.forgetAfter(fromS);
        past.clear();
        broken = true;
        stoodFromS = fromS;
    }

    /** Starts anew at the next sample. */
    void breakOff() {
        stoodFromS = Double.NaN;
        past.clear();
        track.clear();
        nose.clear();
        lastHeadingDeg = Double.NaN;
        broken = true;
    }
}
