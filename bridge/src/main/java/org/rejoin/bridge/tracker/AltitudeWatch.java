package org.rejoin.bridge.tracker;

import java.util.List;
import java.util.OptionalDouble;

import org.jspecify.annotations.Nullable;

/** The assigned altitude: from when it is first reached, or should have been, to the end of the flight. */
final class AltitudeWatch {

    /** Time to react, seconds; common practice, no source. */
    private static final double REACTION_S = 10;

    /** Least climb or descent that ATC may expect, feet a minute (AIM 4-4-10: report when less than 500). */
    private static final double LEAST_RATE_FPM = 500;

    private final double assignedFt;
    private final double limitFt;
    private double dueS = Double.NaN;
    private boolean judged;
    private @Nullable Moment last;
    private boolean deviating;
    private double worstFt;

    AltitudeWatch(double assignedFt, double limitFt) {
        this.assignedFt = assignedFt;
        this.limitFt = limitFt;
    }

    OptionalDouble errorFt(Moment now) {
        return judged && now.altitudeFt().isPresent()
                ? OptionalDouble.of(now.altitudeFt().getAsDouble() - assignedFt)
                : OptionalDouble.empty();
    }

    List<TrackerEvent> step(Moment now) {
        Moment before = last;
        last = now;
        if (now.altitudeFt().isEmpty()) {
            return List.of();
        }
        double error = now.altitudeFt().getAsDouble() - assignedFt;
        if (Double.isNaN(dueS)) {
            dueS = now.flownS() + REACTION_S + Math.abs(error) / LEAST_RATE_FPM * 60;
        }
        if (before == null || before.altitudeFt().isEmpty()) {
            judged |= Math.abs(error) <= limitFt;
            return List.of();
        }
        if (!judged) {
            judged = Math.abs(error) <= limitFt || now.flownS() >= dueS;
            if (!judged) {
                return List.of();
            }
        }
        double errorBefore = before.altitudeFt().getAsDouble() - assignedFt;
        double at = Hold.root(
                        Math.max(before.flownS(), Math.min(dueS, now.flownS())),
                        Math.abs(errorBefore) - limitFt,
                        now.flownS(),
                        Math.abs(error) - limitFt)
                + now.timeS()
                - now.flownS();
        if (!deviating && Math.abs(error) > limitFt) {
            deviating = true;
            worstFt = error;
            return List.of(new TrackerEvent.AltitudeDeviationBegan(at, error));
        }
        if (deviating && Math.abs(error) <= limitFt) {
            deviating = false;
            return List.of(new TrackerEvent.AltitudeDeviationEnded(at, worstFt));
        }
        if (deviating && Math.abs(error) > Math.abs(worstFt)) {
            worstFt = error;
        }
        return List.of();
    }

    void breakOff() {
        last = null;
    }
}
