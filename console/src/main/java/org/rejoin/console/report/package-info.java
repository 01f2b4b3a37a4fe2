/**
 * The debrief as one page to read, sign and print, and the flight in open formats for other programs. Start at {@link
 * org.rejoin.console.report.Report}. Pure but for the directory it is given.
 */
@NullMarked
package org.rejoin.console.report;

import org.jspecify.annotations.NullMarked;
