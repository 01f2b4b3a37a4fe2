/**
 * What arrives on a port, sender by sender, and what of it can be graded. Start at {@code WatchBoard}.
 */
@NullMarked
package org.rejoin.console.watch;

import org.jspecify.annotations.NullMarked;
