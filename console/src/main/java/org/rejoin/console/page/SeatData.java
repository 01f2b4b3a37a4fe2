package org.rejoin.console.page;

import org.rejoin.protocol.AircraftState;

/** How old the data of a seat is, and how it stands. Told on the flight's thread, asked from any. */
final class SeatData {

    /** A sender silent for longer is shown going on by its dead reckoning, seconds. */
    private static final double SILENT_S = 0.2;

    private volatile boolean reckoned;
    private volatile long sampledNs;
    private volatile long heardNs;
    private volatile boolean paused;
    private volatile boolean over;
    private volatile long jumpedNs = Long.MIN_VALUE;

    void heard(AircraftState state) {
        heardNs = System.nanoTime();
        paused = state.paused();
    }

    void sampled(AircraftState state) {
        sampledNs = System.nanoTime();
        reckoned = state.reckoning().isPresent();
    }

    void jumped() {
        jumpedNs = System.nanoTime();
    }

    void over() {
        over = true;
        reckoned = false;
    }

    /** Its dead reckoning leads no further. */
    void lost() {
        reckoned = false;
    }

    /** Whether the sender is silent, as it may be while its motion is predictable. */
    boolean silent() {
        return reckoned && sinceSampledS() > SILENT_S;
    }

    double sinceSampledS() {
        return sinceS(sampledNs);
    }

    /** 0 where nothing was heard yet. */
    double ageS() {
        return heardNs == 0 ? 0 : sinceS(heardNs);
    }

    DataState state() {
        if (over) {
            return DataState.ENDED;
        }
        boolean jumped = jumpedNs != Long.MIN_VALUE && sinceS(jumpedNs) < DataState.JUMP_SHOWN_S;
        return heardNs == 0 ? DataState.WAITING : DataState.of(ageS(), paused, jumped);
    }

    private static double sinceS(long ns) {
        return (System.nanoTime() - ns) * 1e-9;
    }
}
