/**
 * Wires datagrams, clearances and trackers together. Start at {@code FlightSession}.
 */
@NullMarked
package org.rejoin.bridge;

import org.jspecify.annotations.NullMarked;
