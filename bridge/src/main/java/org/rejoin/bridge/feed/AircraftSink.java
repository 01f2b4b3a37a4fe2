package org.rejoin.bridge.feed;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Decoded;

/** Takes what is heard of each aircraft, in order of time. Called on the thread that feeds {@link AircraftSorter}. */
public interface AircraftSink {

    /**
     * An aircraft is heard for the first time; whatever else is said of it comes later.
     *
     * @param aircraft whose
     * @param marking callsign or marking as sent, which may be anything; empty text where unsent
     * @param format name of the wire format it is heard in
     * @param clock time of day of its first sample
     * @return takes whatever is said of it from here on
     */
    default AircraftSink heard(AircraftKey aircraft, String marking, String format, DayClock clock) {
        return this;
    }

    /** The next sample of an aircraft; its times always increase. */
    default void state(AircraftKey aircraft, AircraftState state) {}

    /**
     * An aircraft was not heard for longer than its flight's own clock says: its simulator was stopped or nobody
     * listened. Said before the sample that ends it.
     */
    default void silence(AircraftKey aircraft, double receiptS) {}

    /** Which clock an aircraft's times come from, from here on. */
    default void timeBase(AircraftKey aircraft, double timeS, TimeBase base) {}

    /** Something about the feed that the pilot should read, but that the flight did not do. */
    default void note(AircraftKey aircraft, double timeS, String text) {}

    /** Another port of the same address speaks for an aircraft from here on; a note tells the pilot. */
    default void goesOnFrom(AircraftKey aircraft, int port) {}

    /** The sender stopped the simulation, goes on, or took the aircraft out. */
    default void control(AircraftKey aircraft, double timeS, Decoded.Control.What what) {}
}
