/**
 * What travels between a simulator and the bridge: datagrams in, aircraft states out, and back again.
 *
 * <p>Start at {@link org.rejoin.protocol.WireFormat}. May use the JDK and Jackson; knows no socket, no chart and no
 * clock, so that a capture on disk decodes exactly as the live feed did.
 */
@NullMarked
package org.rejoin.protocol;

import org.jspecify.annotations.NullMarked;
