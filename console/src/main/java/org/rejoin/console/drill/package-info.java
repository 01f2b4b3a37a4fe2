/**
 * Drills: clearances drawn on any chart, to be flown, worked out on paper or read back; the next one for a pilot; a
 * sitting; a package for home. Start at {@link org.rejoin.console.drill.DrillMaker}.
 */
@NullMarked
package org.rejoin.console.drill;

import org.jspecify.annotations.NullMarked;
