package org.rejoin.bridge.chart;

import org.rejoin.bridge.geo.Position;

/** A named point a route can go to. */
public sealed interface Waypoint permits Station, Fix, Airport {
    /**
     * Identifier as written on the chart and in a route.
     *
     * @return upper case letters and digits; a computed or typed point carries what it was typed or named as
     */
    String ident();

    /**
     * Where it is.
     *
     * @return WGS 84
     */
    Position position();
}
