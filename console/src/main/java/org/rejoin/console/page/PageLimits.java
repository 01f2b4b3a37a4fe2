package org.rejoin.console.page;

/**
 * How much a page takes on. Limits of students are their own: whatever students do, an instructor finds room.
 *
 * @param connections open at once, whatever they are for; beyond it the least known one is closed for the newest
 * @param instructors streams of open instructors' pages; a page of a practice room has two or three
 * @param students streams of open students' pages
 * @param studentsAnAddress of them from one address
 * @param requestMs from the first octet of a request to its last, milliseconds
 * @param idleS a connection that asks for nothing is closed after so long, seconds
 */
record PageLimits(int connections, int instructors, int students, int studentsAnAddress, long requestMs, int idleS) {

    /** Two instructors with a window for each of a dozen seats, and a tablet at each (common practice, no source). */
    static final PageLimits USUAL = new PageLimits(256, 48, 80, 40, 10_000, 30);
}
