/**
 * Recordings: raw datagrams in a classic capture file, and what stands beside it. Reads torn tails up to the tear.
 */
@NullMarked
package org.rejoin.console.recording;

import org.jspecify.annotations.NullMarked;
