package org.rejoin.console.flight;

import java.util.List;

/**
 * Which of the aircraft on the port are flown through the lesson: all, those named, or else the first one heard.
 *
 * @param names as the sender or this program calls the aircraft; for each the first that goes by it
 * @param every whether all, each by itself; then none is named
 */
public record Following(List<String> names, boolean every) {

    /** The first one heard. */
    public static final Following FIRST = new Following(List.of(), false);

    /** All of them. */
    public static final Following EVERY = new Following(List.of(), true);

    public Following {
        names = List.copyOf(names);
    }

    /** {@return whether several may be flown, so that each needs a place of its own; false for a single name} */
    public boolean several() {
        return every || names.size() > 1;
    }
}
