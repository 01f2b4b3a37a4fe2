package org.rejoin.console.truth;

import java.util.EnumSet;
import java.util.List;
import java.util.Locale;

/**
 * One thing a pilot does wrong.
 *
 * @param kind of mistake
 * @param size in the unit of the kind
 */
record Mistake(Kind kind, double size) {

    static final Mistake NONE = new Mistake(Kind.NONE, 0);

    /** Kinds, with the unit of their size. */
    enum Kind {
        NONE("flies well", ""),
        TURN_DELAYED("begins the turn onto the course late", "s"),
        CARRIED_PAST("holds the heading past the line", "NM"),
        SHORT_FOR("rolls out parallel 1.4 NM short, for a time", "s"),
        SHORT_BY("rolls out parallel short of the line for 40 s", "NM"),
        RECIPROCAL("turns onto the reciprocal, for a time", "s"),
        HEADING_OFF("holds a wrong heading", "deg"),
        WEAVING("weaves to either side of the course", "NM"),
        OFFSET("tracks beside the course", "NM"),
        PAST_FIX("flies on past the end of the leg", "NM"),
        WRONG_TURN("turns the wrong way at the end of the leg, for a time", "s"),
        REACTION("begins to turn to the heading late", "s"),
        ALTITUDE_OFF("flies beside the altitude", "ft"),
        BUMPS("goes 20 s beside the altitude, twice", "ft"),
        LEFT_EARLY("leaves the leg for the next one early", "NM"),
        NEVER_TURNED("holds the heading for good", ""),
        FIX_EARLY("begins the turn at the end of the leg early", "s"),
        OTHER_RADIAL("tracks another radial of the station", "deg"),
        WIND_IGNORED("holds the course as a heading in a crosswind, until 1.2 NM off", "kt"),
        GOES_BESIDE("comes to the line and goes on beside it", "NM");

        /** The mistakes of drawn flights; those after them are made in sweeps alone. */
        static final List<Kind> DRAWN = List.copyOf(EnumSet.range(NONE, NEVER_TURNED));

        private final String words;
        private final String unit;

        Kind(String words, String unit) {
            this.words = words;
            this.unit = unit;
        }

        String words() {
            return words;
        }

        String unit() {
            return unit;
        }
    }

    boolean is(Kind other) {
        return kind == other;
    }

    @Override
    public String toString() {
        return kind == Kind.NONE ? "none" : String.format(Locale.ROOT, "%s %.2f %s", kind, size, kind.unit());
    }
}
