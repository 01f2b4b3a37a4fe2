package org.rejoin.bridge.feed;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Decoded;

/** Takes what the seats give, each seat's in order of time. Called on the thread that feeds {@link Seats}. */
@FunctionalInterface
public interface SeatSink {

    /**
     * A seat is heard for the first time; whatever else is said of it comes later.
     *
     * @param seat whose
     * @param marking callsign or marking as sent, which may be anything; empty text where unsent
     * @param format name of the wire format it is heard in
     */
    default void heard(SeatKey seat, String marking, String format) {}

    /**
     * The next sample of a seat.
     *
     * @param seat whose
     * @param state {@code timeS} counts seconds from the first sample of this seat and always increases
     */
    void state(SeatKey seat, AircraftState state);

    /**
     * A seat was not heard for longer than its flight's own clock says: its simulator was stopped or nobody listened. Said
     * before the sample that ends it.
     *
     * @param seat whose
     * @param receiptS time of receipt that passed between the last sample and the next, seconds
     */
    default void silence(SeatKey seat, double receiptS) {}

    /**
     * Which clock a seat's times come from, from here on.
     *
     * @param seat whose
     * @param timeS seconds from its first sample
     * @param base the clock and why
     */
    default void timeBase(SeatKey seat, double timeS, TimeBase base) {}

    /**
     * Something about the feed that the pilot should read, but that the flight did not do.
     *
     * @param seat whose
     * @param timeS seconds from its first sample
     * @param text one line
     */
    default void note(SeatKey seat, double timeS, String text) {}

    /**
     * The sender stopped the simulation, goes on, or took the aircraft out.
     *
     * @param seat whose
     * @param timeS seconds from its first sample
     * @param what which of these
     */
    default void control(SeatKey seat, double timeS, Decoded.Control.What what) {}
}
