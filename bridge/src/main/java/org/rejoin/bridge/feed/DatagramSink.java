package org.rejoin.bridge.feed;

import org.rejoin.protocol.Datagram;

/** Takes datagrams in order of receipt, and the passing of time between them. Called on one thread. */
public interface DatagramSink {

    /**
     * Takes a datagram.
     *
     * @param datagram as it arrived; its octets never change again
     */
    void accept(Datagram datagram);

    /**
     * Says that time has passed. Called some twenty times a second, also while nothing arrives.
     *
     * @param nowMicros on the clock of {@link Datagram#receivedMicros}, never earlier than the last datagram's
     */
    default void advanceTo(long nowMicros) {}
}
