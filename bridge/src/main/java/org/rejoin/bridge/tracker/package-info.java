/**
 * The flight against the amended route: samples in, events out. Pure and deterministic: no clock, no I/O. May use
 * {@code protocol}, {@code geo} and {@code route}.
 */
@NullMarked
package org.rejoin.bridge.tracker;

import org.jspecify.annotations.NullMarked;
