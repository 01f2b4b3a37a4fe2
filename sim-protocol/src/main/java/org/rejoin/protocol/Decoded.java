package org.rejoin.protocol;

import java.util.Optional;

/** What one piece of a datagram turned out to be. Bad input is a value, so that it can be counted, shown and recorded. */
public sealed interface Decoded {

    /**
     * A usable sample.
     *
     * @param state the aircraft; {@code timeS} is the time of receipt in seconds
     * @param source the sender's clock, if the format carries one
     * @param aircraft which aircraft of this sender: DIS "site:application:entity", JSON callsign, or empty text
     *     where the sender names none
     * @param marking callsign or marking as sent, control characters replaced by '?'; empty where unsent
     */
    record Sample(AircraftState state, Optional<SourceTime> source, String aircraft, String marking)
            implements Decoded {}

    /** What is no sample. */
    sealed interface Other extends Decoded {}

    /**
     * Well formed, but not a position: another PDU, another sentence.
     *
     * @param kind what it is, in the words of its standard
     */
    record NotAPosition(String kind) implements Other {}

    /**
     * The sender says that the simulation stopped, goes on, or that the aircraft is gone.
     *
     * @param what which of these
     * @param aircraft which aircraft, as in {@link Sample}; empty text for all of this sender
     */
    record Control(What what, String aircraft) implements Other {
        /** The kinds of control. */
        public enum What {
            /** The simulation stands still. */
            PAUSED,
            /** The simulation goes on. */
            RESUMED,
            /** The aircraft was taken out of the simulation. */
            REMOVED
        }
    }

    /**
     * Not what its format asks for. The rest of the datagram may still hold good samples.
     *
     * @param offset octet at which reading stopped, 0 or more
     * @param found what stands there
     * @param expected what would be right
     */
    record Malformed(int offset, String found, String expected) implements Other {}
}
