package org.rejoin.bridge;

import java.time.LocalTime;

/**
 * The time of day in a flight, Coordinated Universal Time. It stands while the simulation stands.
 *
 * @param atStart at the first sample
 * @param ofLesson whether the lesson says so: who flies it again from its start begins at that time again; else the day goes on
 */
public record TimeOfDay(LocalTime atStart, boolean ofLesson) {

    /** The time of day later in the flight. */
    public LocalTime after(double flownS) {
        return atStart.plusNanos(Math.round(flownS * 1e9));
    }
}
