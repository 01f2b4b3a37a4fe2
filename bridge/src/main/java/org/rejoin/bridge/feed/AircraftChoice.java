package org.rejoin.bridge.feed;

import org.rejoin.protocol.Decoded;

/** Which aircraft are followed, of all that are heard. */
@FunctionalInterface
public interface AircraftChoice {

    /** Whether this sample's aircraft is followed. */
    boolean follows(AircraftKey aircraft, Decoded.Sample sample);

    /** {@return the choice of every aircraft} */
    static AircraftChoice all() {
        return (aircraft, sample) -> true;
    }

    /**
     * Whether an aircraft goes by a name: in the words of its format (DIS site:application:entity), or its marking;
     * upper and lower case are the same.
     */
    static boolean goesBy(String name, AircraftKey aircraft, String marking) {
        String wanted = name.strip();
        return wanted.equalsIgnoreCase(aircraft.aircraft()) || wanted.equalsIgnoreCase(marking.strip());
    }
}
