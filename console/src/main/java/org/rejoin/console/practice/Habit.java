package org.rejoin.console.practice;

import java.util.Locale;

/** How the practice pilot flies. Each habit but the first shows one fault. */
public enum Habit {
    /** Takes a sound lead, tracks, turns the right way. */
    GOOD,
    /** Begins the turn onto the course after crossing it, and gently. */
    LATE,
    /** Crosses the line and flies on before noticing. */
    FLY_THROUGH,
    /** Turns onto the reciprocal of the course. */
    RECIPROCAL,
    /** Rolls out parallel to the course, short of it. */
    EARLY,
    /** Chases the needle once on course. */
    WEAVING,
    /** Turns the wrong way at the end of the intercepted leg. */
    WRONG_TURN;

    /** {@return name on the command line, lower case with hyphens} */
    @Override
    public String toString() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
