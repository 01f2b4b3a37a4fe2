/**
 * All wire formats together, and how to tell them apart.
 *
 * <p>Start at {@link org.rejoin.protocol.detect.WireFormats}.
 */
@NullMarked
package org.rejoin.protocol.detect;

import org.jspecify.annotations.NullMarked;
