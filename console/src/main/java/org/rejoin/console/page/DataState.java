package org.rejoin.console.page;

/** How the data of a seat stands. */
public enum DataState {
    /** Nothing was heard yet. */
    WAITING,
    /** Samples come, the aircraft moves. */
    FLYING,
    /** Samples come, the simulation stands. */
    PAUSED,
    /** The aircraft was put elsewhere a moment ago. */
    JUMPED,
    /** Nothing comes. */
    SILENT,
    /** The flight is over. */
    ENDED;

    /** Data older than this is greyed, seconds. */
    public static final double OLD_S = 3;

    /** So long a jump is told of, seconds. */
    public static final double JUMP_SHOWN_S = 10;

    /**
     * How the data of a flight stands that was heard so many seconds ago and is not over: silent, paused, jumped or
     * flying.
     */
    public static DataState of(double ageS, boolean paused, boolean jumped) {
        if (ageS > OLD_S) {
            return SILENT;
        }
        if (paused) {
            return PAUSED;
        }
        return jumped ? JUMPED : FLYING;
    }
}
