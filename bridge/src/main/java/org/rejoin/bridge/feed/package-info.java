/**
 * The UDP socket, senders told apart, samples put in order and given their time. The only package of the bridge that sees
 * Netty.
 *
 * <p>Start at {@link org.rejoin.bridge.feed.AircraftSorter}: live it is fed by {@link org.rejoin.bridge.feed.UdpFeed}, afterwards
 * by a recording, and gives the same states both times. {@link org.rejoin.bridge.feed.SampleClock} decides which clock
 * to believe.
 */
@NullMarked
package org.rejoin.bridge.feed;

import org.jspecify.annotations.NullMarked;
