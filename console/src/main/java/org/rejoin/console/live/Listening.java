package org.rejoin.console.live;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.Set;

/**
 * Where a flight is listened for.
 *
 * @param senders the only ones to hear; all where there are none
 */
public record Listening(InetSocketAddress bind, Set<InetAddress> senders) {}
