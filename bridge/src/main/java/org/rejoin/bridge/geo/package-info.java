/**
 * Points, directions and geodesics on WGS 84, crossings, cross-track, the magnetic model and the wind triangle.
 *
 * <p>Start at {@link org.rejoin.bridge.geo.Position} and {@link org.rejoin.bridge.geo.GeodesicLine}. Pure: no clock, no
 * file but the model's coefficients on the class path, no thread. The only package that sees GeographicLib.
 */
@NullMarked
package org.rejoin.bridge.geo;

import org.jspecify.annotations.NullMarked;
