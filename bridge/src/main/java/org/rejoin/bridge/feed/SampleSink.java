package org.rejoin.bridge.feed;

import org.rejoin.protocol.AircraftState;

/** Takes the samples of one aircraft as a {@link SampleClock} gives them. */
public interface SampleSink {
    /** The next sample; its {@code timeS} counts seconds from the first one, and is greater than the last one's. */
    void state(AircraftState state);

    /**
     * Nothing was received for longer than a network is late, and longer than the flight's own clock says. Said before
     * the sample that ends it.
     */
    default void silence(double receiptS) {}

    /** Which clock is taken from here on. */
    default void timeBase(double timeS, TimeBase base) {}

    /** The sender's clock did something that the flight did not. */
    default void clockSet(double timeS, String text) {}
}
