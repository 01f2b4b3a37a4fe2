/** Tables for other programs: columns said once, written as CSV or as JSON. Pure. Start at {@code Table}. */
@NullMarked
package org.rejoin.console.table;

import org.jspecify.annotations.NullMarked;
