package org.rejoin.bridge.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Instruction.CrossAt;
import org.rejoin.bridge.clearance.Phraseology;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;

/** What each crossing altitude takes: how far and how long along the route, how many feet a mile and a minute. */
final class CrossingPlans {

    /** A place said by rounded miles is that where the route passes this near, nautical miles (no source). */
    private static final double SAME_NM = 1;

    private final Chart chart;
    private final AmendmentDraft draft;
    private final List<CrossingPlan> plans = new ArrayList<>();

    CrossingPlans(Chart chart, AmendmentDraft draft) {
        this.chart = chart;
        this.draft = draft;
    }

    /** A place on the route: the leg, how far along its line, and where. */
    private record Place(int leg, double alongNm, Position position) {}

    /** The way to one; each empty where a part of it is not known. */
    private record Way(OptionalDouble distanceNm, OptionalDouble minutes) {
        static final Way UNKNOWN = new Way(OptionalDouble.empty(), OptionalDouble.empty());
    }

    static void work(Chart chart, AmendmentDraft draft) throws ClearanceException {
        CrossingPlans plans = new CrossingPlans(chart, draft);
        for (Instruction each : draft.clearance.instructions()) {
            if (each instanceof CrossAt cross) {
                plans.add(cross);
            } else if (each instanceof Instruction.Maintain maintain
                    && maintain.levelBy().isPresent()) {
                plans.add(new CrossAt(
                        maintain.levelBy().get(),
                        maintain.feet(),
                        maintain.flightLevel(),
                        CrossAt.Bound.AT,
                        Optional.empty()));
            }
        }
        draft.crossings = plans.plans;
    }

    private void add(CrossAt said) throws ClearanceException {
        String name = said.before()
                .map(away -> String.format(
                        Locale.ROOT,
                        "%.0f NM %s of %s%s",
                        away.distanceNm(),
                        away.compass(),
                        said.fix().ident(),
                        away.airway().map(on -> " on " + on).orElse("")))
                .orElse(said.fix().ident());
        Optional<Place> place =
                said.before().isPresent() ? away(said.fix(), said.before().get()) : at(said.fix());
        if (place.isEmpty()) {
            boolean filed = draft.filed.points().contains(said.fix());
            draft.warn(
                    Warning.Code.CROSSING_NOT_ON_ROUTE,
                    "%s is to be crossed %s %s, and %s: ask",
                    name,
                    Phraseology.bound(said.bound()),
                    said.figures(),
                    said.before().flatMap(Instruction.Away::airway).isPresent()
                            ? "the amended route does not cross the airway there"
                            : filed
                                    ? "it lies behind or is left out on the amended route"
                                    : "it is not on the amended route");
            plans.add(new CrossingPlan(
                    said,
                    name,
                    said.fix().position(),
                    -1,
                    OptionalDouble.empty(),
                    OptionalDouble.empty(),
                    OptionalDouble.empty(),
                    OptionalDouble.empty(),
                    false));
            return;
        }
        Way way = way(place.get());
        OptionalDouble now = draft.situation.altitudeFt();
        double change = now.isEmpty() ? 0 : said.nearestFt(now.getAsDouble()) - now.getAsDouble();
        CrossingPlan plan = new CrossingPlan(
                said,
                name,
                place.get().position(),
                place.get().leg(),
                way.distanceNm,
                way.minutes,
                now.isPresent() ? per(change, way.distanceNm, 0.01) : OptionalDouble.empty(),
                now.isPresent() ? per(change, way.minutes, 0.001) : OptionalDouble.empty(),
                change > 0);
        plans.add(plan);
        describe(plan, change);
        double most = draft.situation.performance().mostFpm(plan.climb());
        if (plan.ftPerMin().orElse(0) > most + 0.5) {
            draft.warn(
                    Warning.Code.CROSSING_STEEP,
                    "%s %.0f ft by %s takes %.0f ft/min (%.0f ft/NM over %.1f NM), more than the %.0f ft/min %s: say so",
                    plan.climb() ? "climbing" : "descending",
                    Math.abs(change),
                    name,
                    plan.ftPerMin().getAsDouble(),
                    plan.ftPerNm().orElse(0),
                    way.distanceNm.orElse(Double.NaN),
                    most,
                    (plan.climb()
                                            ? draft.situation.performance().climbFpm()
                                            : draft.situation.performance().descentFpm())
                                    .isPresent()
                            ? "given"
                            : "of a light aircraft");
        }
    }

    private void describe(CrossingPlan plan, double change) {
        if (plan.ftPerNm().isPresent() && plan.ftPerMin().isPresent()) {
            draft.step(
                    "altitude at " + plan.place(),
                    "ft/NM = change / distance; ft/min = change / minutes (= ft/NM x GS / 60)",
                    "%.0f ft in %.2f NM, %.2f min: %.0f ft/NM, %.0f ft/min",
                    change,
                    plan.distanceNm().orElseThrow(),
                    plan.minutes().orElseThrow(),
                    plan.ftPerNm().getAsDouble(),
                    plan.ftPerMin().getAsDouble());
        }
    }

    /** Feet a mile or a minute; empty where the way is not known, or is none. */
    private static OptionalDouble per(double change, OptionalDouble way, double least) {
        return way.orElse(0) > least ? OptionalDouble.of(Math.abs(change) / way.getAsDouble()) : OptionalDouble.empty();
    }

    private Optional<Place> at(Waypoint fix) {
        int leg = RouteEnd.legTo(draft, fix);
        if (leg >= 0) {
            double length =
                    draft.legs.get(leg).groundPath().map(GroundPath::lengthNm).orElse(0.0);
            return Optional.of(new Place(leg, length, fix.position()));
        }
        // A fix on the line of a leg that does not end there: one that a direct passes over.
        for (int i = 0; i < draft.legs.size(); i++) {
            Optional<GeodesicLine> line = draft.legs.get(i).line();
            if (line.isPresent() && draft.legs.get(i).endsAt().isPresent()) {
                var offset = line.get().offset(fix.position());
                boolean ahead = offset.alongTrackNm() > draft.legs.get(i).joinedAtNm()
                        && offset.alongTrackNm() < line.get().lengthNm();
                if (ahead && Math.abs(offset.crossTrackNm()) < 0.1) {
                    return Optional.of(new Place(i, offset.alongTrackNm(), fix.position()));
                }
            }
        }
        return Optional.empty();
    }

    /** The point of the route so far from a fix, on the side said. */
    private Optional<Place> away(Waypoint fix, Instruction.Away away) throws ClearanceException {
        if (away.airway().isPresent()) {
            return passing(AirwayPlaces.point(chart, away.airway().get(), fix, away, draft.situation));
        }
        Place best = null;
        double nearest = Double.MAX_VALUE;
        for (int i = 0; i < draft.legs.size(); i++) {
            Leg leg = draft.legs.get(i);
            if (leg.line().isEmpty() || leg.endsAt().isEmpty()) {
                continue;
            }
            GeodesicLine line = leg.line().get();
            Optional<BesideFix> place = BesideFix.on(
                            line, leg.joinedAtNm() - 0.01, line.lengthNm() + 0.01, fix, away, draft.situation)
                    .min(Comparator.comparingDouble(BesideFix::offDeg));
            if (place.isPresent() && place.get().offDeg() < nearest) {
                nearest = place.get().offDeg();
                best = new Place(i, place.get().alongNm(), place.get().position());
            }
        }
        return Optional.ofNullable(best);
    }

    /** Where the route crosses an airway at a point of it, or runs along it there; empty where it passes elsewhere. */
    private Optional<Place> passing(Waypoint point) {
        for (int i = 0; i < draft.legs.size(); i++) {
            Leg leg = draft.legs.get(i);
            if (leg.line().isEmpty() || leg.endsAt().isEmpty()) {
                continue;
            }
            Offset offset = leg.line().get().offset(point.position());
            boolean ahead = offset.alongTrackNm() > leg.joinedAtNm() - 0.01
                    && offset.alongTrackNm() < leg.line().get().lengthNm() + 0.01;
            if (ahead && Math.abs(offset.crossTrackNm()) < SAME_NM) {
                return Optional.of(new Place(i, offset.alongTrackNm(), point.position()));
            }
        }
        return Optional.empty();
    }

    /** Distance and minutes along the route to a place. */
    private Way way(Place place) {
        if (!draft.beginsHere) {
            return Way.UNKNOWN;
        }
        double distance = 0;
        double minutes = 0;
        for (int i = 0; i <= place.leg(); i++) {
            Leg leg = draft.legs.get(i);
            Optional<GroundPath> path = leg.groundPath();
            boolean unmet = draft.intercept.isEmpty() && draft.courseLeg > 0 && i == 0;
            if (path.isEmpty() || unmet) {
                return Way.UNKNOWN;
            }
            double from = leg.joinedAtNm();
            // From abeam the leg is shorter than from here, and nobody flies it.
            boolean beside =
                    i == 0 && path.get().pointAt(from).distanceNm(draft.situation.position()) > OnSegments.ON_LEG_NM;
            if (beside) {
                return Way.UNKNOWN;
            }
            double to = i == place.leg() ? place.alongNm() : path.get().lengthNm();
            double length = Math.max(0, to - from);
            distance += length;
            int pieces = leg instanceof Leg.DmeArc ? 8 : 1;
            for (int piece = 0; piece < pieces; piece++) {
                double at = from + (piece + 0.5) / pieces * (to - from);
                double speed = leg instanceof Leg.HeadingToIntercept
                        ? draft.heading
                                .map(plan -> plan.ground().groundSpeedKt())
                                .orElse(Double.NaN)
                        : groundSpeedKt(path.get().courseAt(at));
                minutes += length / pieces / speed * 60;
            }
        }
        return new Way(
                OptionalDouble.of(distance),
                Double.isNaN(minutes) ? OptionalDouble.empty() : OptionalDouble.of(minutes));
    }

    private double groundSpeedKt(TrueDirection course) {
        return draft.situation
                .headingFor(course)
                .map(GroundVector.HeadingForCourse::groundSpeedKt)
                .orElse(Double.NaN);
    }
}
