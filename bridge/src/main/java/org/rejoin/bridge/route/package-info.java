/**
 * Filed route, clearance, position and wind to an amended route of ARINC 424 legs, with the working. Pure. May use
 * {@code geo}, {@code chart} and {@code clearance}.
 */
@NullMarked
package org.rejoin.bridge.route;

import org.jspecify.annotations.NullMarked;
