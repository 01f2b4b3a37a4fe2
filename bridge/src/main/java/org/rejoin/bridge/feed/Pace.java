package org.rejoin.bridge.feed;

import java.util.concurrent.TimeUnit;

/**
 * When to look at the socket again. With a few seats at once, so that nothing waits. With hundreds a millisecond later: most
 * of the price of a datagram is waking up for it, and one look then takes many.
 */
final class Pace {

    /** Up to so many a second each is taken as it comes: some 250 seats at 20 Hz. */
    private static final long EACH_PER_S = 5_000;

    /** How long the rate is counted before it is believed. */
    private static final long COUNTED_NANOS = TimeUnit.MILLISECONDS.toNanos(20);

    static final long PAUSE_MICROS = 1_000;

    private long countedSinceNanos = System.nanoTime();
    private long counted;
    private boolean many;

    /** One more was taken. */
    void taken() {
        counted++;
    }

    /** Whether to wait for {@link #PAUSE_MICROS} before the next look. */
    boolean pauses(long nowNanos) {
        long passed = nowNanos - countedSinceNanos;
        if (passed >= COUNTED_NANOS) {
            many = counted * TimeUnit.SECONDS.toNanos(1) > EACH_PER_S * passed;
            counted = 0;
            countedSinceNanos = nowNanos;
        }
        return many;
    }
}
