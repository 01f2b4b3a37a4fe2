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

    /** Reads whichever it is; a kind more is a function more. */
    default <R> R fold(Function<Station, R> onStation, Function<Fix, R> onFix, Function<Airport, R> onAirport) {
        if (this instanceof Station station) {
            return onStation.apply(station);
        }
        return this instanceof Fix fix ? onFix.apply(fix) : onAirport.apply((Airport) this);
    }
}
