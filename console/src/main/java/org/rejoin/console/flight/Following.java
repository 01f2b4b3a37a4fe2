package org.rejoin.console.flight;

import java.util.List;

/** Which of the aircraft on the port are flown through the lesson. */
public sealed interface Following {

    /** The first one heard. */
    record First() implements Following {}

    /**
     * For each name the first aircraft that goes by it.
     *
     * @param names as the sender or this program calls the aircraft, at least one
     */
    record Named(List<String> names) implements Following {
        /** Copies the list. */
        public Named {
            names = List.copyOf(names);
            if (names.isEmpty()) {
                throw new IllegalArgumentException("no name of an aircraft is given");
            }
        }
    }

    /** All of them, each by itself. */
    record Every() implements Following {}

    /**
     * Whether several aircraft may be flown, so that each needs a place of its own.
     *
     * @return false for the first, and for a single name
     */
    default boolean several() {
        return this instanceof Every
                || (this instanceof Named named && named.names().size() > 1);
    }
}
