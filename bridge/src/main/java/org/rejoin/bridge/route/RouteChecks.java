package org.rejoin.bridge.route;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;

/** Whether the amended route can be flown: the checks that do not depend on its shape. */
final class RouteChecks {

    private static final double WEAK_GEOMETRY_DEG = 30;

    /** So far off an arc one is before the DME shows another tenth, nautical miles. */
    private static final double OFF_ARC_NM = 0.1;

    /** More drift than this is no usual wind, degrees (common practice, no source). */
    private static final double MOST_DRIFT_DEG = 45;

    private RouteChecks() {}

    static void check(Chart chart, AmendmentDraft draft) {
        draft.computedFix
                .filter(fix -> fix.crossingAngleDeg() < WEAK_GEOMETRY_DEG)
                .ifPresent(fix -> weakGeometry(draft, fix));
        draft.computedFix.ifPresent(fix -> roomAfterFix(draft, fix));
        behind(draft);
        flownTwice(draft);
        strongWind(draft);
        airwayAltitudes(chart, draft);
        crossings(chart, draft);
        AssignedChecks.check(draft);
        windTooStrong(draft);
        farAway(draft);
        MagneticModel.WMM2025
                .field(
                        draft.situation.position(),
                        draft.situation.altitudeFt().orElse(0),
                        MagneticModel.decimalYear(draft.situation.date()))
                .cautions()
                .forEach(caution -> draft.warn(Warning.Code.MAGNETIC_MODEL, "%s", caution));
    }

    /** A radial that the heading does not meet: whether its line, or the station to which it is flown, lies behind. */
    private static void behind(AmendmentDraft draft) {
        if (!missesItsCourse(draft)) {
            return;
        }
        Course course = draft.course.orElseThrow();
        double past = -course.outbound().offset(draft.situation.position()).alongTrackNm();
        boolean said = draft.warnings.stream().anyMatch(each -> each.code() == Warning.Code.CROSSING_BEHIND);
        if (course.direction() == Course.Direction.TO && !said) {
            past(draft, course, past, course.station().ident());
        }
        crossedBehindNm(draft)
                .ifPresent(behind -> draft.warn(
                        Warning.Code.CROSSING_BEHIND,
                        "the line of this heading crosses the %s %.1f NM behind the aircraft",
                        course.name(),
                        behind));
    }

    private static boolean missesItsCourse(AmendmentDraft draft) {
        return draft.course.isPresent()
                && draft.heading.isPresent()
                && draft.warnings.stream().anyMatch(each -> each.code() == Warning.Code.HEADING_DOES_NOT_REACH_COURSE);
    }

    /**
     * How far behind the aircraft the line of its heading crosses the radial that it does not meet, nautical miles;
     * empty where it does meet it, or crosses it nowhere.
     */
    static OptionalDouble crossedBehindNm(AmendmentDraft draft) {
        if (!missesItsCourse(draft)) {
            return OptionalDouble.empty();
        }
        GeodesicLine outbound = draft.course.orElseThrow().outbound();
        return draft.heading.orElseThrow().path().crossing(outbound).stream()
                .filter(met -> met.alongFirstNm() <= 0
                        && met.alongFirstNm() > -Intercepts.BEHIND_NM
                        && Intercepts.within(met.alongSecondNm(), outbound))
                .mapToDouble(met -> -met.alongFirstNm())
                .findFirst();
    }

    /** What a radial is flown to, the computed fix or the station, left behind by an aircraft past it. */
    static void past(AmendmentDraft draft, Course course, double pastNm, String end) {
        if (pastNm > 0) {
            draft.warn(
                    Warning.Code.CROSSING_BEHIND,
                    "along the %s the aircraft is %.1f NM past %s: it lies behind",
                    course.name(),
                    pastNm,
                    end);
        }
    }

    private static void weakGeometry(AmendmentDraft draft, ComputedFix fix) {
        boolean arc = draft.legs.stream().anyMatch(leg -> leg instanceof Leg.DmeArc && leg.endsAt(fix.fix()));
        double offNm = arc ? OFF_ARC_NM : fix.definitions().get(0).distanceNm() * Math.tan(Math.toRadians(1));
        draft.warn(
                Warning.Code.WEAK_FIX_GEOMETRY,
                "the %s and the airway cross at %.0f degrees, under %.0f: %s moves the fix %.1f NM along the airway",
                arc ? "arc" : "radial",
                fix.crossingAngleDeg(),
                WEAK_GEOMETRY_DEG,
                arc ? "a tenth of a mile off the arc" : "one degree of bearing error",
                offNm / Math.sin(Math.toRadians(Math.max(fix.crossingAngleDeg(), 0.1))));
    }

    /** Off published routes only; the leg along the airway is not meant (Aeronautical Information Manual 1-1-8 c). */
    static void used(AmendmentDraft draft, Station station, double distanceNm) {
        FixDefinitions.serviceRadiusNm(station, draft.altitudeFt()).stream()
                .filter(radius -> distanceNm > radius)
                .forEach(radius -> draft.warn(
                        Warning.Code.OUT_OF_SERVICE_VOLUME,
                        "the clearance uses %s %.1f NM from the station; its standard service volume (class %s) %s %s",
                        station.ident(),
                        distanceNm,
                        station.serviceClass().map(Enum::name).orElse("?"),
                        radius > 0 ? String.format(Locale.ROOT, "ends at %.0f NM", radius) : "has no reach",
                        draft.atAltitude()));
    }

    /** Where a line is left is found by the station that the words name for it. */
    static void usedAtEnd(AmendmentDraft draft, FlownLine line, Position end) {
        line.until()
                .flatMap(until -> until.fold(
                        at -> Optional.of(at.station()),
                        at -> Optional.of(at.station()),
                        at -> Optional.empty(),
                        at -> Optional.empty()))
                .filter(station -> !line.beginsAt(station))
                .ifPresent(station -> used(draft, station, station.position().distanceNm(end)));
    }

    /** The turn onto the radial, the ride along it, and the turn at the fix must fit one behind the other. */
    static void roomAtFix(AmendmentDraft draft, Intercept met, double rideNm, ComputedFix fix) {
        if (rideNm > 0 && fix.roomNm(met, draft.situation) < 0) {
            draft.warn(
                    Warning.Code.NO_ROOM_TO_TURN,
                    "only %.2f NM along the radial: the turn onto it ends %.2f NM past the intercept and the turn at the"
                            + " fix starts %.2f NM before it",
                    rideNm,
                    met.standardTurnLeadNm(),
                    fix.standardTurnLeadNm(draft.situation));
        }
    }

    /** A direct back to an earlier point leads over the points between once more: nobody amends a route to that end. */
    private static void flownTwice(AmendmentDraft draft) {
        List<Waypoint> filed = draft.filed.points();
        Map<Waypoint, Integer> reached = new LinkedHashMap<>();
        for (int i = 0; i < draft.legs.size(); i++) {
            Waypoint to = draft.legs.get(i).endsAt().orElse(null);
            if (to == null || draft.legs.get(i) instanceof Leg.HoldAtFix) {
                continue;
            }
            Integer first = reached.putIfAbsent(to, i);
            if (first == null || filed.indexOf(to) != filed.lastIndexOf(to)) {
                continue;
            }
            Leg back = draft.legs.get(first + 1);
            draft.choice(
                    "the route comes over %s twice: from there back to %s, %.1f NM, and over it again on the way on; say"
                            + " so, and ask which is meant",
                    to.ident(),
                    back.endsAt().map(Waypoint::ident).orElse("where it came from"),
                    back.groundPath().map(GroundPath::lengthNm).orElse(0.0));
            return;
        }
    }

    /** What a turn takes before its fix it takes after it too. */
    private static void roomAfterFix(AmendmentDraft draft, ComputedFix fix) {
        int at = RouteEnd.legTo(draft, fix.fix());
        if (at < 0 || at + 1 >= draft.legs.size() || !(draft.legs.get(at + 1) instanceof Leg.TrackToFix next)) {
            return;
        }
        double lead = fix.standardTurnLeadNm(draft.situation);
        int last = Intercepts.straightTo(draft, at + 1);
        double length = Intercepts.lengthNm(draft, at + 1, last) - next.joinedAtNm();
        if (lead > length) {
            String end = draft.legs.get(last).endsAt().orElse(next.to()).ident();
            draft.warn(
                    Warning.Code.NO_ROOM_TO_TURN,
                    "the turn at %s ends %.2f NM past it, and the leg to %s is %.2f NM: the turn ends past %s",
                    fix.fix().ident(),
                    lead,
                    end,
                    length,
                    end);
        }
    }

    /** With so much drift a small error of wind or heading makes quite another track. */
    private static void strongWind(AmendmentDraft draft) {
        draft.heading.ifPresent(plan -> {
            double drift = plan.headingTrue().turnTo(plan.ground().track());
            if (Math.abs(drift) > MOST_DRIFT_DEG) {
                draft.warn(
                        Warning.Code.STRONG_WIND,
                        "on heading %s the wind of %.0f kt carries the aircraft %s %s of where it points, at"
                                + " %.0f kt over the ground: check the wind and the airspeed, ask for another heading",
                        Angles.figures(plan.magnetic().deg()),
                        draft.situation.wind().speedKt(),
                        Angles.degrees(Math.abs(drift)),
                        drift > 0 ? "right" : "left",
                        plan.ground().groundSpeedKt());
            }
        });
    }

    /** The lowest or the highest altitude of an airway. */
    private record Limit(Warning.Code code, String name, boolean lowest) {

        double feet(AirwayLeg leg) {
            return lowest ? leg.minimumFt() : leg.maximumFt();
        }

        boolean isPassed(AirwayLeg leg, double altitudeFt) {
            return lowest ? leg.isBelow(altitudeFt) : leg.isAbove(altitudeFt);
        }

        /** The leg of the two that allows less. */
        AirwayLeg tighter(AirwayLeg one, AirwayLeg other) {
            boolean second = lowest ? feet(other) > feet(one) : feet(other) < feet(one);
            return second ? other : one;
        }
    }

    private static final List<Limit> LIMITS = List.of(
            new Limit(Warning.Code.BELOW_MINIMUM_ALTITUDE, "minimum en-route altitude", true),
            new Limit(Warning.Code.ABOVE_MAXIMUM_ALTITUDE, "maximum altitude", false));

    /** Of each airway the leg that is flown farthest outside its altitudes, and the first whose minimum is not known. */
    private static void airwayAltitudes(Chart chart, AmendmentDraft draft) {
        Map<AirwayLeg, Optional<Instruction.Maintain>> flown = new LinkedHashMap<>();
        for (int i = 0; i < draft.legs.size(); i++) {
            Optional<Instruction.Maintain> assigned = draft.assigned(i);
            AirwayLeg.of(chart, draft.legs.get(i)).ifPresent(leg -> flown.putIfAbsent(leg, assigned));
        }
        for (Limit limit : LIMITS) {
            Map<String, AirwayLeg> passed = new LinkedHashMap<>();
            flown.forEach((leg, assigned) -> {
                OptionalDouble feet =
                        assigned.map(said -> OptionalDouble.of(said.feet())).orElse(draft.situation.altitudeFt());
                if (feet.isPresent() && limit.isPassed(leg, feet.getAsDouble())) {
                    passed.merge(leg.airway(), leg, limit::tighter);
                }
            });
            passed.forEach((airway, leg) -> draft.warn(
                    limit.code(),
                    "%s is flown %s; its %s toward %s is %.0f ft",
                    airway,
                    draft.atAltitude(flown.getOrDefault(leg, Optional.empty())),
                    limit.name(),
                    leg.leg().to().ident(),
                    limit.feet(leg)));
        }
        Map<String, AirwayLeg> unknown = new LinkedHashMap<>();
        flown.keySet().stream()
                .filter(AirwayLeg::minimumUnknown)
                .forEach(leg -> unknown.putIfAbsent(leg.airway(), leg));
        unknown.forEach((airway, leg) -> draft.warn(
                Warning.Code.MINIMUM_ALTITUDE_UNKNOWN,
                "the chart does not know the minimum en-route altitude of %s toward %s: whether %s is high enough cannot"
                        + " be judged; take it from a chart that has it",
                airway,
                leg.leg().to().ident(),
                draft.altitude(flown.getOrDefault(leg, Optional.empty()))));
    }

    /** A crossing altitude is flown to the fix, on the leg that ends there. */
    private static void crossings(Chart chart, AmendmentDraft draft) {
        for (Instruction.CrossAt cross : draft.clearance.all(Instruction.CrossAt.class)) {
            List<AirwayLeg> legs = draft.legs.stream()
                    .filter(leg -> leg.endsAt(cross.fix()))
                    .flatMap(leg -> AirwayLeg.of(chart, leg).stream())
                    .toList();
            for (Limit limit : LIMITS) {
                Instruction.CrossAt.Bound open =
                        limit.lowest() ? Instruction.CrossAt.Bound.AT_OR_ABOVE : Instruction.CrossAt.Bound.AT_OR_BELOW;
                legs.stream()
                        .filter(leg -> cross.bound() != open && limit.isPassed(leg, cross.feet()))
                        .findFirst()
                        .ifPresent(leg -> draft.warn(
                                limit.code(),
                                "%s is to be crossed at %s, the %s of %s toward it is %.0f ft",
                                cross.fix().ident(),
                                cross.figures(),
                                limit.name(),
                                leg.airway(),
                                limit.feet(leg)));
            }
        }
    }

    /** Farther from its route than this an aircraft is misplaced, or the chart is, nautical miles (no source). */
    private static final double FAR_NM = 500;

    private static void farAway(AmendmentDraft draft) {
        Position here = draft.situation.position();
        double nearest = awayNm(draft, here);
        if (nearest > FAR_NM) {
            String swapped = "";
            if (Math.abs(here.longitudeDeg()) <= 90) {
                double other = awayNm(draft, new Position(here.longitudeDeg(), here.latitudeDeg()));
                swapped = other < FAR_NM
                        ? String.format(
                                Locale.ROOT, "; with latitude and longitude changed over it would be %.0f NM", other)
                        : "";
            }
            draft.warn(
                    Warning.Code.FAR_FROM_ROUTE,
                    "the aircraft is %.0f NM from the filed route: is the position right?%s",
                    nearest,
                    swapped);
        }
        draft.legs.stream()
                .filter(leg -> leg instanceof Leg.TrackToFix || leg instanceof Leg.DirectToFix)
                .filter(leg -> leg.line().orElseThrow().lengthNm() > 2 * FAR_NM)
                .findFirst()
                .ifPresent(leg -> draft.warn(
                        Warning.Code.FAR_FROM_ROUTE,
                        "the leg to %s is %.0f NM long: is the chart right?",
                        leg.endsAt().map(Waypoint::ident).orElse(""),
                        leg.line().orElseThrow().lengthNm()));
    }

    private static double awayNm(AmendmentDraft draft, Position here) {
        return OnSegments.nearest(draft.filed.segments(), here).awayNm();
    }

    /** A wind that does not let a leg's course be made good. */
    private static void windTooStrong(AmendmentDraft draft) {
        for (Leg leg : draft.legs) {
            if (leg instanceof Leg.HeadingToIntercept || leg.line().isEmpty()) {
                continue;
            }
            GeodesicLine line = leg.line().get();
            TrueDirection course = line.courseAt(Math.min(leg.joinedAtNm(), line.lengthNm()));
            if (draft.situation.headingFor(course).isEmpty()) {
                draft.warn(
                        Warning.Code.STRONG_WIND,
                        "in the wind of %.0f kt course %s true %scannot be made good at %.0f kt: check the wind and the"
                                + " airspeed",
                        draft.situation.wind().speedKt(),
                        Angles.figures(course.deg()),
                        leg.endsAt().map(end -> "to " + end.ident() + " ").orElse(""),
                        draft.situation.trueAirspeedKt());
                return;
            }
        }
    }
}
