/**
 * How things are said: one spelling of a clock, a place, a direction, a side, a course, an amended route. Pure. Start at
 * {@code Words}; {@code RouteWords} says what a clearance came to.
 */
@NullMarked
package org.rejoin.console.words;

import org.jspecify.annotations.NullMarked;
