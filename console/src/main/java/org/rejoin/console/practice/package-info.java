/**
 * The practice aircraft and its pilots. Sends over UDP like any simulator; the bridge knows nothing of it.
 */
@NullMarked
package org.rejoin.console.practice;

import org.jspecify.annotations.NullMarked;
