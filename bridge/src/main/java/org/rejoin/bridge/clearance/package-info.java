/**
 * ATC's words to a {@link org.rejoin.bridge.clearance.Clearance}, or to the words that were not understood; the filed
 * route; readback; saying it back. No geometry. May use {@code chart}.
 */
@NullMarked
package org.rejoin.bridge.clearance;

import org.jspecify.annotations.NullMarked;
