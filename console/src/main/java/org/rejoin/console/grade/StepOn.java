package org.rejoin.console.grade;

import org.rejoin.bridge.flight.Point;

/**
 * Where the aircraft is a part of a step after a sample, by its speed, its track and how fast it turns there: the step after it may
 * be measured by another line.
 */
final class StepOn {

    private StepOn() {}

    /** How far along the line of the last point it has come by then, NM. */
    static double alongNm(Point last, double flownS) {
        return wayNm(last, flownS) * Math.cos(meanErrorRad(last, flownS));
    }

    /** How far off that line it is then, right positive, NM. */
    static double crossTrackNm(Point last, double flownS) {
        return last.crossTrackNm() + wayNm(last, flownS) * Math.sin(meanErrorRad(last, flownS));
    }

    private static double wayNm(Point last, double flownS) {
        return last.groundSpeedKt() * (flownS - last.flownS()) / 3600;
    }

    private static double meanErrorRad(Point last, double flownS) {
        double turnedDeg = Double.isNaN(last.turnRateDegPerS()) ? 0 : last.turnRateDegPerS() * (flownS - last.flownS());
        return Math.toRadians(last.trackErrorDeg() + turnedDeg / 2);
    }
}
