/**
 * The live page: what a flight looks like while it is flown, served to browsers, and what an instructor does from there.
 * Start at {@link org.rejoin.console.page.PageServer}. Flight logic runs on the flight's thread only; the page's own
 * thread gets immutable pieces through bounded queues.
 */
@NullMarked
package org.rejoin.console.page;

import org.jspecify.annotations.NullMarked;
