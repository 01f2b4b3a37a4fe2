package org.rejoin.console.page;

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
    INSTRUCTOR
}
