package org.rejoin.console.page;

/** Who looks at a page. */
enum Audience {
    /** Sees everything and acts. */
    INSTRUCTOR,
    /** Sees what the instructor shows. */
    STUDENT
}
