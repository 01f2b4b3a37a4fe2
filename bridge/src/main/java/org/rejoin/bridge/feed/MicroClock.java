package org.rejoin.bridge.feed;

/** A clock that says when datagrams are received. */
@FunctionalInterface
public interface MicroClock {

    /** {@return the time, microseconds since 1970-01-01 UTC} */
    long micros();

    /**
     * The wall clock of now, carried on by the system's steady clock: a clock that is set while a flight is on neither
     * tears the flight apart nor turns it back.
     */
    static MicroClock steady() {
        long startMicros = Math.multiplyExact(System.currentTimeMillis(), 1000L);
        long startNanos = System.nanoTime();
        return () -> startMicros + (System.nanoTime() - startNanos) / 1000;
    }
}
