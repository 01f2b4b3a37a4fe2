package org.rejoin.bridge.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Instruction.Until;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Crossing;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;

/**
 * Lines one after the other: a heading to an arc, an arc to a radial, a radial to another or to a distance, and from the
 * last of them to the airway or the fix that follows. Each line ends where its words say, else where it meets the next.
 */
final class LineSequence {

    private final Chart chart;
    private final AmendmentDraft draft;
    private final List<FlownLine> lines = new ArrayList<>();
    private final List<Instruction> rest = new ArrayList<>();
    private Optional<Waypoint> directFirst = Optional.empty();
    private boolean impliedLast;

    LineSequence(Chart chart, AmendmentDraft draft) {
        this.chart = chart;
        this.draft = draft;
    }

    /** Whether a clearance is more than one heading, one course and an airway. */
    static boolean applies(Clearance clearance) {
        return clearance.instructions().stream()
                .filter(Instruction.StationLine.class::isInstance)
                .map(Instruction.StationLine.class::cast)
                .anyMatch(line ->
                        line instanceof Instruction.InterceptArc || line.until().isPresent());
    }

    /**
     * Works the lines out.
     *
     * @param instructions of the clearance, places resolved
     */
    void work(List<Instruction> instructions) throws ClearanceException {
        sort(instructions);
        Optional<AirwayPath> path = path();
        LineFlown here = begin();
        for (int i = 0; i < lines.size(); i++) {
            if (here.onAirway()) {
                throw ClearanceException.cannotBeWorkedOut("the route is on the airway before the "
                        + lines.get(i).name() + " is met: say that line as a clearance of its own");
            }
            Optional<FlownLine> next = i + 1 < lines.size() ? Optional.of(lines.get(i + 1)) : Optional.empty();
            here = lines.get(i).meet(new Flight(here, next, path));
        }
        if (!here.onAirway()) {
            onward(here);
        }
    }

    /** Flies one line to where the next begins. */
    private final class Flight implements FlownLine.Visitor<LineFlown> {

        private final LineFlown here;
        private final Optional<FlownLine> next;
        private final Optional<AirwayPath> path;

        Flight(LineFlown here, Optional<FlownLine> next, Optional<AirwayPath> path) {
            this.here = here;
            this.next = next;
            this.path = path;
        }

        @Override
        public LineFlown radial(FlownLine.OnRadial radial) throws ClearanceException {
            RadialToFly flown = new RadialToFly(chart, draft);
            return next.isEmpty() && radial.until().isEmpty()
                    ? flown.finish(radial, here, path, impliedLast)
                    : flown.fly(radial, here, next, path);
        }

        @Override
        public LineFlown arc(FlownLine.OnArc arc) throws ClearanceException {
            return new ArcToFly(chart, draft).fly(arc, here, next, path);
        }
    }

    private void sort(List<Instruction> instructions) throws ClearanceException {
        List<Instruction.Onto> before = new ArrayList<>();
        for (Instruction each : instructions) {
            if (each instanceof Instruction.StationLine line) {
                lines.add(FlownLine.of(line, chart, draft));
            } else if (each instanceof Instruction.Onto onto && !lines.isEmpty()) {
                rest.add(onto.onto(
                        airway -> new Instruction.JoinAirway(airway.airway(), Optional.empty(), Optional.empty()),
                        join -> join,
                        direct -> direct));
            } else if (each instanceof Instruction.Onto onto) {
                before.add(onto);
            }
        }
        directFirst = directFirst(before);
        FlownLine last = lines.get(lines.size() - 1);
        boolean directNext = !rest.isEmpty() && rest.get(0) instanceof Instruction.Direct;
        if (last instanceof FlownLine.OnArc arc
                && arc.until().orElse(null) instanceof Until.AtRadial at
                && !directNext) {
            // "Arc to the 070 radial" leaves the arc onto that radial.
            lines.add(FlownLine.of(at, chart, draft));
            impliedLast = true;
        }
        if (last.until().orElse(null) instanceof Until.AtAirway at
                && rest.stream()
                        .noneMatch(each -> each instanceof Instruction.JoinAirway join
                                && join.airway().equals(at.airway()))) {
            rest.add(0, new Instruction.JoinAirway(at.airway(), Optional.empty(), Optional.empty()));
        }
    }

    /** The fix that the aircraft goes to before it flies a line; nothing else can come before one. */
    private static Optional<Waypoint> directFirst(List<Instruction.Onto> before) throws ClearanceException {
        List<Waypoint> fixes = before.stream()
                .flatMap(each -> each.<Stream<Waypoint>>onto(
                        airway -> Stream.empty(), join -> Stream.empty(), direct -> Stream.of(direct.to())))
                .toList();
        if (before.size() > 1 || fixes.size() < before.size()) {
            throw ClearanceException.cannotBeWorkedOut(
                    "the lines stand after a route of several parts: say first what is flown first, and the"
                            + " lines as a clearance of their own");
        }
        return fixes.stream().findFirst();
    }

    /** The airway that follows, or the filed route; none where a direct follows. */
    private Optional<AirwayPath> path() throws ClearanceException {
        if (!rest.isEmpty() && rest.get(0) instanceof Instruction.JoinAirway join) {
            return Optional.of(
                    AirwayPath.of(chart, draft.filed, join.airway(), join.to(), rest.subList(1, rest.size())));
        }
        return rest.isEmpty() ? Optional.of(AirwayPath.ofFiledRoute(draft.filed)) : Optional.empty();
    }

    // ---- How the first line is met ----

    private LineFlown begin() throws ClearanceException {
        FlownLine first = lines.get(0);
        if (directFirst.isPresent()) {
            return direct(first, directFirst.get());
        }
        if (draft.heading.isEmpty()) {
            draft.heading = propose(first);
            draft.describeHeading();
        }
        HeadingPlan plan = draft.heading.orElseThrow(() -> ClearanceException.cannotBeWorkedOut(
                "no heading from here meets the " + first.name() + " at a sensible angle in this wind"));
        Optional<Crossing> met = meeting(plan, first);
        draft.intercept = met.map(crossing -> Intercepts.of(plan, crossing, Optional.empty()));
        draft.legs.add(Intercepts.headingLeg(plan, draft.intercept));
        draft.courseLeg = 1;
        if (first instanceof FlownLine.OnRadial radial) {
            draft.course = Optional.of(new Course(
                    radial.station(),
                    radial.radial(),
                    radial.sense() == Instruction.Sense.INBOUND ? Course.Direction.TO : Course.Direction.FROM,
                    radial.outbound()));
        }
        if (met.isPresent()) {
            describe(plan, first);
            return new LineFlown(met.get().position(), met.get().firstCourse(), false);
        }
        draft.headingsThatMeet = MeetingHeadings.of(draft.situation, other -> meeting(other, first));
        draft.warn(
                Warning.Code.HEADING_DOES_NOT_REACH_COURSE,
                "heading %s makes good track %s true, which does not meet the %s; %s",
                Angles.figures(plan.magnetic().deg()),
                Angles.figures(plan.ground().track().deg()),
                first.name(),
                MeetingHeadings.advice(draft.headingsThatMeet));
        return new LineFlown(
                first.nearest(draft.situation.position()), plan.ground().track(), false);
    }

    private LineFlown direct(FlownLine first, Waypoint to) {
        Position here = draft.situation.position();
        if (here.distanceNm(to.position()) < 0.01) {
            return new LineFlown(here, first.courseAbeam(here), false);
        }
        GeodesicLine line = GeodesicLine.between(here, to.position());
        draft.courseLeg = 0;
        Optional<Double> crossing = first.crossings(line).stream()
                .filter(along -> along > 0 && along < line.lengthNm() + 0.01)
                .findFirst();
        if (crossing.isEmpty()) {
            draft.legs.add(new Leg.DirectToFix(to, line));
            return new LineFlown(to.position(), line.courseAt(line.lengthNm()), false);
        }
        Position met = line.pointAt(crossing.get());
        Fix entry = new Fix(first.ident(met), met);
        draft.legs.add(new Leg.DirectToFix(entry, GeodesicLine.between(here, met)));
        return new LineFlown(met, line.courseAt(crossing.get()), false);
    }

    private static Optional<Crossing> meeting(HeadingPlan plan, FlownLine line) {
        Position start = plan.path().start();
        if (line.crossTrackNm(start) < 0.05) {
            return Optional.of(new Crossing(
                    start,
                    0,
                    0,
                    plan.path().initialCourse(),
                    line.courseToward(start, plan.path().initialCourse())));
        }
        return line.crossings(plan.path()).stream()
                .filter(along -> along > 0 && along <= HeadingPlan.REACH_NM)
                .findFirst()
                .map(along -> {
                    Position at = plan.path().pointAt(along);
                    TrueDirection track = plan.path().courseAt(along);
                    return new Crossing(at, along, 0, track, line.courseToward(at, track));
                });
    }

    private Optional<HeadingPlan> propose(FlownLine first) {
        Position here = draft.situation.position();
        if (first instanceof FlownLine.OnArc arc) {
            double away = arc.station().distancePosition().distanceNm(here);
            if (away < 0.05) {
                return Optional.empty();
            }
            GeodesicLine toStation = GeodesicLine.between(here, arc.station().distancePosition());
            return InterceptHeading.toward(
                    away > arc.radiusNm()
                            ? toStation
                            : GeodesicLine.from(here, toStation.initialCourse().reciprocal(), arc.radiusNm()),
                    0,
                    draft.situation);
        }
        GeodesicLine outbound = ((FlownLine.OnRadial) first).outbound();
        GeodesicLine flown =
                ((FlownLine.OnRadial) first).sense() == Instruction.Sense.INBOUND ? outbound.reversed() : outbound;
        for (double angle : new double[] {45, 30, 60, 90}) {
            Optional<HeadingPlan> plan = InterceptHeading.toward(flown, angle, draft.situation)
                    .filter(each -> meeting(each, first).isPresent());
            if (plan.isPresent()) {
                return plan;
            }
        }
        return Optional.empty();
    }

    private void describe(HeadingPlan plan, FlownLine line) {
        Intercept met = draft.intercept.orElseThrow();
        draft.step(
                "where the track meets the " + line.name(),
                line.crossed(),
                "%.6f, %.6f, %.4f NM ahead, %.2f min at %.1f kt",
                met.position().latitudeDeg(),
                met.position().longitudeDeg(),
                met.distanceNm(),
                met.minutes(),
                plan.ground().groundSpeedKt());
        if (met.leadNm() > met.distanceNm() && met.distanceNm() > 0.05) {
            draft.warn(
                    Warning.Code.NO_ROOM_TO_TURN,
                    "the lead of %.2f NM is longer than the %.2f NM to the %s: it will be flown through",
                    met.leadNm(),
                    met.distanceNm(),
                    line.name());
        }
    }

    // ---- How the route goes on ----

    private void onward(LineFlown here) throws ClearanceException {
        Waypoint at = draft.legs.get(draft.legs.size() - 1).endsAt().orElseThrow();
        if (rest.isEmpty()) {
            List<FiledRoute.Segment> filed = OnwardRoute.asFiledFrom(draft.filed, at);
            if (filed.isEmpty()
                    && draft.clearance.first(Instruction.Onward.class).isPresent()) {
                throw ClearanceException.cannotBeWorkedOut(
                        at.ident() + ", where the line is left, is not in the filed route, so \"as filed\" does not"
                                + " say where the route goes on from there: name the next fix or airway");
            }
            if (filed.isEmpty()) {
                draft.warn(
                        Warning.Code.CHOICE_MADE,
                        "the clearance does not say how the route goes on from %s: ask before you reach it",
                        at.ident());
            }
            append(filed, List.of());
            return;
        }
        if (rest.get(0) instanceof Instruction.Direct direct) {
            List<FiledRoute.Segment> segments = new ArrayList<>();
            if (here.position().distanceNm(direct.to().position()) > 0.01) {
                segments.add(new FiledRoute.Segment(at, direct.to(), Optional.empty()));
            }
            segments.addAll(OnwardRoute.from(chart, draft.filed, direct.to(), rest.subList(1, rest.size())));
            append(segments, rest);
            return;
        }
        append(OnwardRoute.from(chart, draft.filed, at, rest), rest);
    }

    private void append(List<FiledRoute.Segment> segments, List<Instruction> joins) {
        int begins = draft.legs.size();
        segments.forEach(segment -> draft.legs.add(Leg.TrackToFix.along(segment)));
        draft.markFirstJoin(begins, joins);
        draft.markResume(begins);
    }
}
