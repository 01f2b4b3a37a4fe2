package org.rejoin.bridge.route;

import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.AirwayGuide;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;

/**
 * The magnetic course of a leg as a chart would print it: by the station that guides it, not by today's variation.
 *
 * <p>Which station guides is said by {@link AirwayGuide}. No other publishes a course, however near it is.
 *
 * @param magneticDeg degrees, [0, 360)
 * @param station that publishes it; empty where it is by today's variation
 */
public record PublishedCourse(double magneticDeg, Optional<Station> station) {

    /** The magnetic course at the start of a leg; empty for a leg without a line. */
    public static Optional<PublishedCourse> of(Leg leg, Chart chart, Situation situation) {
        return leg.fold(new Leg.Cases<Optional<PublishedCourse>>(
                toIntercept -> of(toIntercept.heading().deg(), Optional.empty()),
                headingOnly -> of(headingOnly.heading().deg(), Optional.empty()),
                toFix -> of(toFix.course().deg(), Optional.of(toFix.station())),
                outbound -> of(outbound.course().deg(), station(outbound.station())),
                track -> Optional.of(track.airway()
                        .flatMap(airway -> published(chart, airway, track, situation))
                        .orElseGet(() -> byVariation(track.path(), track.joinedAtNm(), situation))),
                direct -> Optional.of(byVariation(direct.path(), 0, situation)),
                arc -> Optional.empty(),
                course -> of(course.course().deg(), station(course.fix())),
                hold -> of(hold.holding().inbound().deg(), Optional.empty())));
    }

    private static Optional<PublishedCourse> of(double magneticDeg, Optional<Station> station) {
        return Optional.of(new PublishedCourse(magneticDeg, station));
    }

    private static Optional<Station> station(Waypoint point) {
        return point instanceof Station station ? Optional.of(station) : Optional.empty();
    }

    /** The same in degrees, [0, 360). */
    public static Optional<Double> magneticDeg(Leg leg, Chart chart, Situation situation) {
        return of(leg, chart, situation).map(PublishedCourse::magneticDeg);
    }

    private static PublishedCourse byVariation(GeodesicLine line, double at, Situation situation) {
        return new PublishedCourse(
                line.courseAt(at)
                        .toMagnetic(situation.variationAt(line.pointAt(at)))
                        .deg(),
                Optional.empty());
    }

    private static Optional<PublishedCourse> published(
            Chart chart, String ident, Leg.TrackToFix leg, Situation situation) {
        Position here = leg.path().pointAt(leg.joinedAtNm());
        for (Airway airway : chart.airways(ident)) {
            int end = airway.points().indexOf(leg.to());
            if (end < 0) {
                continue;
            }
            // The way it is flown: the neighbour of the end on the side where the leg comes from.
            List<Waypoint> points = airway.points();
            boolean forward = end > 0
                    && (end == points.size() - 1
                            || detour(points.get(end - 1), leg) <= detour(points.get(end + 1), leg));
            return AirwayGuide.of(airway, forward ? end - 1 : end, forward, here)
                    .map(guide -> course(guide.station(), guide.otherEnd(), guide.ahead(), situation));
        }
        return Optional.empty();
    }

    private static double detour(Waypoint from, Leg.TrackToFix leg) {
        Position start = leg.fromFix().position();
        return from.position().distanceNm(start)
                + start.distanceNm(leg.to().position())
                - from.position().distanceNm(leg.to().position());
    }

    private static PublishedCourse course(Station station, Position other, boolean inbound, Situation situation) {
        TrueDirection out = station.position().to(other).initial();
        double radial = station.declination()
                .map(declination -> Radial.of(out, declination).deg())
                .orElseGet(() -> out.toMagnetic(situation.variationAt(station)).deg());
        return new PublishedCourse(new Radial(inbound ? radial + 180 : radial).deg(), Optional.of(station));
    }
}
