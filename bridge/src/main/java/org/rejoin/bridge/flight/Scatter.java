package org.rejoin.bridge.flight;

import java.util.Arrays;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.earth.Normal;

import org.jspecify.annotations.Nullable;

/**
 * How far positions are strewn to the side of the way that was flown, as those of a receiver are. Of four a second or so apart the
 * third difference across the way is looked at: a straight way and a steady turn have none, whenever the samples come. Where the
 * positions have nothing to do with one another its standard deviation is the square root of 20 times theirs (binomial
 * coefficients 1, 3, 3, 1), and the middle of its sizes is 0.6745 of that (normal distribution).
 */
final class Scatter {

    /** Looked at so far apart, seconds: nearer together nothing moves, farther apart a turn changes too much; no source. */
    private static final double LEAST_S = 1;

    private static final double MOST_S = 2;

    /** The middle of so many is the first to be believed; after them it follows by this part of itself; no source. */
    private static final int BELIEVED = 15;

    private static final double FOLLOWS = 0.02;

    private static final double NM_PER_RADIAN = Math.toDegrees(1) * 60;

    private static final double OF_MIDDLE = 1 / (0.6745 * Math.sqrt(20));

    private @Nullable Normal before;
    private @Nullable Normal middle;
    private double beforeS;
    private double middleS;
    private double lastAcross = Double.NaN;
    private final double[] first = new double[BELIEVED];
    private int seen;
    private double middleNm;

    void flown(AircraftState state) {
        Normal from = before;
        Normal at = middle;
        if (at != null && state.timeS() - middleS < LEAST_S - 1e-6) {
            return;
        }
        Normal now = state.place().normal();
        if (from != null && at != null && state.timeS() - middleS <= MOST_S && middleS - beforeS <= MOST_S) {
            double across = acrossNm(from, at, now, (state.timeS() - middleS) / (middleS - beforeS));
            if (!Double.isNaN(lastAcross)) {
                size(Math.abs(across - lastAcross));
            }
            lastAcross = across;
        } else {
            lastAcross = Double.NaN;
        }
        before = at;
        beforeS = middleS;
        middle = now;
        middleS = state.timeS();
    }

    /** Second difference of three places, across the way from the first to the last; right positive. */
    private static double acrossNm(Normal from, Normal at, Normal to, double timesAsLong) {
        double x = to.x() - at.x() - (at.x() - from.x()) * timesAsLong;
        double y = to.y() - at.y() - (at.y() - from.y()) * timesAsLong;
        double z = to.z() - at.z() - (at.z() - from.z()) * timesAsLong;
        double wayX = to.x() - from.x();
        double wayY = to.y() - from.y();
        double wayZ = to.z() - from.z();
        double rightX = wayY * at.z() - wayZ * at.y();
        double rightY = wayZ * at.x() - wayX * at.z();
        double rightZ = wayX * at.y() - wayY * at.x();
        double size = Math.sqrt(rightX * rightX + rightY * rightY + rightZ * rightZ);
        return size == 0 ? 0 : (x * rightX + y * rightY + z * rightZ) / size * NM_PER_RADIAN;
    }

    /** The same place again was sent twice, and is not strewn. */
    private void size(double nm) {
        if (nm == 0) {
            return;
        }
        if (seen < BELIEVED) {
            first[seen++] = nm;
            if (seen == BELIEVED) {
                Arrays.sort(first);
                middleNm = first[BELIEVED / 2];
            }
            return;
        }
        middleNm *= nm > middleNm ? 1 + FOLLOWS : 1 - FOLLOWS;
    }

    /** The next place has nothing to do with those before it. */
    void breakOff() {
        before = null;
        middle = null;
        lastAcross = Double.NaN;
    }

    /** Measured afresh from the next place on; what was measured before holds until enough was seen. */
    void beginAnew() {
        breakOff();
        seen = 0;
    }

    /** Standard deviation to one side, nautical miles; 0 before enough was seen. */
    double nm() {
        return middleNm * OF_MIDDLE;
    }
}
