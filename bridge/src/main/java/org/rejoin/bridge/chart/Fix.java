package org.rejoin.bridge.chart;

import java.util.function.Function;

import org.rejoin.bridge.geo.Position;

/**
 * A point with a name and nothing that transmits: a published fix, a point typed as coordinates, a computed fix.
 *
 * @param ident as {@link Waypoint#ident()}
 * @param position WGS 84
 */
public record Fix(String ident, Position position) implements Waypoint {
    @Override
    public <R> R fold(Function<Station, R> station, Function<Fix, R> fix, Function<Airport, R> airport) {
        return fix.apply(this);
    }
}
