package org.rejoin.protocol.nmea;

import java.util.Optional;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.SourceTime;

/**
 * Decides whether a sender's UTC can be believed. Some senders never change it, some send whole seconds many times a
 * second: a clock that stands still while the aircraft moves is no clock.
 */
final class UtcClock {

    private static final double DAY_S = 86_400;

    /** Epochs in a row with a new UTC after which a clock once caught standing still is believed again. */
    private static final int TRUSTED_AFTER = 20;

    private long lastMillis = -1;
    private double lastLatitudeDeg;
    private double lastLongitudeDeg;
    private int goodSinceFault = TRUSTED_AFTER;

    /** The time to go by, if there is one; -1 ms means that the sender gave none. */
    Optional<SourceTime> read(long utcMillis, AircraftState state) {
        if (utcMillis < 0) {
            return Optional.empty();
        }
        boolean moved = state.latitudeDeg() != lastLatitudeDeg || state.longitudeDeg() != lastLongitudeDeg;
        if (utcMillis != lastMillis) {
            goodSinceFault = Math.min(TRUSTED_AFTER, goodSinceFault + 1);
        } else if (moved) {
            goodSinceFault = 0;
        }
        lastMillis = utcMillis;
        lastLatitudeDeg = state.latitudeDeg();
        lastLongitudeDeg = state.longitudeDeg();
        return goodSinceFault < TRUSTED_AFTER
                ? Optional.empty()
                : Optional.of(new SourceTime(utcMillis / 1000.0, DAY_S));
    }
}
