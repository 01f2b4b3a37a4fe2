package org.rejoin.bridge.feed;

import org.rejoin.protocol.AircraftState;

/** Takes the samples of one aircraft as a {@link SampleClock} gives them. */
public interface SampleSink {
    /**
     * The next sample.
     *
     * @param state {@code timeS} counts seconds from the first sample, 0, and is greater than the last one's
     */
    void state(AircraftState state);

    /**
     * Nothing was received for longer than a network is late, and longer than the flight's own clock says. Said before the
     * sample that ends it.
     *
     * @param receiptS time of receipt that passed between the last sample and the next, seconds
     */
    default void silence(double receiptS) {}

    /**
     * Which clock is taken from here on.
     *
     * @param timeS seconds from the first sample
     * @param base the clock and why
     */
    default void timeBase(double timeS, TimeBase base) {}

    /**
     * The sender's clock did something that the flight did not.
     *
     * @param timeS seconds from the first sample
     * @param text one line
     */
    default void clockSet(double timeS, String text) {}
}
