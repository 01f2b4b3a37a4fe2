package org.rejoin.console.page;

import org.rejoin.bridge.geo.Angles;

/** How fast the track turns, from one sample to a later one; for words, not for judging. */
final class TurnRate {

    /** Noise of single samples is not a turn, seconds (common practice, no source). */
    private static final double OVER_S = 1;

    /** Across a longer gap nothing is known of a turn, seconds (common practice, no source). */
    private static final double LONGEST_S = 5;

    /** Faster is a set position, not a turn, degrees a second: seven times standard rate. */
    private static final double MOST_DEG_PER_S = 21;

    private double fromS = Double.NaN;
    private double fromDeg;
    private double degPerS;

    /** Takes the next sample: its time, seconds, and its track, degrees true. */
    void take(double timeS, double trackDeg) {
        double passedS = timeS - fromS;
        if (passedS >= 0 && passedS < OVER_S) {
            return;
        }
        double rate = passedS > 0 && passedS <= LONGEST_S ? Angles.turn(trackDeg - fromDeg) / passedS : 0;
        degPerS = Math.abs(rate) <= MOST_DEG_PER_S ? rate : 0;
        fromS = timeS;
        fromDeg = trackDeg;
    }

    /** Degrees a second, right positive; 0 where nothing is known. */
    double degPerS() {
        return degPerS;
    }
}
