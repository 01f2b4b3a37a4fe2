package org.rejoin.bridge.feed;

import org.rejoin.protocol.Datagram;

/** Takes datagrams in order of receipt, and the passing of time between them. Called on one thread. */
public interface DatagramSink {

    /**
     * Told at once when a datagram arrives. Where much is to be worked on, it may wait before it is accepted.
     *
     * @param datagram as it arrived; its octets never change again
     * @return whether it is to be accepted; false leaves it out
     */
    default boolean arrived(Datagram datagram) {
        return true;
    }

    /** {@return who takes the datagrams that have arrived; this, unless another reads them} */
    default DatagramSink reader() {
        return this;
    }

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

    /**
     * Something about the socket that the user should know.
     *
     * @param text one line
     */
    default void trouble(String text) {}
}
