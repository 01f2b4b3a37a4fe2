/**
 * Works out the layout of an unknown feed from what the aircraft did while it was recorded: positions give the motion,
 * and the motion tells every other field apart.
 *
 * <p>Start at {@link org.rejoin.bridge.feed.learn.Learner}. Pure: datagrams in, a {@link
 * org.rejoin.bridge.feed.learn.Learned} out. Method and measured rates: wire-formats 5.3.
 */
@NullMarked
package org.rejoin.bridge.feed.learn;

import org.jspecify.annotations.NullMarked;
