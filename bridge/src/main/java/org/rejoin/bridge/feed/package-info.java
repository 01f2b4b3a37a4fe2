/**
 * The UDP socket, senders told apart, samples put in order and given their time. The only package of the bridge that sees
 * Netty.
 */
@NullMarked
package org.rejoin.bridge.feed;

import org.jspecify.annotations.NullMarked;
