package org.rejoin.bridge.feed;

import org.rejoin.protocol.Decoded;

/** Which aircraft are followed, of all that are heard. */
@FunctionalInterface
public interface SeatChoice {

    /**
     * Whether this sample's aircraft is followed.
     *
     * @param seat its key
     * @param sample any of its samples
     * @return true to follow it
     */
    boolean follows(SeatKey seat, Decoded.Sample sample);

    /**
     * Every aircraft.
     *
     * @return the choice
     */
    static SeatChoice all() {
        return (seat, sample) -> true;
    }

    /**
     * Aircraft by name.
     *
     * @param name the aircraft in the words of its format (DIS site:application:entity), or its marking; upper and lower
     *     case are the same
     * @return the choice
     */
    static SeatChoice named(String name) {
        String wanted = name.strip();
        return (seat, sample) -> wanted.equalsIgnoreCase(seat.aircraft())
                || wanted.equalsIgnoreCase(sample.marking().strip());
    }
}
