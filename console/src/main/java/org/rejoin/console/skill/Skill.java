package org.rejoin.console.skill;

import java.util.Arrays;
import java.util.Optional;

/** What is estimated of a pilot, one number each. */
public enum Skill {
    /** The elements of a clearance read back right. */
    HEAR("reads the clearance back right", 195),
    /** Which course, TO or FROM, of the right station. */
    COURSE("sets the right station, course and TO or FROM", 195),
    /** The assigned heading. */
    HEADING("turns to the assigned heading and holds it", 390),
    /** Lead and closing angle. */
    INTERCEPT("leads the turn onto the course", 195),
    /** Keeping the course in the wind. */
    TRACK("tracks the course in the wind", 390),
    /** The turn at the fix: which way, when, and what comes after it. */
    FIX("turns the right way at the fix and sequences it", 195),
    /** Altitude and speed meanwhile. */
    SECOND("holds altitude and speed meanwhile", 390),
    /** Time lost against the best flyable path. The reference gives no half-life; speed of work is taken. */
    TIMELY("loses little time", 390);

    private final String says;
    private final double halfLifeDays;

    Skill(String says, double halfLifeDays) {
        this.says = says;
        this.halfLifeDays = halfLifeDays;
    }

    /** {@return what a pilot who has it does; a verb and its object, for "he ..." or "the pilot ..."} */
    public String says() {
        return says;
    }

    /**
     * How long half of the gain lasts without practice, days: 6.5 months for accuracy of a procedure, 13 for speed and
     * for mixed skills (Tatel and Ackerman, Psychological Bulletin, 2025, doi 10.1037/bul0000481).
     */
    public double halfLifeDays() {
        return halfLifeDays;
    }

    /** A skill by name, in any case; empty where there is none. */
    public static Optional<Skill> named(String name) {
        return Arrays.stream(values())
                .filter(skill -> skill.name().equalsIgnoreCase(name.trim()))
                .findFirst();
    }
}
