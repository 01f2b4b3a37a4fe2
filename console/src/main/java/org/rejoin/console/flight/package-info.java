/**
 * One flight from datagram to grade, live or from a recording. Start at {@link org.rejoin.console.flight.LessonFlights}. May
 * use everything but the pages and the command line.
 */
@NullMarked
package org.rejoin.console.flight;

import org.jspecify.annotations.NullMarked;
