/**
 * ATC's words to a {@link org.rejoin.bridge.clearance.Clearance}, or to the words that were not understood; the filed
 * route; readback; saying it back. No geometry beyond distances and declinations. May use {@code chart} and {@code geo}.
 *
 * <p>Start at {@link org.rejoin.bridge.clearance.ClearanceReader} and the grammar {@code ClearanceLanguage.g4}; for the
 * filed route at {@link org.rejoin.bridge.clearance.FiledRouteReader}. The package {@code grammar} below is generated
 * from the grammar, and nobody else's business.
 */
@NullMarked
package org.rejoin.bridge.clearance;

import org.jspecify.annotations.NullMarked;
