package org.rejoin.console.page;

/**
 * One piece of the picture on its way to browsers.
 *
 * @param topic decides who sees it
 * @param kept whether a page opened later needs it too
 * @param replaces what an earlier one of the same name is replaced by, where only the last counts; empty text otherwise
 * @param json one object on one line
 */
record Message(Topic topic, boolean kept, String replaces, String json) {

    static Message kept(Topic topic, String json) {
        return new Message(topic, true, "", json);
    }

    static Message latest(Topic topic, String name, String json) {
        return new Message(topic, true, name, json);
    }

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

    /** Who looks at a page. */
    enum Audience {
        /** Sees everything and acts. */
        INSTRUCTOR,
        /** Sees what the instructor shows. */
        STUDENT
    }
}
