package org.rejoin.console.page;

import java.util.EnumSet;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/** What a piece of the picture is about: decides who sees it. */
enum Topic {
    /** Everyone. */
    OPEN,
    /** What must happen next; students see it unless the instructor hides it. */
    NEXT,
    /** The amended route and where the aircraft stands against it; likewise. */
    ROUTE,
    /** The running grade; likewise. */
    GRADE,
    /** Where the aircraft is and was; likewise. Hidden, the pilot finds out where he is by his own instruments. */
    POSITION,
    /** What ATC said, as text; likewise. It is heard in any case. */
    WORDS,
    /** The instructor alone. */
    INSTRUCTOR;

    /** What the instructor shows to students or hides. */
    static final Set<Topic> SHOWN = EnumSet.range(NEXT, WORDS);

    /** What the page calls it. */
    String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** What can be shown or hidden by that word. */
    static Optional<Topic> shown(String word) {
        return SHOWN.stream().filter(topic -> topic.word().equals(word)).findFirst();
    }
}
