package org.rejoin.console.grade;

import java.util.Collection;
import java.util.Locale;

/** Whether a standard, or one criterion of it, was met. */
public enum Verdict {
    MET("met"),
    NOT_MET("NOT MET"),
    /** Not seen, not flown, or not due yet. */
    NOT_JUDGED("not judged");

    private final String words;

    Verdict(String words) {
        this.words = words;
    }

    /** {@return words for a card, capitals where it was not met} */
    public String words() {
        return words;
    }

    /** For running text. */
    public String inText() {
        return words.toLowerCase(Locale.ROOT);
    }

    /** Several together: not met where one is not, else not judged where one is not or there is none, else met. */
    static Verdict together(Collection<Verdict> all) {
        if (all.contains(NOT_MET)) {
            return NOT_MET;
        }
        return all.isEmpty() || all.contains(NOT_JUDGED) ? NOT_JUDGED : MET;
    }
}
