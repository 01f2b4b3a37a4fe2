package org.rejoin.bridge.chart;

import org.rejoin.bridge.geo.Position;

/**
 * An airport.
 *
 * @param ident as {@link Waypoint#ident()}
 * @param name spoken name; the ident where the chart has none
 * @param position reference point, WGS 84
 * @param elevationFt above mean sea level, feet
 */
public record Airport(String ident, String name, Position position, double elevationFt) implements Waypoint {}
