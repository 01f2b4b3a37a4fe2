/**
 * The one drawing of chart and routes, true north up, and what it is written with. Brief and report write it as SVG; the
 * page gets the same lines as numbers for its canvas. Start at {@code Plan}. Pure.
 */
@NullMarked
package org.rejoin.console.draw;

import org.jspecify.annotations.NullMarked;
