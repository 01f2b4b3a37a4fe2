package org.rejoin.bridge.feed;

import java.util.List;

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
     * Aircraft by any of several names.
     *
     * @param names each as in {@link #named}
     * @return the choice
     */
    static SeatChoice anyNamed(List<String> names) {
        List<SeatChoice> each = names.stream().map(SeatChoice::named).toList();
        return (seat, sample) -> each.stream().anyMatch(choice -> choice.follows(seat, sample));
    }

    /**
     * Aircraft by name.
     *
     * @param name the aircraft in the words of its format (DIS site:application:entity), or its marking; upper and lower
     *     case are the same
     * @return the choice
     */
    static SeatChoice named(String name) {
        return (seat, sample) -> goesBy(name, seat, sample.marking());
    }

    /**
     * Whether an aircraft goes by a name.
     *
     * @param name as in {@link #named}
     * @param seat its key
     * @param marking as sent
     * @return true if it does
     */
    static boolean goesBy(String name, SeatKey seat, String marking) {
        String wanted = name.strip();
        return wanted.equalsIgnoreCase(seat.aircraft()) || wanted.equalsIgnoreCase(marking.strip());
    }
}
