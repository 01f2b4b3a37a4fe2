/**
 * Tracker events as log lines for people and for machines.
 */
@NullMarked
package org.rejoin.console.log;

import org.jspecify.annotations.NullMarked;
