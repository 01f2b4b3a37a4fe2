package org.rejoin.bridge;

import java.util.OptionalDouble;

/**
 * A clearance to be spoken in a flight.
 *
 * @param altitudeFt altitude assigned with it, feet; empty to take the one in the words, if any
 */
public record Amendment(When when, String say, OptionalDouble altitudeFt) {

    /** When a clearance is spoken. */
    public sealed interface When {
        /** At a time, seconds since the first sample. */
        record ElapsedS(double seconds) implements When {}

        /** When a point passes abeam. */
        record Abeam(String ident) implements When {}
    }
}
