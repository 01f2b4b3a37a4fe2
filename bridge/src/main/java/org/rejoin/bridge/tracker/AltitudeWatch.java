package org.rejoin.bridge.tracker;

import java.util.List;
import java.util.OptionalDouble;

import org.jspecify.annotations.Nullable;

/** The assigned altitude: from when it is first reached, or should have been, to the end of the flight. */
final class AltitudeWatch {

    /** Off by more than this is a deviation, whatever the grade allows, feet (fixed by the project's contract). */
    private static final double LIMIT_FT = 100;

    /** Time to react, seconds; common practice, no source. */
    private static final double REACTION_S = 10;

    /** Least climb or descent that ATC may expect, feet a minute (AIM 4-4-10: report when less than 500). */
    private static final double LEAST_RATE_FPM = 500;

    /** No altitude for this long: the feed has none, seconds; common practice, no source. */
    private static final double UNSEEN_S = 30;

    private final double assignedFt;
    private double beganS = Double.NaN;
    private double dueS = Double.NaN;
    private boolean reached;
    private boolean judged;
    private double judgedFromS = Double.NaN;
    private @Nullable Moment last;
    private boolean deviating;
    private double worstFt;

    AltitudeWatch(double assignedFt) {
        this.assignedFt = assignedFt;
    }

    double assignedFt() {
        return assignedFt;
    }

    /** The same altitude, to be reached anew. */
    AltitudeWatch again() {
        return new AltitudeWatch(assignedFt);
    }

    OptionalDouble errorFt(Moment now) {
        return judged && now.altitudeFt().isPresent()
                ? OptionalDouble.of(now.altitudeFt().getAsDouble() - assignedFt)
                : OptionalDouble.empty();
    }

    List<TrackerEvent> step(Moment now) {
        Moment before = last;
        last = now;
        beganS = Double.isNaN(beganS) ? now.flownS() : beganS;
        if (now.altitudeFt().isEmpty()) {
            return List.of();
        }
        double error = now.altitudeFt().getAsDouble() - assignedFt;
        reached |= Math.abs(error) <= LIMIT_FT;
        if (Double.isNaN(dueS)) {
            dueS = now.flownS() + REACTION_S + Math.abs(error) / LEAST_RATE_FPM * 60;
        }
        if (before == null || before.altitudeFt().isEmpty()) {
            judge(Math.abs(error) <= LIMIT_FT, now.flownS());
            return List.of();
        }
        if (!judged) {
            judge(Math.abs(error) <= LIMIT_FT, now.flownS());
            judge(now.flownS() >= dueS, dueS);
            if (!judged || (Math.abs(error) <= LIMIT_FT && now.flownS() < dueS)) {
                return List.of();
            }
        }
        double excessBefore = Math.abs(before.altitudeFt().getAsDouble() - assignedFt) - LIMIT_FT;
        double fromS = Math.max(before.flownS(), Math.min(judgedFromS, now.flownS()));
        // Already off when judging begins: off from then.
        double atS = excessBefore > 0 && !deviating
                ? fromS
                : Hold.root(fromS, excessBefore, now.flownS(), Math.abs(error) - LIMIT_FT);
        double at = atS + now.timeS() - now.flownS();
        if (!deviating && Math.abs(error) > LIMIT_FT) {
            deviating = true;
            worstFt = error;
            return List.of(new TrackerEvent.AltitudeDeviationBegan(at, error));
        }
        if (deviating && Math.abs(error) <= LIMIT_FT) {
            deviating = false;
            return List.of(new TrackerEvent.AltitudeDeviationEnded(at, worstFt));
        }
        if (deviating && Math.abs(error) > Math.abs(worstFt)) {
            worstFt = error;
        }
        return List.of();
    }

    private void judge(boolean begins, double fromS) {
        if (begins && !judged) {
            judged = true;
            judgedFromS = fromS;
        }
    }

    /** Whether the altitude was reached, or cannot be told although there was time to reach it. */
    boolean done(Moment now) {
        return reached || (Double.isNaN(dueS) && now.flownS() > beganS + UNSEEN_S);
    }

    /** Across a gap nothing is concluded: an open deviation ends where the flight was last seen. */
    List<TrackerEvent> breakOff() {
        Moment seenLast = last;
        last = null;
        if (!deviating || seenLast == null) {
            return List.of();
        }
        deviating = false;
        return List.of(new TrackerEvent.AltitudeDeviationEnded(seenLast.timeS(), worstFt));
    }
}
