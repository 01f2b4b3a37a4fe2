package org.rejoin.console.page;

import java.util.OptionalDouble;

import org.rejoin.bridge.flight.Point;

/** Whether an aircraft that is to meet a line goes away from it, seen crossing it or not: a gap in the data hides the crossing. */
final class GoingAway {

    /** A turn onto the line, or back to it, takes less (common practice, no source). */
    private static final double TURNED_S = 60;

    /** Nearer or farther by less is noise (common practice, no source). */
    private static final double MOVED_NM = 0.1;

    private int leg = -1;
    private double nearestNm = Double.NaN;
    private double nearestAtS;
    private double nearestFlownS;
    private double farthestNm;

    /** Another line, or none. */
    void forget() {
        nearestNm = Double.NaN;
    }

    /** Since when, seconds; empty where it does not. Asked at each sample. */
    OptionalDouble sinceS(Point now, double limitNm) {
        if (!now.hasLine() || now.established() || now.phase() != Point.Phase.CLOSING || now.legIndex() != leg) {
            forget();
            leg = now.legIndex();
        }
        if (!now.hasLine() || now.established() || now.phase() != Point.Phase.CLOSING) {
            return OptionalDouble.empty();
        }
        double offNm = Math.abs(now.crossTrackNm());
        if (Double.isNaN(nearestNm) || offNm < nearestNm || offNm < farthestNm - MOVED_NM) {
            nearestNm = offNm;
            nearestAtS = now.timeS();
            nearestFlownS = now.flownS();
            farthestNm = offNm;
        }
        farthestNm = Math.max(farthestNm, offNm);
        boolean away = offNm > limitNm && offNm > nearestNm + MOVED_NM && now.flownS() - nearestFlownS >= TURNED_S;
        return away ? OptionalDouble.of(nearestAtS) : OptionalDouble.empty();
    }
}
