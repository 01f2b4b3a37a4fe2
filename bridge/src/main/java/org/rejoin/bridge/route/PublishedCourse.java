package org.rejoin.bridge.route;

import java.util.Comparator;
import java.util.Optional;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;

/**
 * The magnetic course of a leg as a chart would print it: by the station that guides it, not by today's variation.
 * Guidance changes midway between stations (Aeronautical Information Manual 5-3-6), so the nearest station of the airway
 * is the one.
 */
public final class PublishedCourse {

    private PublishedCourse() {}

    /**
     * The magnetic course at the start of a leg.
     *
     * @param leg with a line
     * @param chart that shows its airway
     * @param situation for the variation off airways
     * @return degrees, [0, 360); empty for a leg without a line
     */
    public static Optional<Double> magneticDeg(Leg leg, Chart chart, Situation situation) {
        if (leg instanceof Leg.HeadingToIntercept heading) {
            return Optional.of(heading.heading().deg());
        }
        if (leg instanceof Leg.HeadingOnly heading) {
            return Optional.of(heading.heading().deg());
        }
        if (leg instanceof Leg.CourseToFix course) {
            return Optional.of(course.course().deg());
        }
        if (leg instanceof Leg.FixOutbound course) {
            return Optional.of(course.course().deg());
        }
        return leg.line().map(line -> {
            double at = leg.joinedAtNm();
            Optional<Station> guide = leg.airway().flatMap(airway -> guide(chart, airway, leg, line.pointAt(at)));
            return guide.map(station -> Radial.of(
                                    line.courseAt(at), station.declination().orElseThrow())
                            .deg())
                    .orElseGet(() -> line.courseAt(at)
                            .toMagnetic(situation.variationAt(line.pointAt(at)))
                            .deg());
        });
    }

    private static Optional<Station> guide(Chart chart, String ident, Leg leg, Position here) {
        return chart.airways(ident).stream()
                .filter(airway -> leg.endsAt().map(airway::passes).orElse(true))
                .flatMap(airway -> airway.points().stream())
                .filter(Station.class::isInstance)
                .map(Station.class::cast)
                .filter(station -> station.declination().isPresent())
                .min(Comparator.comparingDouble(station -> station.position().distanceNm(here)));
    }
}
