/**
 * Earth-centred coordinates and attitudes on WGS 84, as DIS and some profiles send them. Pure.
 *
 * <p>Start at {@link org.rejoin.protocol.earth.Geodetic}.
 */
@NullMarked
package org.rejoin.protocol.earth;

import org.jspecify.annotations.NullMarked;
