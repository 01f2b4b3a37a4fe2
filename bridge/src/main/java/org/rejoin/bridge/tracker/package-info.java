/**
 * The flight against the amended route: samples in, events out. Pure and deterministic: no clock, no I/O. May use
 * {@code protocol}, {@code geo} and {@code route}.
 *
 * <p>A step goes from {@code before}, which is null at the first one and across a break, where nothing is concluded, to
 * {@code now}; {@code events} takes what happened. Times are flown seconds, {@code timeS} is as logged; distances to the
 * right of a line and turns to the right are positive.
 */
@NullMarked
package org.rejoin.bridge.tracker;

import org.jspecify.annotations.NullMarked;
