package org.rejoin.bridge.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.MagneticDirection;

/**
 * Works an amended clearance out: from the filed route, the clearance and the situation to the {@link AmendedRoute}.
 *
 * <p>Which shape it is follows from the words: a radial or bearing to intercept ({@link RadialAmendment}), an airway to
 * intercept or join on a heading ({@link AirwayAmendment}), a direct or an airway via fixes, or a bare heading.
 */
public final class RouteAmender {

    private RouteAmender() {}

    /**
     * Works out a clearance.
     *
     * @param chart on which everything is found
     * @param filed the route before the amendment
     * @param clearance as read
     * @param situation of the aircraft
     * @return the amended route with its warnings and working
     * @throws ClearanceException if it cannot be worked out at all; the code and the message say why
     */
    public static AmendedRoute amend(Chart chart, FiledRoute filed, Clearance clearance, Situation situation)
            throws ClearanceException {
        Draft draft = new Draft(filed, clearance, situation);
        Optional<HeadingPlan> heading = assigned(clearance, situation);
        Optional<Instruction.InterceptRadial> radial = clearance.first(Instruction.InterceptRadial.class);
        Optional<Instruction.InterceptBearing> bearing = clearance.first(Instruction.InterceptBearing.class);
        Optional<Instruction.InterceptAirway> airway = clearance.first(Instruction.InterceptAirway.class);
        Optional<Instruction.JoinAirway> join = clearance.first(Instruction.JoinAirway.class);
        Optional<Instruction.Direct> direct = clearance.first(Instruction.Direct.class);
        draft.heading = heading;
        draft.describeHeading();
        if (radial.isPresent() || bearing.isPresent()) {
            AirwayPath path = joinPath(chart, filed, airway, join);
            new RadialAmendment(chart, draft, path).work(radial, bearing);
        } else if (direct.isPresent()
                || join.flatMap(Instruction.JoinAirway::at).isPresent()) {
            viaFixes(chart, draft, clearance);
        } else if (airway.isPresent() || join.isPresent()) {
            AirwayPath path = joinPath(chart, filed, airway, join);
            new AirwayAmendment(draft, path).work();
        } else if (heading.isPresent()) {
            HeadingPlan plan = heading.get();
            draft.legs.add(new Leg.HeadingOnly(plan.magnetic(), plan.headingTrue()));
        } else {
            asFiled(draft, clearance);
        }
        return draft.finish(chart);
    }

    /**
     * Whether a clearance means something only together with the heading flown now.
     *
     * @param clearance as read
     * @return true for "fly present heading", "fly runway heading" and "turn N degrees left"
     */
    public static boolean needsPresentHeading(Clearance clearance) {
        return clearance.instructions().stream()
                .anyMatch(instruction -> instruction instanceof Instruction.FlyPresentHeading
                        || instruction instanceof Instruction.FlyRunwayHeading
                        || instruction instanceof Instruction.TurnBy);
    }

    private static AirwayPath joinPath(
            Chart chart,
            FiledRoute filed,
            Optional<Instruction.InterceptAirway> airway,
            Optional<Instruction.JoinAirway> join)
            throws ClearanceException {
        if (join.isPresent()) {
            return AirwayPath.of(chart, filed, join.get().airway(), join.get().to());
        }
        if (airway.isPresent()) {
            return AirwayPath.of(chart, filed, airway.get().airway(), Optional.empty());
        }
        return AirwayPath.ofFiledRoute(filed);
    }

    private static Optional<HeadingPlan> assigned(Clearance clearance, Situation situation) throws ClearanceException {
        for (Instruction instruction : clearance.instructions()) {
            if (instruction instanceof Instruction.FlyHeading fly) {
                return Optional.of(HeadingPlan.of(HeadingPlan.Origin.ASSIGNED, fly.heading(), situation));
            }
            if (instruction instanceof Instruction.FlyPresentHeading) {
                return Optional.of(HeadingPlan.of(
                        HeadingPlan.Origin.ASSIGNED, present("fly present heading", situation), situation));
            }
            if (instruction instanceof Instruction.FlyRunwayHeading) {
                return Optional.of(HeadingPlan.of(
                        HeadingPlan.Origin.ASSIGNED, present("fly runway heading", situation), situation));
            }
            if (instruction instanceof Instruction.TurnBy turn) {
                double by = turn.direction() == Instruction.TurnDirection.LEFT ? -turn.degrees() : turn.degrees();
                MagneticDirection heading = new MagneticDirection(
                        present("turn by degrees", situation).deg() + by);
                return Optional.of(HeadingPlan.of(HeadingPlan.Origin.ASSIGNED, heading, situation));
            }
        }
        return situation.heading().map(present -> HeadingPlan.of(HeadingPlan.Origin.PRESENT, present, situation));
    }

    private static MagneticDirection present(String words, Situation situation) throws ClearanceException {
        return situation
                .heading()
                .orElseThrow(() -> new ClearanceException(
                        ClearanceException.Code.CANNOT_BE_WORKED_OUT,
                        "\"" + words + "\" needs the heading flown now, and it is not known (give it with --heading)"));
    }

    /** "Direct F", "join V31 at F", "via V31 to G": from present position through the named fixes, then as filed. */
    private static void viaFixes(Chart chart, Draft draft, Clearance clearance) throws ClearanceException {
        Waypoint at = null;
        for (Instruction instruction : clearance.instructions()) {
            if (instruction instanceof Instruction.Direct direct) {
                at = draft.flyTo(at, direct.to(), Optional.empty());
            } else if (instruction instanceof Instruction.JoinAirway join) {
                Waypoint entry = join.at().orElse(at);
                if (entry == null) {
                    continue;
                }
                at = draft.flyTo(at, entry, Optional.empty());
                AirwayPath path = AirwayPath.of(chart, draft.filed, join.airway(), join.to());
                int index = path.indexOf(entry);
                if (index < 0) {
                    throw new ClearanceException(
                            ClearanceException.Code.ROUTE_NOT_VALID,
                            entry.ident() + " is not on " + join.airway() + " before it is left");
                }
                draft.courseLeg = 0;
                int begins = draft.legs.size();
                List<Leg> onward = path.legsFromPoint(index);
                draft.legs.addAll(onward);
                draft.markJoin(begins, join.airway());
                draft.markResume(begins);
                return;
            }
        }
        if (at == null) {
            throw new ClearanceException(
                    ClearanceException.Code.CANNOT_BE_WORKED_OUT,
                    "the clearance names no fix to go to: say \"direct\" and a fix, or \"join\" an airway \"at\" a fix");
        }
        draft.courseLeg = 0;
        int begins = draft.legs.size();
        List<FiledRoute.Segment> segments = draft.filed.segments();
        int next = -1;
        for (int i = 0; i < segments.size(); i++) {
            if (segments.get(i).from().equals(at)) {
                next = i;
                break;
            }
        }
        boolean last = next < 0 && segments.get(segments.size() - 1).to().equals(at);
        if (next >= 0) {
            for (FiledRoute.Segment segment : segments.subList(next, segments.size())) {
                draft.legs.add(trackToFix(segment));
            }
        } else if (!last && clearance.first(Instruction.Onward.class).isPresent()) {
            throw new ClearanceException(
                    ClearanceException.Code.CANNOT_BE_WORKED_OUT,
                    at.ident() + " is not in the filed route, so \"as filed\" does not say where the route goes on"
                            + " from there: name the next fix or airway");
        }
        draft.markResume(begins);
    }

    /** "Resume own navigation" and nothing else: direct to the nearest point of the filed route that lies ahead. */
    private static void asFiled(Draft draft, Clearance clearance) throws ClearanceException {
        if (clearance.first(Instruction.Onward.class).isEmpty()
                && clearance.altitudeFt().isEmpty()
                && clearance.first(Instruction.Cancel.class).isEmpty()) {
            throw new ClearanceException(
                    ClearanceException.Code.CANNOT_BE_WORKED_OUT,
                    "the clearance names no heading, course, airway or fix to fly");
        }
        List<FiledRoute.Segment> segments = draft.filed.segments();
        int nearest = 0;
        double best = Double.MAX_VALUE;
        for (int i = 0; i < segments.size(); i++) {
            GeodesicLine line = GeodesicLine.between(
                    segments.get(i).from().position(), segments.get(i).to().position());
            double along = line.offset(draft.situation.position()).alongTrackNm();
            double clamped = Math.min(Math.max(along, 0), line.lengthNm());
            double distance = line.pointAt(clamped).distanceNm(draft.situation.position());
            if (distance < best) {
                best = distance;
                nearest = i;
            }
        }
        segments.subList(nearest, segments.size()).forEach(segment -> draft.legs.add(trackToFix(segment)));
        draft.courseLeg = 0;
        draft.resumesAt = 0;
    }

    static Leg.TrackToFix trackToFix(FiledRoute.Segment segment) {
        return new Leg.TrackToFix(
                segment.from(),
                segment.to(),
                segment.airway(),
                GeodesicLine.between(segment.from().position(), segment.to().position()),
                0);
    }

    /** What is being written while a clearance is worked out; becomes the immutable route at the end. */
    static final class Draft {
        final FiledRoute filed;
        final Clearance clearance;
        final Situation situation;
        final List<Leg> legs = new ArrayList<>();
        final List<Warning> warnings = new ArrayList<>();
        final List<WorkingStep> working = new ArrayList<>();
        final List<Integer> joinLegs = new ArrayList<>();
        Optional<HeadingPlan> heading = Optional.empty();
        Optional<Course> course = Optional.empty();
        Optional<Intercept> intercept = Optional.empty();
        Optional<ComputedFix> computedFix = Optional.empty();
        int courseLeg = -1;
        int resumesAt = -1;

        Draft(FiledRoute filed, Clearance clearance, Situation situation) {
            this.filed = filed;
            this.clearance = clearance;
            this.situation = situation;
        }

        void warn(Warning.Code code, String format, Object... values) {
            warnings.add(new Warning(code, String.format(java.util.Locale.ROOT, format, values)));
        }

        void step(String what, String formula, String format, Object... values) {
            working.add(new WorkingStep(what, formula, String.format(java.util.Locale.ROOT, format, values)));
        }

        void describeHeading() {
            heading.ifPresent(plan -> {
                step(
                        "heading from true north",
                        "true = magnetic + variation",
                        "%s heading %05.1f + %+.2f = %06.2f true",
                        plan.origin() == HeadingPlan.Origin.PRESENT ? "present" : "assigned",
                        plan.magnetic().deg(),
                        situation.variation().eastDeg(),
                        plan.headingTrue().deg());
                step(
                        "track in the wind",
                        "ground vector = air vector + wind vector",
                        "%.0f kt true airspeed on %06.2f, wind %03.0f/%.0f: track %06.2f, ground speed %.1f kt",
                        situation.trueAirspeedKt(),
                        plan.headingTrue().deg(),
                        situation.wind().from().deg(),
                        situation.wind().speedKt(),
                        plan.ground().track().deg(),
                        plan.ground().groundSpeedKt());
            });
        }

        Waypoint flyTo(@org.jspecify.annotations.Nullable Waypoint from, Waypoint to, Optional<String> airway) {
            if (from == null) {
                if (situation.position().distanceNm(to.position()) > 0.01) {
                    legs.add(new Leg.DirectToFix(to, GeodesicLine.between(situation.position(), to.position())));
                }
            } else if (!from.equals(to)) {
                legs.add(new Leg.TrackToFix(from, to, airway, GeodesicLine.between(from.position(), to.position()), 0));
            }
            return to;
        }

        void markJoin(int from, String airway) {
            for (int i = from; i < legs.size(); i++) {
                if (legs.get(i).airway().filter(airway::equals).isPresent()) {
                    joinLegs.add(i);
                } else {
                    break;
                }
            }
        }

        /** The first leg from an index on that the filed route has too, or that lies on one of its segments. */
        void markResume(int from) {
            for (int i = from; i < legs.size(); i++) {
                Leg leg = legs.get(i);
                Optional<Waypoint> end = leg.endsAt();
                boolean filedLeg = end.isPresent()
                        && filed.segments().stream()
                                .anyMatch(segment -> segment.to().equals(end.get())
                                        && segment.airway().equals(leg.airway()));
                if (filedLeg) {
                    resumesAt = i;
                    return;
                }
            }
        }

        AmendedRoute finish(Chart chart) throws ClearanceException {
            RouteChecks.check(chart, this);
            List<Waypoint> flown =
                    legs.stream().map(Leg::endsAt).flatMap(Optional::stream).toList();
            List<Waypoint> points = filed.points();
            List<Waypoint> skipped = new ArrayList<>();
            for (int i = 0; i < points.size(); i++) {
                boolean departure = i == 0 && points.get(0) instanceof org.rejoin.bridge.chart.Airport;
                if (!departure && !flown.contains(points.get(i)) && resumesAt >= 0) {
                    skipped.add(points.get(i));
                }
            }
            return new AmendedRoute(
                    clearance,
                    filed,
                    situation,
                    heading,
                    course,
                    intercept,
                    computedFix,
                    legs,
                    courseLeg,
                    joinLegs,
                    resumesAt,
                    skipped,
                    warnings,
                    working);
        }
    }
}
