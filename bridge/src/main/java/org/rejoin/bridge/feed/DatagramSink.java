package org.rejoin.bridge.feed;

import org.rejoin.protocol.Datagram;

/** Takes datagrams in order of receipt, and the passing of time between them. Called on one thread. */
public interface DatagramSink {

    /**
     * Told at once when a datagram arrives, and says whether it is to be accepted. Where much is to be worked on, it
     * may wait before it is.
     */
    default boolean arrived(Datagram datagram) {
        return true;
    }

    /** {@return who takes the datagrams that have arrived; this, unless another reads them} */
    default DatagramSink reader() {
        return this;
    }

    /** Takes a datagram; its octets never change again. */
    void accept(Datagram datagram);

    /**
     * Says that time has passed, on the clock of {@link Datagram#receivedMicros}. Called some twenty times a second,
     * also while nothing arrives.
     */
    default void advanceTo(long nowMicros) {}

    /** Something about the socket that the user should know. */
    default void trouble(String text) {}
}
