package org.rejoin.console.practice;

/** How the practice pilot flies. Each habit but the first shows one fault. */
public enum Habit {
    /** Takes a sound lead, tracks, turns the right way. */
    GOOD("good"),
    /** Begins the turn onto the course after crossing it, and gently. */
    LATE("late"),
    /** Crosses the line and flies on before noticing. */
    FLY_THROUGH("fly-through"),
    /** Turns onto the reciprocal of the course. */
    RECIPROCAL("reciprocal"),
    /** Rolls out parallel to the course, short of it. */
    EARLY("early"),
    /** Chases the needle once on course. */
    WEAVING("weaving"),
    /** Turns the wrong way at the end of the intercepted leg. */
    WRONG_TURN("wrong-turn");

    private final String option;

    Habit(String option) {
        this.option = option;
    }

    /** {@return name on the command line, lower case with hyphens} */
    @Override
    public String toString() {
        return option;
    }
}
