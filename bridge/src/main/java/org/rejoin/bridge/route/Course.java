package org.rejoin.bridge.route;

import java.util.Optional;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
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

    /**
     * The radial along which a leg of an airway runs.
     *
     * @param leg of an airway
     * @return of the station at its nearer end from where it is joined; empty where no station there gives radials
     */
    static Optional<Course> along(Leg.TrackToFix leg) {
        boolean nearStart = leg.joinedAtNm() <= leg.path().lengthNm() / 2;
        Optional<Course> from = of(leg.fromFix(), Direction.FROM, leg.path());
        Optional<Course> to = of(leg.to(), Direction.TO, leg.path().reversed());
        return nearStart ? from.or(() -> to) : to.or(() -> from);
    }

    private static Optional<Course> of(Waypoint end, Direction direction, GeodesicLine outbound) {
        return end instanceof Station station && station.kind().hasRadials()
                ? station.declination()
                        .map(north ->
                                new Course(station, Radial.of(outbound.initialCourse(), north), direction, outbound))
                : Optional.empty();
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
