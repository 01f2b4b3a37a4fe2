/**
 * A clearance worked out on paper: the amended route as words, as JSON and as a drawing. Start at {@code Brief}.
 */
@NullMarked
package org.rejoin.console.brief;

import org.jspecify.annotations.NullMarked;
