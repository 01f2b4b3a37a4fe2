package org.rejoin.bridge.route;

import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Position;

/**
 * A leg of an airway with what is published for it.
 *
 * @param flown whether it is flown in the order of the airway's points, or against it
 */
record AirwayLeg(Leg.TrackToFix leg, Airway.Segment published, Airway.Direction flown) {

    /** As near as this an altitude is kept, feet. */
    private static final double KEPT_FT = 0.5;

    /** The segment that ends where the leg ends; empty where the leg is of no airway. */
    static Optional<AirwayLeg> of(Chart chart, Leg flown) {
        if (!(flown instanceof Leg.TrackToFix leg) || leg.airway().isEmpty()) {
            return Optional.empty();
        }
        Optional<AirwayLeg> best = Optional.empty();
        double nearest = Double.MAX_VALUE;
        for (Airway airway : chart.airways(leg.airway().get())) {
            List<Waypoint> points = airway.points();
            for (int i = 0; i + 1 < points.size(); i++) {
                boolean forward = points.get(i + 1).equals(leg.to());
                if (!forward && !points.get(i).equals(leg.to())) {
                    continue;
                }
                // A leg that starts at a computed fix lies on the segment that is no detour by way of it.
                Position start = leg.fromFix().position();
                double detour = points.get(i).position().distanceNm(start)
                        + points.get(i + 1).position().distanceNm(start)
                        - points.get(i).position().distanceNm(points.get(i + 1).position());
                if (detour < nearest) {
                    nearest = detour;
                    best = Optional.of(new AirwayLeg(
                            leg,
                            airway.segments().get(i),
                            forward ? Airway.Direction.FORWARD : Airway.Direction.BACKWARD));
                }
            }
        }
        return best;
    }

    String airway() {
        return leg.airway().orElseThrow();
    }

    /** {@return feet above mean sea level; minus infinity where none is published} */
    double minimumFt() {
        return published.minimumAltitudeFt(flown).orElse(Double.NEGATIVE_INFINITY);
    }

    /** {@return feet above mean sea level; infinity where there is no limit} */
    double maximumFt() {
        return published.maximumAltitudeFt().orElse(Double.POSITIVE_INFINITY);
    }

    boolean minimumUnknown() {
        return published.minimumUnknown(flown);
    }

    boolean isBelow(double feet) {
        return feet < minimumFt() - KEPT_FT;
    }

    boolean isAbove(double feet) {
        return feet > maximumFt() + KEPT_FT;
    }
}
