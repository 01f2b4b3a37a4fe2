/**
 * The best flyable path for a clearance, from where it was heard, and what flying another one cost. Pure. Start at {@link
 * org.rejoin.console.best.Comparison}.
 */
@NullMarked
package org.rejoin.console.best;

import org.jspecify.annotations.NullMarked;
