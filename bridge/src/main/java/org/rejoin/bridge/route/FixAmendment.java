package org.rejoin.bridge.route;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Instruction.Until;
import org.rejoin.bridge.clearance.Noted;
import org.rejoin.bridge.clearance.When;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;

/** Amendments that name fixes and need no course of their own: direct, an airway at a fix, as filed. */
final class FixAmendment {

    private FixAmendment() {}

    /** "Direct F", "join V31 at F", "direct F, V31 to G": from present position to the first fix, then on. */
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

    /** "After F, direct G": as filed to the first fix, then on as said. */
    static void afterFix(Chart chart, AmendmentDraft draft, Waypoint fix, List<Instruction> lateral)
            throws ClearanceException {
        List<FiledRoute.Segment> onward = OnwardRoute.from(chart, draft.filed, fix, lateral);
        draft.assignedHeadingUntilGoingOn(fix);
        Optional<OnSegments> beyond = OnSegments.on(onward, draft.situation.position())
                .filter(on -> (on.index() > 0 || on.alongNm() > 0)
                        && OnSegments.on(filedUpTo(draft, fix), draft.situation.position())
                                .isEmpty());
        if (beyond.isPresent()) {
            // The change begins where the way before it and the new one part, and that is still to come.
            draft.append(onward.subList(beyond.get().index(), onward.size()), lateral);
            draft.legs.set(0, beyond.get().leg(onward));
            draft.courseLeg = 0;
            return;
        }
        boolean straight = !onward.isEmpty() && onward.get(0).airway().isEmpty();
        if (straight && isPassed(draft, fix)) {
            Waypoint to = onward.get(0).to();
            draft.choice(
                    "%s lies behind you on the filed route; taken is direct %s from here: ask",
                    fix.ident(), to.ident());
            draft.legs.add(new Leg.DirectToFix(to, GeodesicLine.between(draft.situation.position(), to.position())));
            draft.append(onward.subList(1, onward.size()), lateral);
            draft.courseLeg = 0;
            return;
        }
        if (!RouteEnd.over(draft, fix)) {
            filedTo(draft, fix);
        }
        draft.append(onward, lateral);
    }

    /** What is filed up to a fix, the last time it comes there; nothing where the route begins at it or has it not. */
    private static List<FiledRoute.Segment> filedUpTo(AmendmentDraft draft, Waypoint fix) {
        List<FiledRoute.Segment> all = draft.filed.segments();
        for (int i = all.size() - 1; i >= 0; i--) {
            if (all.get(i).to().equals(fix)) {
                return all.subList(0, i + 1);
            }
        }
        return List.of();
    }

    /** Whether the aircraft is on a leg of the filed route that comes after a fix. */
    private static boolean isPassed(AmendmentDraft draft, Waypoint fix) {
        List<FiledRoute.Segment> before = filedUpTo(draft, fix);
        List<FiledRoute.Segment> all = draft.filed.segments();
        return !RouteEnd.over(draft, fix)
                && OnSegments.on(before, draft.situation.position()).isEmpty()
                && OnSegments.on(all.subList(before.size(), all.size()), draft.situation.position())
                        .isPresent();
    }

    /** The route as filed to a fix on it that is still to come, from where the way on is another. */
    static FlownLine.Flown filedTo(AmendmentDraft draft, Waypoint fix) throws ClearanceException {
        asFiled(draft, Optional.of(fix));
        int leg = RouteEnd.legTo(draft, fix);
        draft.cutAfter(leg);
        draft.resumesAt = -1;
        return new FlownLine.Flown(fix.position(), RouteEnd.arrivalTrack(draft.legs.get(leg)), false);
    }

    /**
     * The fix from which the way on is another than filed: said first ("after BBB, direct CCC"), or where the airway that an
     * unchanged rest follows leaves the filed route ahead of the aircraft (FAA Order JO 7110.65, 4-2-5 a).
     */
    static Optional<Waypoint> leavesFiled(Chart chart, AmendmentDraft draft, List<Instruction> instructions) {
        return instructions.stream()
                .filter(each -> each instanceof Instruction.Depart depart && depart.asSaidNext())
                .map(each -> ((Instruction.Depart) each).fix())
                .findFirst()
                .or(() -> partsFromFiled(chart, draft, instructions));
    }

    private static Optional<Waypoint> partsFromFiled(
            Chart chart, AmendmentDraft draft, List<Instruction> instructions) {
        boolean restUnchanged = instructions.stream()
                .anyMatch(each -> each instanceof Instruction.Onward onward
                        && onward.how() == Instruction.Onward.How.REST_OF_ROUTE_UNCHANGED);
        boolean heading = instructions.stream().anyMatch(Instruction.Heading.class::isInstance);
        List<FiledRoute.Segment> filed = draft.filed.segments();
        Optional<OnSegments> here = OnSegments.on(filed, draft.situation.position());
        Optional<Instruction> first =
                instructions.stream().filter(Instruction.Onto.class::isInstance).findFirst();
        if (!restUnchanged
                || heading
                || here.isEmpty()
                || !(first.orElse(null) instanceof Instruction.JoinAirway join)
                || join.at().isPresent()) {
            return Optional.empty();
        }
        FiledRoute.Segment flown = filed.get(here.get().index());
        if (flown.isOn(join.airway())) {
            return Optional.of(flown.from());
        }
        return filed.subList(here.get().index(), filed.size()).stream()
                .map(FiledRoute.Segment::to)
                .takeWhile(point -> join.to().filter(point::equals).isEmpty())
                .filter(point -> chart.airways(join.airway()).stream().anyMatch(airway -> airway.passes(point)))
                .findFirst();
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
        draft.situation
                .headingFor(line.initialCourse())
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

    /** Where the clearance ends: a hold, a limit, a fix to depart; else where it is to be on the filed route again. */
    private static Optional<Waypoint> end(AmendmentDraft draft) {
        return draft.clearance
                .first(Instruction.Hold.class)
                .map(Instruction.Hold::fix)
                .or(() -> draft.clearance.first(Instruction.Depart.class).map(Instruction.Depart::fix))
                .or(() -> draft.clearance.last(Instruction.ClearedTo.class).map(Instruction.ClearedTo::limit))
                .or(() -> draft.clearance.all(Noted.RouteBy.class).stream()
                        .flatMap(by -> by.when() instanceof When.AtLine at && at.line() instanceof Until.AtFix fix
                                ? Stream.of(fix.fix())
                                : Stream.empty())
                        .findFirst());
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
        boolean over = end.filter(fix -> RouteEnd.over(draft, fix)).isPresent();
        if (end.isPresent() && !over && !draft.filed.points().contains(end.get())) {
            if (draft.clearance.first(Instruction.Hold.class).isPresent()) {
                toHold(draft, end.get());
                return;
            }
            throw ClearanceException.cannotBeWorkedOut(end.get().ident()
                    + " is not in the filed route, and the clearance names no way to it: say for example"
                    + " \"direct " + end.get().ident() + "\"");
        }
        List<FiledRoute.Segment> segments = draft.filed.segments();
        // To a fix the way is that which leads there, also where the aircraft is nearer to what comes after it.
        List<FiledRoute.Segment> there =
                end.filter(fix -> !over).map(fix -> filedUpTo(draft, fix)).orElse(segments);
        Position here = draft.situation.position();
        if (there.isEmpty()) {
            toFix(draft, segments.get(0).from(), true);
            segments.forEach(next -> draft.legs.add(Leg.TrackToFix.along(next)));
            draft.courseLeg = 0;
            draft.resumesAt = 0;
            return;
        }
        OnSegments on = OnSegments.nearest(there, here);
        int nearest = on.index();
        FiledRoute.Segment segment = segments.get(nearest);
        if (on.isOn()) {
            draft.legs.add(on.leg(segments));
        } else if (draft.clearance.routeStays() || draft.clearance.disregards()) {
            // Nobody asked for a turn: what is shown is where the route runs, not a way back to it.
            draft.legs.add(on.leg(segments));
            draft.beginsHere = false;
            draft.choice(
                    draft.clearance.disregards()
                            ? "the filed route is %.1f NM away, and how you are to come back to it is not said: ask"
                            : "the route does not change: go on as cleared. Shown is the filed route, %.1f NM away",
                    on.awayNm());
        } else {
            toFix(draft, segment.to(), end.filter(segment.to()::equals).isPresent());
        }
        segments.subList(nearest + 1, segments.size()).forEach(next -> draft.legs.add(Leg.TrackToFix.along(next)));
        if (draft.legs.isEmpty()) {
            throw ClearanceException.cannotBeWorkedOut(
                    "the aircraft is over " + segment.to().ident() + " already, where the filed route ends");
        }
        draft.courseLeg = 0;
        draft.resumesAt = 0;
    }

    /** "Hold west of the AAA 270 radial 20 mile fix", and no way there: direct, as a hold off the route is flown to. */
    private static void toHold(AmendmentDraft draft, Waypoint fix) {
        draft.legs.add(new Leg.DirectToFix(fix, GeodesicLine.between(draft.situation.position(), fix.position())));
        draft.choice(
                "%s, where to hold, is not in the filed route, and how you are to come there is not said; taken is direct %s:"
                        + " ask",
                fix.ident(), fix.ident());
        draft.courseLeg = 0;
    }

    /** Nothing was said of how the aircraft comes to the filed route. */
    private static void toFix(AmendmentDraft draft, Waypoint fix, boolean meant) {
        Position here = draft.situation.position();
        if (here.distanceNm(fix.position()) <= 0.01) {
            return;
        }
        draft.legs.add(new Leg.DirectToFix(fix, GeodesicLine.between(here, fix.position())));
        if (isPassed(draft, fix)) {
            draft.choice(
                    "%s lies behind you on the filed route, and how you are to come back to it is not said; taken is direct"
                            + " %s: ask",
                    fix.ident(), fix.ident());
        } else {
            draft.choice(
                    "the clearance gives no heading or fix to the filed route, %.1f NM away; worked out here: direct %s, %s",
                    OnSegments.nearest(draft.filed.segments(), here).awayNm(),
                    fix.ident(),
                    meant ? "where it leads. Ask." : "the end of its nearest leg. Ask.");
        }
    }
}
