/**
 * Wires datagrams, clearances and trackers together. Start at {@code Seat}.
 */
@NullMarked
package org.rejoin.bridge;

import org.jspecify.annotations.NullMarked;
