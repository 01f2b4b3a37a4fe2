package org.rejoin.protocol;

import java.util.Optional;

/**
 * How an aircraft goes on after a sample, by what its sender said of its motion: for a picture that stands still no longer
 * than the aircraft does. Pure; nothing that is graded rests on it.
 */
@FunctionalInterface
public interface Reckoning {

    /** A sender that has been silent for longer is gone, and its aircraft not shown going on: IEEE 1278.1, seconds. */
    double LONGEST_S = 12;

    /**
     * The aircraft so many seconds after the sample, 0 to {@value #LONGEST_S}; empty where the sender's figures lead to
     * no place an aircraft can be.
     */
    Optional<AircraftState> after(AircraftState sample, double seconds);
}
