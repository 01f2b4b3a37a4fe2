package org.rejoin.bridge.feed;

import java.util.List;

import org.rejoin.protocol.Decoded;

/** Which aircraft are followed, of all that are heard. */
@FunctionalInterface
public interface AircraftChoice {

    /**
     * Whether this sample's aircraft is followed.
     *
     * @param aircraft its key
     * @param sample any of its samples
     * @return true to follow it
     */
    boolean follows(AircraftKey aircraft, Decoded.Sample sample);

    /**
     * Every aircraft.
     *
     * @return the choice
     */
    static AircraftChoice all() {
        return (aircraft, sample) -> true;
    }

    /**
     * Aircraft by any of several names.
     *
     * @param names each as in {@link #named}
     * @return the choice
     */
    static AircraftChoice anyNamed(List<String> names) {
        List<AircraftChoice> each = names.stream().map(AircraftChoice::named).toList();
        return (aircraft, sample) -> each.stream().anyMatch(choice -> choice.follows(aircraft, sample));
    }

    /**
     * Aircraft by name.
     *
     * @param name the aircraft in the words of its format (DIS site:application:entity), or its marking; upper and lower
     *     case are the same
     * @return the choice
     */
    static AircraftChoice named(String name) {
        return (aircraft, sample) -> goesBy(name, aircraft, sample.marking());
    }

    /**
     * Whether an aircraft goes by a name.
     *
     * @param name as in {@link #named}
     * @param aircraft its key
     * @param marking as sent
     * @return true if it does
     */
    static boolean goesBy(String name, AircraftKey aircraft, String marking) {
        String wanted = name.strip();
        return wanted.equalsIgnoreCase(aircraft.aircraft()) || wanted.equalsIgnoreCase(marking.strip());
    }
}
