package org.rejoin.bridge.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.Offset;

/** Amendments that name fixes and need no course of their own: direct, an airway at a fix, as filed. */
final class FixAmendment {

    /** Closer than this to a leg the aircraft is on it, nautical miles (a quarter of an airway's half-width). */
    private static final double ON_LEG_NM = 1;

    private FixAmendment() {}

    /**
     * "Direct F", "join V31 at F", "direct F, V31 to G": from present position to the first fix, then on.
     *
     * @param lateral joins and directs in order, the first of them with a fix
     */
    static void viaFixes(Chart chart, AmendmentDraft draft, List<Instruction> lateral) throws ClearanceException {
        boolean direct = lateral.get(0) instanceof Instruction.Direct;
        Waypoint first = direct
                ? ((Instruction.Direct) lateral.get(0)).to()
                : ((Instruction.JoinAirway) lateral.get(0)).at().orElseThrow();
        List<FiledRoute.Segment> onward =
                OnwardRoute.from(chart, draft.filed, first, direct ? lateral.subList(1, lateral.size()) : lateral);
        if (draft.situation.position().distanceNm(first.position()) > 0.01) {
            GeodesicLine line = GeodesicLine.between(draft.situation.position(), first.position());
            draft.legs.add(new Leg.DirectToFix(first, line));
            describe(draft, first, line);
        }
        draft.assignedHeadingWhileDirect(first);
        draft.append(onward, lateral);
        if (draft.legs.isEmpty()) {
            throw ClearanceException.cannotBeWorkedOut("the aircraft is over " + first.ident()
                    + " already, and the clearance does not say where to go from" + " there");
        }
        draft.courseLeg = 0;
    }

    /**
     * "After F, direct G": as filed to the first fix, then on as said.
     *
     * @param lateral joins and directs in order, from that fix
     */
    static void afterFix(Chart chart, AmendmentDraft draft, Waypoint fix, List<Instruction> lateral)
            throws ClearanceException {
        List<FiledRoute.Segment> onward = OnwardRoute.from(chart, draft.filed, fix, lateral);
        filedTo(draft, fix);
        draft.append(onward, lateral);
    }

    /** The route as filed to a fix on it, from where the way on is another. */
    static LineFlown filedTo(AmendmentDraft draft, Waypoint fix) throws ClearanceException {
        asFiled(draft, Optional.of(fix));
        int leg = RouteEnd.legTo(draft, fix);
        draft.cutAfter(leg);
        draft.resumesAt = -1;
        return new LineFlown(
                fix.position(),
                leg < 0
                        ? GeodesicLine.between(draft.situation.position(), fix.position())
                                .initialCourse()
                        : RouteEnd.arrivalTrack(draft.legs.get(leg)),
                false);
    }

    /** The fix from which the way on is another than filed, where it is said first: "after BBB, direct CCC". */
    static Optional<Waypoint> leavesFiled(List<Instruction> instructions) {
        return instructions.stream()
                .filter(each -> each instanceof Instruction.Depart depart && depart.asSaidNext())
                .map(each -> ((Instruction.Depart) each).fix())
                .findFirst();
    }

    /** "Join V31, after BBB, direct CCC" joins V31 to BBB; "direct BBB, after BBB, direct CCC" is direct BBB, direct CCC. */
    static List<Instruction> joinedTo(List<Instruction> instructions) throws ClearanceException {
        List<Instruction> all = new ArrayList<>(instructions);
        for (int i = 1; i < all.size(); i++) {
            if (!(all.get(i) instanceof Instruction.Depart depart) || !depart.asSaidNext()) {
                continue;
            }
            Instruction before = all.get(i - 1);
            Optional<Waypoint> fix = Optional.of(depart.fix());
            if (before instanceof Instruction.JoinAirway join
                    && (join.to().isEmpty() || join.to().equals(fix))) {
                all.set(i - 1, new Instruction.JoinAirway(join.airway(), join.at(), fix, join.away()));
            } else if (before instanceof Instruction.InterceptAirway airway) {
                all.add(i, new Instruction.JoinAirway(airway.airway(), Optional.empty(), fix));
                i++;
            } else if (before instanceof Instruction.Direct direct
                    && !direct.to().equals(depart.fix())) {
                throw RouteEnd.notOnRoute(depart);
            } else if (!(before instanceof Instruction.Direct)) {
                continue;
            }
            all.remove(i);
        }
        return all;
    }

    static void describe(AmendmentDraft draft, Waypoint to, GeodesicLine line) {
        draft.step(
                "direct " + to.ident(),
                "inverse geodesic problem on WGS 84",
                "from %.6f, %.6f: course %08.4f true, %.4f NM",
                line.start().latitudeDeg(),
                line.start().longitudeDeg(),
                line.initialCourse().deg(),
                line.lengthNm());
        GroundVector.forCourse(line.initialCourse(), draft.situation.trueAirspeedKt(), draft.situation.wind())
                .ifPresent(wind -> draft.step(
                        "heading for it in the wind",
                        "correction = asin(W / TAS sin(from - course)); magnetic = true - variation",
                        "%s degrees: %08.4f true, %08.4f magnetic, GS %.2f kt, %.2f min",
                        Angles.signed(wind.correctionDeg(), 2),
                        wind.heading().deg(),
                        wind.heading().toMagnetic(draft.situation.variation()).deg(),
                        wind.groundSpeedKt(),
                        line.lengthNm() / wind.groundSpeedKt() * 60));
    }

    /** Where the clearance ends: a hold, a limit, a fix to depart. */
    private static Optional<Waypoint> end(AmendmentDraft draft) {
        return draft.clearance
                .first(Instruction.Hold.class)
                .map(Instruction.Hold::fix)
                .or(() -> draft.clearance.first(Instruction.Depart.class).map(Instruction.Depart::fix))
                .or(() -> draft.clearance.last(Instruction.ClearedTo.class).map(Instruction.ClearedTo::limit));
    }

    /** "Resume own navigation" and nothing else: on along the nearest leg, or straight to its end where it is far. */
    static void asFiled(AmendmentDraft draft) throws ClearanceException {
        asFiled(draft, end(draft));
    }

    /** As filed, to a fix where one is given. */
    static void asFiled(AmendmentDraft draft, Optional<Waypoint> end) throws ClearanceException {
        // An altitude or a speed alone leaves the route as it is.
        boolean stays = draft.clearance.routeStays()
                || Stream.of(Instruction.Onward.class, Instruction.Cancel.class, Instruction.Assignment.class)
                        .anyMatch(kind -> draft.clearance.first(kind).isPresent());
        if (!stays && end.isEmpty()) {
            throw ClearanceException.cannotBeWorkedOut("the clearance names no heading, course, airway or fix to fly");
        }
        boolean over = end.filter(fix -> draft.situation.position().distanceNm(fix.position()) < 0.1)
                .isPresent();
        if (end.isPresent() && !over && !draft.filed.points().contains(end.get())) {
            throw ClearanceException.cannotBeWorkedOut(end.get().ident()
                    + " is not in the filed route, and the clearance names no way to it: say for example"
                    + " \"direct " + end.get().ident() + "\"");
        }
        List<FiledRoute.Segment> segments = draft.filed.segments();
        int nearest = 0;
        double best = Double.MAX_VALUE;
        for (int i = 0; i < segments.size(); i++) {
            GeodesicLine line = Leg.TrackToFix.along(segments.get(i)).path();
            double along = line.offset(draft.situation.position()).alongTrackNm();
            double clamped = Math.min(Math.max(along, 0), line.lengthNm());
            double distance = line.pointAt(clamped).distanceNm(draft.situation.position());
            if (distance < best) {
                best = distance;
                nearest = i;
            }
        }
        FiledRoute.Segment segment = segments.get(nearest);
        GeodesicLine line = Leg.TrackToFix.along(segment).path();
        Offset offset = line.offset(draft.situation.position());
        if (best <= ON_LEG_NM && offset.alongTrackNm() < line.lengthNm() - 0.01) {
            draft.legs.add(new Leg.TrackToFix(
                    segment.from(), segment.to(), segment.airway(), line, Math.max(0, offset.alongTrackNm())));
        } else if (draft.clearance.routeStays() || draft.clearance.disregards()) {
            // Nobody asked for a turn: what is shown is where the route runs, not a way back to it.
            draft.legs.add(new Leg.TrackToFix(
                    segment.from(),
                    segment.to(),
                    segment.airway(),
                    line,
                    Math.min(Math.max(0, offset.alongTrackNm()), line.lengthNm())));
            draft.warn(
                    Warning.Code.CHOICE_MADE,
                    draft.clearance.disregards()
                            ? "the filed route is %.1f NM away, and how you are to come back to it is not said: ask"
                            : "the route is not amended, go on as you were cleared; shown is the filed route, %.1f NM away",
                    best);
        } else if (draft.situation.position().distanceNm(segment.to().position()) > 0.01) {
            draft.legs.add(new Leg.DirectToFix(
                    segment.to(),
                    GeodesicLine.between(
                            draft.situation.position(), segment.to().position())));
            draft.warn(
                    Warning.Code.CHOICE_MADE,
                    "the filed route is %.1f NM away and no heading or fix was given; taken is direct %s, the end of its"
                            + " nearest leg",
                    best,
                    segment.to().ident());
        }
        segments.subList(nearest + 1, segments.size()).forEach(next -> draft.legs.add(Leg.TrackToFix.along(next)));
        if (draft.legs.isEmpty()) {
            throw ClearanceException.cannotBeWorkedOut(
                    "the aircraft is over " + segment.to().ident() + " already, where the filed route ends");
        }
        draft.courseLeg = 0;
        draft.resumesAt = 0;
    }
}
