package org.rejoin.bridge.route;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Radial;

/**
 * The course of a radial (or bearing) that is to be intercepted.
 *
 * @param radial as cleared, FROM the station, in the station's reference (today's variation for an NDB)
 */
public record Course(Station station, Radial radial, Direction direction, GeodesicLine outbound) {

    /** Which way a radial is flown. */
    public enum Direction {
        /** Toward the station. */
        TO,
        /** Away from the station. */
        FROM
    }

    /** {@return the name of the line; as it is said: "AAA 078 radial", or "250 bearing from NNB" for an NDB} */
    public String name() {
        return name(station, radial);
    }

    static String name(Station station, Radial radial) {
        String figures = Angles.figures(radial.deg());
        return station.kind() == Station.Kind.NDB
                ? figures + " bearing from " + station.ident()
                : station.ident() + " " + figures + " radial";
    }

    /** {@return the course to set; in the station's reference: the radial when flown FROM, its reciprocal when flown TO} */
    public Radial courseToSet() {
        return direction == Direction.FROM ? radial : radial.reciprocal();
    }
}
