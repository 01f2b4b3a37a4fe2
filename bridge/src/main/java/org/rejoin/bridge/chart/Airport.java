package org.rejoin.bridge.chart;

import java.util.OptionalDouble;
import java.util.function.Function;

import org.rejoin.bridge.geo.Position;

import org.jspecify.annotations.Nullable;

/**
 * An airport.
 *
 * @param ident as {@link Waypoint#ident()}
 * @param name spoken name; the ident where the chart has none
 * @param position reference point, WGS 84
 * @param publishedElevationFt above mean sea level, feet; empty where the chart gives none
 */
public record Airport(String ident, String name, Position position, OptionalDouble publishedElevationFt)
        implements Waypoint {
    /** By plain calls, as of a {@link Station}. */
    @Override
    public boolean equals(@Nullable Object other) {
        return this == other
                || (other instanceof Airport it
                        && ident.equals(it.ident)
                        && name.equals(it.name)
                        && position.equals(it.position)
                        && publishedElevationFt.equals(it.publishedElevationFt));
    }

    @Override
    public int hashCode() {
        return ident.hashCode();
    }

    @Override
    public <R> R fold(Function<Station, R> station, Function<Fix, R> fix, Function<Airport, R> airport) {
        return airport.apply(this);
    }
}
