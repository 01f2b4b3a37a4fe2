/**
 * Works out the layout of an unknown feed from what the aircraft did while it was recorded: positions give the motion,
 * and the motion tells every other field apart.
 *
 * <p>Start at {@link org.rejoin.bridge.learn.Learner}. Pure: datagrams in, a {@link
 * org.rejoin.bridge.learn.Learned} out. Method and measured rates: {@code docs/learning-a-feed.md}.
 */
@NullMarked
package org.rejoin.bridge.learn;

import org.jspecify.annotations.NullMarked;
