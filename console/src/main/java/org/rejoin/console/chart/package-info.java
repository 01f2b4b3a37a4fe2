/**
 * A chart in words and as JSON.
 */
@NullMarked
package org.rejoin.console.chart;

import org.jspecify.annotations.NullMarked;
