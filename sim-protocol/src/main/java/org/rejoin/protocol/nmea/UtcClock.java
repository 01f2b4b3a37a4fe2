package org.rejoin.protocol.nmea;

/**
 * Decides whether a sender's UTC can be believed. Some senders never change it, some send whole seconds many times a
 * second: a clock that stands still while the aircraft moves is no clock.
 */
final class UtcClock {

    /** Epochs in a row with a new UTC after which a clock once caught standing still is believed again. */
    private static final int TRUSTED_AFTER = 20;

    private long lastMillis = -1;
    private double lastLatitudeDeg;
    private double lastLongitudeDeg;
    private int goodSinceFault = TRUSTED_AFTER;

    /** Whether this is a time to go by; -1 ms means that the sender gave none. */
    boolean believes(long utcMillis, double latitudeDeg, double longitudeDeg) {
        if (utcMillis < 0) {
            return false;
        }
        boolean moved = latitudeDeg != lastLatitudeDeg || longitudeDeg != lastLongitudeDeg;
        if (utcMillis != lastMillis) {
            goodSinceFault = Math.min(TRUSTED_AFTER, goodSinceFault + 1);
        } else if (moved) {
            goodSinceFault = 0;
        }
        lastMillis = utcMillis;
        lastLatitudeDeg = latitudeDeg;
        lastLongitudeDeg = longitudeDeg;
        return goodSinceFault >= TRUSTED_AFTER;
    }
}
