package org.rejoin.bridge.route;

import java.util.HashSet;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Set;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Turn;

/** Whether the amended route can be flown: the checks that do not depend on its shape. */
final class RouteChecks {

    private static final double WEAK_GEOMETRY_DEG = 30;

    private RouteChecks() {}

    static void check(Chart chart, RouteAmender.Draft draft) {
        draft.computedFix.ifPresent(fix -> {
            if (fix.crossingAngleDeg() < WEAK_GEOMETRY_DEG) {
                draft.warn(
                        Warning.Code.WEAK_FIX_GEOMETRY,
                        "the radial and the airway cross at %.0f degrees, under %.0f: one degree of bearing error moves"
                                + " the fix %.1f NM along the airway",
                        fix.crossingAngleDeg(),
                        WEAK_GEOMETRY_DEG,
                        fix.definitions().get(0).distanceNm()
                                * Math.tan(Math.toRadians(1))
                                / Math.sin(Math.toRadians(Math.max(fix.crossingAngleDeg(), 0.1))));
            }
        });
        minimumAltitude(chart, draft);
        if (draft.heading.isPresent()) {
            MagneticModel.WMM2025
                    .field(
                            draft.situation.position(),
                            draft.situation.altitudeFt().orElse(0),
                            MagneticModel.decimalYear(draft.situation.date()))
                    .cautions()
                    .forEach(caution -> draft.warn(Warning.Code.MAGNETIC_MODEL, "%s", caution));
        }
    }

    /** The turn onto the radial, the ride along it, and the turn at the fix must fit one behind the other. */
    static void roomAtFix(RouteAmender.Draft draft, Intercept met, double rideNm, ComputedFix fix) {
        if (rideNm <= 0) {
            return;
        }
        double radius = Turn.standardRadiusNm(draft.situation.trueAirspeedKt());
        double lead = Turn.leadNm(radius, Math.min(Math.abs(fix.turnDeg()), 179));
        if (met.leadNm() + lead > rideNm) {
            draft.warn(
                    Warning.Code.NO_ROOM_TO_TURN,
                    "only %.2f NM along the radial: the turn onto it ends %.2f NM past the intercept and the turn at the"
                            + " fix starts %.2f NM before it",
                    rideNm,
                    met.leadNm(),
                    lead);
        }
    }

    private static void minimumAltitude(Chart chart, RouteAmender.Draft draft) {
        OptionalDouble assigned = draft.clearance.altitudeFt();
        OptionalDouble altitude = assigned.isPresent() ? assigned : draft.situation.altitudeFt();
        if (altitude.isEmpty()) {
            return;
        }
        Set<String> said = new HashSet<>();
        for (Leg leg : draft.legs) {
            if (leg instanceof Leg.TrackToFix track && track.airway().isPresent()) {
                String ident = track.airway().get();
                OptionalDouble minimum = chart.airway(ident)
                        .map(airway -> minimumFt(airway, track))
                        .orElse(OptionalDouble.empty());
                if (minimum.isPresent() && altitude.getAsDouble() < minimum.getAsDouble() - 0.5 && said.add(ident)) {
                    draft.warn(
                            Warning.Code.BELOW_MINIMUM_ALTITUDE,
                            "%s is flown at %.0f ft, its minimum en-route altitude toward %s is %.0f ft",
                            ident,
                            altitude.getAsDouble(),
                            track.to().ident(),
                            minimum.getAsDouble());
                }
            }
        }
    }

    /** The minimum of the segment that ends where the leg ends, whichever way it is flown. */
    private static OptionalDouble minimumFt(Airway airway, Leg.TrackToFix leg) {
        List<org.rejoin.bridge.chart.Waypoint> points = airway.points();
        int to = points.indexOf(leg.to());
        int from = points.indexOf(leg.fromFix());
        if (to < 0) {
            return OptionalDouble.empty();
        }
        if (from >= 0) {
            return airway.segments().get(Math.min(from, to)).minimumAltitudeFt();
        }
        // The leg starts at a computed fix: take the neighbour segment it lies on.
        OptionalDouble best = OptionalDouble.empty();
        double nearest = Double.MAX_VALUE;
        for (int i = Math.max(0, to - 1); i <= Math.min(to, points.size() - 2); i++) {
            double around = points.get(i).position().distanceNm(leg.fromFix().position())
                    + points.get(i + 1).position().distanceNm(leg.fromFix().position());
            double direct =
                    points.get(i).position().distanceNm(points.get(i + 1).position());
            if (around - direct < nearest) {
                nearest = around - direct;
                best = airway.segments().get(i).minimumAltitudeFt();
            }
        }
        return best;
    }
}
