package org.rejoin.bridge.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Crossing;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.Radial;

/**
 * The ways to name a computed fix: the cleared radial and a distance, then the best crossing radials of other stations,
 * then distances along the airway.
 */
final class FixDefinitions {

    /** More than this many are no help in a cockpit. */
    private static final int MOST = 6;

    /** A DME this close to the line flown gives a usable distance, degrees (FAA Order 8260.3, fix criteria). */
    private static final double ALIGNED_DEG = 23;

    private FixDefinitions() {}

    static List<ComputedFix.Definition> of(
            Chart chart, Station cleared, Radial radial, boolean byArc, Crossing crossing, OptionalDouble altitudeFt) {
        String first = byArc ? "arc" : RadialDistance.word(cleared);
        List<ComputedFix.Definition> crossingRadials = new ArrayList<>();
        List<ComputedFix.Definition> distances = new ArrayList<>();
        for (Station station : chart.stations()) {
            if (station.equals(cleared)
                    || station.declination().isEmpty()
                    || !station.kind().hasRadials()) {
                continue;
            }
            Geodesics.Inverse line = station.position().to(crossing.position());
            OptionalDouble reach = serviceRadiusNm(station, altitudeFt);
            if (line.distanceNm() < 0.1 || (reach.isPresent() && line.distanceNm() > reach.getAsDouble())) {
                continue;
            }
            double toRadial = Angles.acute(line.onward().turnTo(crossing.firstCourse()));
            double toAirway = Angles.acute(line.onward().turnTo(crossing.secondCourse()));
            double angle = Math.min(toRadial, toAirway);
            Radial other = Radial.of(line.initial(), station.declination().get());
            double least = minimumDivergenceDeg(line.distanceNm());
            if (angle >= least) {
                crossingRadials.add(new ComputedFix.Definition(
                        station,
                        other,
                        station.distancePosition().distanceNm(crossing.position()),
                        angle,
                        ComputedFix.Use.CROSSING_RADIAL,
                        String.format(
                                Locale.ROOT,
                                "cuts the %s at %.0f and the airway at %.0f degrees; %.0f is enough at this range",
                                first,
                                toRadial,
                                toAirway,
                                least)));
            } else if (station.kind().hasDistance() && angle <= ALIGNED_DEG) {
                distances.add(new ComputedFix.Definition(
                        station,
                        other,
                        station.distancePosition().distanceNm(crossing.position()),
                        angle,
                        ComputedFix.Use.DISTANCE,
                        useless(angle, toAirway < toRadial ? "the airway" : "the " + first)));
            }
        }
        crossingRadials.sort(Comparator.comparingDouble((ComputedFix.Definition each) -> -each.crossingAngleDeg()));
        distances.sort(Comparator.comparingDouble(ComputedFix.Definition::distanceNm));
        List<ComputedFix.Definition> all = new ArrayList<>();
        all.add(new ComputedFix.Definition(
                cleared,
                radial,
                cleared.distancePosition().distanceNm(crossing.position()),
                crossing.acuteAngleDeg(),
                ComputedFix.Use.CLEARED_RADIAL,
                byArc ? "where the arc meets the airway" : "the " + first + " of the clearance"));
        all.addAll(crossingRadials);
        all.addAll(distances);
        return all.subList(0, Math.min(MOST, all.size()));
    }

    /**
     * Least angle between radials that make a fix, degrees: 30 up to 30 NM from the station of the crossing radial, one
     * more for each mile, 45 from 45 NM on (FAA Order JO 7110.65, 4-1-5).
     */
    static double minimumDivergenceDeg(double distanceNm) {
        return Math.min(45, Math.max(30, distanceNm));
    }

    /** How far a station may be used at an altitude, nautical miles; empty where the chart gives it no class. */
    static OptionalDouble serviceRadiusNm(Station station, OptionalDouble altitudeFt) {
        return station.serviceClass()
                .map(serviceClass -> OptionalDouble.of(
                        altitudeFt.isPresent()
                                ? serviceClass.radiusNm(altitudeFt.getAsDouble() - station.elevationFt())
                                : serviceClass.largestRadiusNm()))
                .orElse(OptionalDouble.empty());
    }

    /** A station of the airway itself lies on it: no degrees need be told. */
    private static String useless(double angleDeg, String line) {
        String where = angleDeg < 0.5
                ? "lies on " + line
                : String.format(Locale.ROOT, "within %.0f degrees of ", angleDeg) + line;
        return where + ": good for a distance, useless as a crossing radial";
    }
}
