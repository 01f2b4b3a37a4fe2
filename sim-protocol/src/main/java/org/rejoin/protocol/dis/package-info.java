/**
 * Distributed Interactive Simulation, IEEE 1278.1, protocol versions 5 to 7: Entity State and its neighbours.
 *
 * <p>Start at {@link org.rejoin.protocol.dis.DisFormat}.
 */
@NullMarked
package org.rejoin.protocol.dis;

import org.jspecify.annotations.NullMarked;
