package org.rejoin.console.flight;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.bridge.geo.RoundEarth;
import org.rejoin.protocol.AircraftState;

import org.jspecify.annotations.Nullable;

/**
 * What is said of a pause (Stop/Freeze and Start/Resume of IEEE 1278.1) against what the aircraft does: who goes on along
 * its way is not paused, whatever was said, for the word to go on may have been lost. Confined to one thread.
 */
final class Freeze {

    /** Slower than this it cannot be told and the word holds, knots; common practice, no source. */
    private static final double FLYING_KT = 20;

    /** Who has gone this share of the way goes on. */
    private static final double SHARE = 0.5;

    /** Speed is measured across so much, and motion is sure after so long, seconds; common practice, no source. */
    private static final double SURE_S = 1;

    /** A pause begins and ends before the sample that shows it, seconds. */
    private static final double BEFORE_S = 1e-3;

    private @Nullable AircraftState last;
    private @Nullable AircraftState anchor;
    private double flyingKt = Double.NaN;
    private boolean stopped;
    private boolean paused;
    private boolean silent;
    private double stoppedAtS = Double.NaN;
    private double resumedAtS = Double.NaN;
    private double goesOnFromS = Double.NaN;

    /**
     * What the next sample shows.
     *
     * @param stoodS times before the sample at which the simulation stood, in order
     * @param paused whether it stands still at the sample
     * @param refuted whether the aircraft was seen to fly on although it was said to stop; told once for each stop
     */
    record Shown(List<Double> stoodS, boolean paused, boolean refuted) {}

    void stop(double timeS) {
        if (!stopped) {
            stopped = true;
            stoppedAtS = Double.isNaN(stoppedAtS) ? timeS : stoppedAtS;
            goesOnFromS = Double.NaN;
        }
        resumedAtS = Double.NaN;
    }

    void resume(double timeS) {
        if (stopped) {
            stopped = false;
            resumedAtS = timeS;
        }
    }

    /**
     * Nothing was heard before the next sample for longer than its time says.
     *
     * @return whether the simulation stood meanwhile, as was said
     */
    boolean silence() {
        silent = stopped || !Double.isNaN(resumedAtS);
        return silent;
    }

    Shown next(AircraftState state) {
        AircraftState before = last;
        last = state;
        boolean goesOn = before == null ? !stopped : goesOn(before, state);
        boolean stoodBefore = paused || (!Double.isNaN(stoppedAtS) && (silent || !goesOn));
        List<Double> stoodS = before != null && stoodBefore ? stood(before, state) : List.of();
        stoppedAtS = Double.NaN;
        resumedAtS = Double.NaN;
        silent = false;
        goesOnFromS = !stopped || !goesOn || before == null
                ? Double.NaN
                : Double.isNaN(goesOnFromS) ? before.timeS() : goesOnFromS;
        boolean refuted = state.timeS() - goesOnFromS >= SURE_S;
        stopped &= !refuted;
        paused = stopped && !goesOn;
        measure(state);
        return new Shown(stoodS, paused, refuted);
    }

    private List<Double> stood(AircraftState before, AircraftState state) {
        List<Double> stoodS = new ArrayList<>(2);
        stood(stoodS, stoppedAtS, before, state);
        stood(stoodS, resumedAtS, before, state);
        return stoodS;
    }

    private static void stood(List<Double> stoodS, double atS, AircraftState before, AircraftState state) {
        double fromS = stoodS.isEmpty() ? before.timeS() : stoodS.get(stoodS.size() - 1);
        double timeS = Math.min(atS, state.timeS() - BEFORE_S);
        if (timeS > fromS) {
            stoodS.add(timeS);
        }
    }

    private boolean goesOn(AircraftState before, AircraftState state) {
        if (!(flyingKt >= FLYING_KT)) {
            return !stopped;
        }
        double wayNm = flyingKt * (state.timeS() - before.timeS()) / 3600;
        return RoundEarth.distanceNm(before.place(), state.place()) >= SHARE * wayNm;
    }

    private void measure(AircraftState state) {
        AircraftState from = anchor;
        if (paused || from == null) {
            anchor = paused ? null : state;
        } else if (state.timeS() - from.timeS() >= SURE_S) {
            if (!stopped) {
                flyingKt = RoundEarth.distanceNm(from.place(), state.place()) / (state.timeS() - from.timeS()) * 3600;
            }
            anchor = state;
        }
    }
}
