package org.rejoin.bridge.tracker;

/** Something that is told at most once. */
final class Once {

    private boolean done;

    /** Whether it is the first time that this is true. */
    boolean when(boolean happened) {
        boolean first = happened && !done;
        done |= happened;
        return first;
    }

    boolean done() {
        return done;
    }
}
