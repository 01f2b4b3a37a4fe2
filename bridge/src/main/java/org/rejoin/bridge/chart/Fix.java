package org.rejoin.bridge.chart;

import java.util.function.Function;

import org.rejoin.bridge.geo.Position;

import org.jspecify.annotations.Nullable;

/** A point with a name and nothing that transmits: a published fix, a point typed as coordinates, a computed fix. */
public record Fix(String ident, Position position) implements Waypoint {
    /** By plain calls, as of a {@link Station}. */
    @Override
    public boolean equals(@Nullable Object other) {
        return this == other || (other instanceof Fix it && ident.equals(it.ident) && position.equals(it.position));
    }

    @Override
    public int hashCode() {
        return ident.hashCode();
    }

    @Override
    public <R> R fold(Function<Station, R> station, Function<Fix, R> fix, Function<Airport, R> airport) {
        return fix.apply(this);
    }
}
