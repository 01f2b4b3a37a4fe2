package org.rejoin.protocol;

import java.util.List;

/**
 * One way to put an aircraft's state on the wire, both ways. Instances are stateless and may be shared; what must be
 * remembered between datagrams lives in a {@link Decoder} or {@link Encoder}.
 */
public interface WireFormat {

    /** {@return name on the command line and in messages; lower case, for example "dis"} */
    String name();

    /** Whether a datagram looks like this format; cheap, by its first octets. */
    boolean recognises(Datagram datagram);

    /**
     * {@return whether the sender's clock tells the time of day; true if the source time of a sample is seconds since
     * midnight, Coordinated Universal Time}
     */
    default boolean tellsUtc() {
        return false;
    }

    /** {@return a decoder for one sender; a new decoder, confined to one thread} */
    Decoder newDecoder();

    /** {@return a new encoder for one sender, confined to one thread} */
    Encoder newEncoder();

    /** Turns the datagrams of one sender into samples. Never throws on what a sender can send. */
    interface Decoder {
        /**
         * Takes the next datagram, and tells the sink what was in it and what it completed. Makes no object for a usual
         * datagram.
         */
        void decode(Datagram datagram, StateSink sink);

        /**
         * Says that time has passed, microseconds since 1970-01-01 UTC on the clock of the datagrams, so that a state
         * still waiting for more sentences can be given out.
         */
        default void advanceTo(long nowMicros, StateSink sink) {}

        /** Takes the next datagram, as {@link #decode(Datagram, StateSink)} does, and lists what it leads to. */
        default List<Decoded> decode(Datagram datagram) {
            CollectingSink all = new CollectingSink();
            decode(datagram, all);
            return all.found();
        }

        /** Says that time has passed, as {@link #advanceTo(long, StateSink)} does, and lists what that completed. */
        default List<Decoded> advanceTo(long nowMicros) {
            CollectingSink all = new CollectingSink();
            advanceTo(nowMicros, all);
            return all.found();
        }
    }

    /** Turns states into datagrams, as a simulator would. */
    interface Encoder {
        /**
         * Encodes one state, whose {@code timeS} is the sender's simulation time: payloads of the datagrams to send, in
         * order, at least one.
         */
        List<byte[]> encode(AircraftState state);
    }
}
