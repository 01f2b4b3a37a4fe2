package org.rejoin.bridge.tracker;

/**
 * A turn that goes on through the outbound direction of a hold, with little or no leg in it: in a wind that carries the
 * aircraft out fast enough there is nothing to fly between the turn out and the turn inbound. Turns are counted with the
 * way of the pattern positive.
 */
final class ThroughOutbound {

    private static final double HALF_CIRCLE_DEG = 180;

    private final double sectorDeg;
    private final double inboundDeg;
    private double before = Double.NaN;
    private double leastDeg = Double.NaN;
    private double mostDeg = Double.NaN;
    private int way;
    private double leftS = Double.NaN;

    /**
     * Nothing is turned yet.
     *
     * @param sectorDeg outbound is a track within this of the reciprocal of the inbound course
     */
    ThroughOutbound(double sectorDeg) {
        this.sectorDeg = sectorDeg;
        this.inboundDeg = HALF_CIRCLE_DEG - sectorDeg;
    }

    /**
     * Takes a step.
     *
     * @param fromS start of the step, flown seconds
     * @param toS its end
     * @param pastDeg the track at its end less the reciprocal of the inbound course, [-180, 180)
     * @return whether the turn has led from outbound on to within as much of the inbound course, without turning back
     */
    boolean step(double fromS, double toS, double pastDeg) {
        double was = before;
        before = pastDeg;
        if (Math.abs(pastDeg) <= sectorDeg) {
            leastDeg = Double.isNaN(leastDeg) ? pastDeg : Math.min(leastDeg, pastDeg);
            mostDeg = Double.isNaN(mostDeg) ? pastDeg : Math.max(mostDeg, pastDeg);
            way = 0;
            return false;
        }
        // Through the reciprocal and out on the far side; who comes out on the side he began on has turned another way.
        if (way == 0 && Math.abs(was) <= sectorDeg && (pastDeg > 0 ? leastDeg <= 0 : mostDeg >= 0)) {
            way = pastDeg > 0 ? 1 : -1;
            leftS = Dwell.root(fromS, Math.abs(was) - sectorDeg, toS, Math.abs(pastDeg) - sectorDeg);
        }
        leastDeg = Double.NaN;
        mostDeg = Double.NaN;
        return way != 0 && way * pastDeg >= inboundDeg;
    }

    /** Which way the sector was left: 1 the way of the pattern, -1 the other, 0 where it was not, or not yet. */
    int way() {
        return way;
    }

    /** When it was left, flown seconds. */
    double leftS() {
        return leftS;
    }

    void reset() {
        before = Double.NaN;
        leastDeg = Double.NaN;
        mostDeg = Double.NaN;
        way = 0;
        leftS = Double.NaN;
    }
}
