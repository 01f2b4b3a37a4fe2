/**
 * A flight over a real socket: feed, recording, terminal and page wired around it. Start at {@code LiveFlight}.
 */
@NullMarked
package org.rejoin.console.live;

import org.jspecify.annotations.NullMarked;
