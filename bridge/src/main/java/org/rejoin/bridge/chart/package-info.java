/**
 * Stations, fixes, airways and airports, and checked lookups among them. Start at {@link org.rejoin.bridge.chart.Chart}.
 * May use {@code geo}. Pure; the readers live in {@code chart.io}.
 */
@NullMarked
package org.rejoin.bridge.chart;

import org.jspecify.annotations.NullMarked;
