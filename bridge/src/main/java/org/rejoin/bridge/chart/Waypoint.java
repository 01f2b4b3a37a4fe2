package org.rejoin.bridge.chart;

import java.util.function.Function;

import org.rejoin.bridge.geo.Position;

/** A named point a route can go to. */
public sealed interface Waypoint permits Station, Fix, Airport {
    /**
     * Identifier as written on the chart and in a route; upper case letters and digits; a computed or typed point
     * carries what it was typed or named as.
     */
    String ident();

    /** {@return where it is, WGS 84} */
    Position position();

    /** Reads whichever it is. */
    <R> R fold(Function<Station, R> station, Function<Fix, R> fix, Function<Airport, R> airport);
}
