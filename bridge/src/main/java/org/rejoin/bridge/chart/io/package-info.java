/**
 * Readers of chart files: our YAML and ARINC 424. Start at {@code ChartReader}. Gives back what is good and a list of
 * problems with line and remedy; the command decides what a problem means.
 */
@NullMarked
package org.rejoin.bridge.chart.io;

import org.jspecify.annotations.NullMarked;
