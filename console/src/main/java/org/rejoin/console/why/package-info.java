/**
 * Why an event is in the log: the flight around it, its geometry and the rule that fired. Pure. Start at {@link
 * org.rejoin.console.why.Explainer}.
 */
@NullMarked
package org.rejoin.console.why;

import org.jspecify.annotations.NullMarked;
