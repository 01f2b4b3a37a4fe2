/**
 * Verdicts judged from outside: an aircraft, pilots and geometry of their own say what truly happened, {@code debrief} says
 * what the program makes of it. Nothing here may use the tracker or the grade.
 */
@NullMarked
package org.rejoin.console.truth;

import org.jspecify.annotations.NullMarked;
