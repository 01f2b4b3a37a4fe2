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
 * @param station that publishes it; empty where it is by today's variation, as by a station aligned to true north
 */
public record PublishedCourse(double magneticDeg, Optional<Station> station) {

    /** The magnetic course at the start of a leg; empty for a leg without a line. */
    public static Optional<PublishedCourse> of(Leg leg, Chart chart, Situation situation) {
        return leg.fold(new Leg.Cases<Optional<PublishedCourse>>(
                toIntercept -> of(toIntercept.heading().deg(), Optional.empty()),
                headingOnly -> of(headingOnly.heading().deg(), Optional.empty()),
                toFix -> by(toFix.station(), toFix.course(), toFix.path(), 0, situation),
                outbound ->
                        by(outbound.station(), outbound.course(), outbound.path(), outbound.joinedAtNm(), situation),
                track -> Optional.of(track.airway()
                        .flatMap(airway -> published(chart, airway, track, situation))
                        .orElseGet(() -> byVariation(track.path(), track.joinedAtNm(), situation))),
                direct -> Optional.of(byVariation(direct.path(), 0, situation)),
                arc -> Optional.empty(),
                course -> by(course.fix(), course.course(), course.path(), 0, situation),
                hold -> of(hold.holding().inbound().deg(), Optional.empty())));
    }

    private static Optional<PublishedCourse> of(double magneticDeg, Optional<Station> station) {
        return Optional.of(new PublishedCourse(magneticDeg, station));
    }

    /** What is set on the radial of a station aligned to true north is no magnetic course. */
    private static Optional<PublishedCourse> by(
            Waypoint point, Radial course, GeodesicLine path, double at, Situation situation) {
        if (!(point instanceof Station station)) {
            return of(course.deg(), Optional.empty());
        }
        return station.isAlignedToTrueNorth()
                ? Optional.of(byVariation(path, at, situation))
                : of(course.deg(), Optional.of(station));
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
                    .map(guide -> guide.station().isAlignedToTrueNorth()
                            ? byVariation(leg.path(), leg.joinedAtNm(), situation)
                            : course(guide.station(), guide.otherEnd(), guide.ahead(), situation));
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
