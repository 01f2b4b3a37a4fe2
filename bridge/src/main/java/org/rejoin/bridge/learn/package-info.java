/**
 * Works out the layout of an unknown feed from what the aircraft did while it was recorded: positions give the motion,
 * and the motion tells every other field apart.
 *
 * <p>Start at {@link org.rejoin.bridge.learn.Learner}. Pure: datagrams in, a {@link
 * org.rejoin.bridge.learn.Learned} out. Method and measured rates: {@code docs/learning-a-feed.md}.
 *
 * <p>The limits in this package have no source, unless one stands beside them: they were set on flights of the practice
 * aircraft and on layouts written by another hand, so that nothing wrong is called sure. A name that ends in R2 is the least
 * share of the variance that a line must explain.
 */
@NullMarked
package org.rejoin.bridge.learn;

import org.jspecify.annotations.NullMarked;
