package org.rejoin.bridge.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Instruction.ArcDirection;
import org.rejoin.bridge.clearance.Instruction.Until;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Crossing;
import org.rejoin.bridge.geo.GeodesicArc;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.SlantRange;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;

/**
 * Lines one after the other: a heading to an arc, an arc to a radial, a radial to another or to a distance, and from the
 * last of them to the airway or the fix that follows. Each line ends where its words say, else where it meets the next.
 */
final class LineSequence {

    /** A fix this far off a line is not on it, nautical miles (no source). */
    private static final double ON_LINE_NM = 1;

    /** An arc of less than this is none, degrees (no source). */
    private static final double LEAST_ARC_DEG = 1;

    /** An arc that goes round by more than this was hardly meant, degrees (no source). */
    private static final double LONG_ARC_DEG = 270;

    private final Chart chart;
    private final AmendmentDraft draft;
    private final List<FlownLine> lines = new ArrayList<>();
    private final List<Instruction> rest = new ArrayList<>();
    private Optional<Waypoint> directFirst = Optional.empty();
    private boolean impliedLast;

    /** Where the flight is between two lines. */
    private record Here(Position position, TrueDirection track) {}

    /** Where a line is left: the place, and the step of the path that it lies on, if it is left onto one. */
    private record End(
            Position position, Optional<AirwayPath.Step> step, double alongStepNm, Optional<Waypoint> named) {
        static End at(Position position) {
            return new End(position, Optional.empty(), 0, Optional.empty());
        }
    }

    LineSequence(Chart chart, AmendmentDraft draft) {
        this.chart = chart;
        this.draft = draft;
    }

    /** Whether a clearance is more than one heading, one course and an airway. */
    static boolean applies(Clearance clearance) {
        return clearance.first(Instruction.InterceptArc.class).isPresent()
                || clearance.all(Instruction.InterceptRadial.class).stream()
                        .anyMatch(line -> line.until().isPresent())
                || clearance.all(Instruction.InterceptBearing.class).stream()
                        .anyMatch(line -> line.until().isPresent());
    }

    /**
     * Works the lines out.
     *
     * @param instructions of the clearance, places resolved
     */
    void work(List<Instruction> instructions) throws ClearanceException {
        sort(instructions);
        Optional<AirwayPath> path = path();
        Here here = begin();
        for (int i = 0; i < lines.size(); i++) {
            boolean last = i == lines.size() - 1;
            FlownLine line = lines.get(i);
            Optional<FlownLine> next = last ? Optional.empty() : Optional.of(lines.get(i + 1));
            if (last && line.until().isEmpty() && line instanceof FlownLine.OnRadial radial) {
                finishRadial(radial, here, path);
                return;
            }
            here = line instanceof FlownLine.OnArc arc
                    ? arc(arc, here, next, path)
                    : radialTo((FlownLine.OnRadial) line, here, next, path);
        }
        onward(here);
    }

    private void sort(List<Instruction> instructions) throws ClearanceException {
        for (Instruction each : instructions) {
            if (each instanceof Instruction.InterceptArc arc) {
                lines.add(FlownLine.of(arc, draft));
            } else if (each instanceof Instruction.InterceptRadial radial) {
                lines.add(FlownLine.of(radial, chart, draft));
            } else if (each instanceof Instruction.InterceptBearing bearing) {
                lines.add(FlownLine.of(bearing, draft));
            } else if (each instanceof Instruction.JoinAirway || each instanceof Instruction.Direct) {
                if (!lines.isEmpty()) {
                    rest.add(each);
                } else if (each instanceof Instruction.Direct direct && directFirst.isEmpty()) {
                    directFirst = Optional.of(direct.to());
                } else {
                    throw ClearanceException.cannotBeWorkedOut(
                            "the lines stand after a route of several parts: say first what is flown first, and the"
                                    + " lines as a clearance of their own");
                }
            } else if (each instanceof Instruction.InterceptAirway airway && !lines.isEmpty()) {
                rest.add(new Instruction.JoinAirway(airway.airway(), Optional.empty(), Optional.empty()));
            }
        }
        FlownLine last = lines.get(lines.size() - 1);
        boolean directNext = !rest.isEmpty() && rest.get(0) instanceof Instruction.Direct;
        if (last instanceof FlownLine.OnArc arc
                && arc.until().orElse(null) instanceof Until.AtRadial at
                && !directNext) {
            // "Arc to the 070 radial" leaves the arc onto that radial.
            lines.add(FlownLine.of(
                    new Instruction.InterceptRadial(at.station(), at.radial(), Instruction.Sense.UNSAID),
                    chart,
                    draft));
            impliedLast = true;
        }
        if (last.until().orElse(null) instanceof Until.AtAirway at
                && rest.stream()
                        .noneMatch(each -> each instanceof Instruction.JoinAirway join
                                && join.airway().equals(at.airway()))) {
            rest.add(0, new Instruction.JoinAirway(at.airway(), Optional.empty(), Optional.empty()));
        }
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

    private Here begin() throws ClearanceException {
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
            return new Here(met.get().position(), met.get().firstCourse());
        }
        draft.headingsThatMeet = MeetingHeadings.of(draft.situation, other -> meeting(other, first));
        draft.warn(
                Warning.Code.HEADING_DOES_NOT_REACH_COURSE,
                "heading %s makes good track %s true, which does not meet the %s; %s",
                Angles.figures(plan.magnetic().deg()),
                Angles.figures(plan.ground().track().deg()),
                first.name(),
                MeetingHeadings.advice(draft.headingsThatMeet));
        return new Here(first.nearest(draft.situation.position()), plan.ground().track());
    }

    private Here direct(FlownLine first, Waypoint to) {
        Position here = draft.situation.position();
        if (here.distanceNm(to.position()) < 0.01) {
            return new Here(here, first.courseAbeam(here));
        }
        GeodesicLine line = GeodesicLine.between(here, to.position());
        draft.courseLeg = 0;
        Optional<Double> crossing = first.crossings(line).stream()
                .filter(along -> along > 0 && along < line.lengthNm() + 0.01)
                .findFirst();
        if (crossing.isEmpty()) {
            draft.legs.add(new Leg.DirectToFix(to, line));
            return new Here(to.position(), line.courseAt(line.lengthNm()));
        }
        Position met = line.pointAt(crossing.get());
        Fix entry = new Fix(first.ident(met), met);
        draft.legs.add(new Leg.DirectToFix(entry, GeodesicLine.between(here, met)));
        return new Here(met, line.courseAt(crossing.get()));
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
                line instanceof FlownLine.OnArc
                        ? "crossing of a geodesic with a geodesic circle on WGS 84"
                        : "crossing of two geodesics on WGS 84",
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

    // ---- An arc ----

    private Here arc(FlownLine.OnArc arc, Here here, Optional<FlownLine> next, Optional<AirwayPath> path)
            throws ClearanceException {
        TrueDirection entry =
                arc.station().distancePosition().to(here.position()).initial();
        arc.said().side().ifPresent(side -> {
            double off = Math.abs(Angles.turn(
                    entry.toMagnetic(draft.situation.variationAt(arc.station())).deg() - Compass.degrees(side)));
            if (off > 67.5) {
                draft.warn(
                        Warning.Code.CHOICE_MADE,
                        "the arc is met on the other side: the clearance says %s of %s, and it is met %s of it",
                        side,
                        arc.station().ident(),
                        Compass.words(entry.toMagnetic(draft.situation.variationAt(arc.station()))
                                .deg()));
            }
        });
        List<End> ends = arcEnds(arc, next, path);
        if (ends.isEmpty()) {
            throw ClearanceException.cannotBeWorkedOut(
                    "the clearance does not say where the " + arc.name() + " is left, and "
                            + path.map(each -> each.ident().isEmpty() ? "the filed route" : each.ident())
                                    .orElse("the next line")
                            + " does not cross it: say for example \"arc clockwise to the "
                            + arc.station().ident() + " 090 radial\"");
        }
        End clockwise = nearest(arc, entry, ends, 1);
        End counter = nearest(arc, entry, ends, -1);
        boolean right = clockwise(arc, entry, clockwise, counter);
        End end = right ? clockwise : counter;
        double sweep = sweep(arc, entry, end, right ? 1 : -1);
        if (Math.abs(sweep) > LONG_ARC_DEG) {
            draft.warn(
                    Warning.Code.CROSSING_BEHIND,
                    "the arc is left only after %.0f degrees round the station: where it is to be left lies behind",
                    Math.abs(sweep));
        }
        Waypoint to = end.named().orElseGet(() -> new Fix(arc.ident(end.position()), end.position()));
        GeodesicArc flown = new GeodesicArc(arc.station().distancePosition(), arc.radiusNm(), entry, sweep);
        draft.legs.add(new Leg.DmeArc(
                arc.station(),
                arc.said().distanceNm(),
                flown,
                arc.radialAt(here.position()),
                arc.radialAt(end.position()),
                to));
        if (draft.legs.size() == 2 && draft.intercept.isPresent()) {
            // Only now is it known which way the arc is flown, and so how far the turn onto it is.
            Intercept met = draft.intercept.get();
            HeadingPlan plan = draft.heading.orElseThrow();
            draft.intercept = Optional.of(Intercepts.of(
                    plan,
                    new Crossing(met.position(), met.distanceNm(), 0, here.track(), flown.courseAbeam(met.position())),
                    Optional.empty()));
        }
        describeArc(arc, flown);
        TrueDirection track = flown.courseAt(flown.lengthNm());
        if (end.step().isPresent()) {
            onto(end, to, arc.station(), arc.radialAt(end.position()), track, arc.radiusNm(), path.orElseThrow());
            rest.clear();
            finished = true;
        }
        return new Here(end.position(), track);
    }

    private boolean finished;

    private void describeArc(FlownLine.OnArc arc, GeodesicArc flown) {
        draft.step(
                "arc",
                "angle at the station x reduced length of the radius, on WGS 84",
                "%s, %s from %05.1f by %.1f degrees: %.2f NM",
                arc.name(),
                flown.clockwise() ? "clockwise" : "counterclockwise",
                flown.startAzimuth().deg(),
                Math.abs(flown.sweepDeg()),
                flown.lengthNm());
        draft.altitudeFt().ifPresent(feet -> {
            double ground = SlantRange.groundNm(
                    arc.said().distanceNm(), feet - arc.station().elevationFt());
            draft.notes.add(String.format(
                    Locale.ROOT,
                    "a DME shows slant range: at %.0f ft, %.1f on it is %.2f NM over the ground",
                    feet,
                    arc.said().distanceNm(),
                    ground));
        });
        draft.heading.ifPresent(plan -> {
            double speed = plan.ground().groundSpeedKt();
            draft.step(
                    "lead onto an arc",
                    "R tan(angle / 2), R = GS / (60 pi); for 90 degrees the handbook says 0.5 % of the ground speed in NM",
                    "R = %.4f NM; half a per cent of %.0f kt is %.2f NM",
                    Turn.standardRadiusNm(speed),
                    speed,
                    speed * 0.005);
        });
    }

    private boolean clockwise(FlownLine.OnArc arc, TrueDirection entry, End clockwise, End counter) {
        if (arc.said().direction() != ArcDirection.UNSAID) {
            return arc.said().direction() == ArcDirection.CLOCKWISE;
        }
        double right = sweep(arc, entry, clockwise, 1);
        double left = sweep(arc, entry, counter, -1);
        if (arc.said().bound().isPresent()) {
            double wanted = Compass.degrees(arc.said().bound().get());
            double variation = draft.situation.variationAt(arc.station()).eastDeg();
            // An arc leads where its courses at both ends point; the better of the two tells the ways apart.
            double first = entry.deg() - variation - wanted;
            double offRight = Math.min(Math.abs(Angles.turn(first + 90)), Math.abs(Angles.turn(first + 90 + right)));
            double offLeft = Math.min(Math.abs(Angles.turn(first - 90)), Math.abs(Angles.turn(first - 90 + left)));
            return offRight <= offLeft;
        }
        boolean shorterRight = right <= -left;
        draft.warn(
                Warning.Code.CHOICE_MADE,
                "which way round the arc is not said; taken is the shorter, %s by %.0f degrees: ask",
                shorterRight ? "clockwise" : "counterclockwise",
                shorterRight ? right : -left);
        return shorterRight;
    }

    /** The end that comes first one way round. */
    private static End nearest(FlownLine.OnArc arc, TrueDirection entry, List<End> ends, int side) {
        return ends.stream()
                .min(Comparator.comparingDouble(end -> Math.abs(sweep(arc, entry, end, side))))
                .orElseThrow();
    }

    private static double sweep(FlownLine.OnArc arc, TrueDirection entry, End end, int side) {
        double azimuth =
                arc.station().distancePosition().to(end.position()).initial().deg();
        double turn = Angles.circle((azimuth - entry.deg()) * side);
        return side * (turn < LEAST_ARC_DEG ? turn + 360 - 1e-6 - turn : turn);
    }

    private List<End> arcEnds(FlownLine.OnArc arc, Optional<FlownLine> next, Optional<AirwayPath> path)
            throws ClearanceException {
        Until until = arc.until().orElse(null);
        if (until instanceof Until.AtFix at) {
            if (arc.crossTrackNm(at.fix().position()) > ON_LINE_NM) {
                throw ClearanceException.cannotBeWorkedOut(String.format(
                        Locale.ROOT,
                        "%s is %.1f NM from %s and so not on the %s",
                        at.fix().ident(),
                        at.fix().position().distanceNm(arc.station().distancePosition()),
                        arc.station().ident(),
                        arc.name()));
            }
            return List.of(new End(arc.nearest(at.fix().position()), Optional.empty(), 0, Optional.of(at.fix())));
        }
        if (until instanceof Until.AtDistance) {
            throw ClearanceException.cannotBeWorkedOut(
                    "an arc is left at a radial, an airway or a fix, not at a distance");
        }
        FlownLine line = until instanceof Until.AtRadial at
                ? FlownLine.of(
                        new Instruction.InterceptRadial(at.station(), at.radial(), Instruction.Sense.UNSAID),
                        chart,
                        draft)
                : next.orElse(null);
        if (line instanceof FlownLine.OnRadial radial) {
            return radial.station().equals(arc.station())
                    ? List.of(End.at(radial.station()
                            .distancePosition()
                            .destination(radial.outbound().initialCourse(), arc.radiusNm())))
                    : arc.crossings(radial.outbound()).stream()
                            .filter(along -> along > 0 && along < RadialAmendment.RADIAL_REACH_NM)
                            .map(along -> End.at(radial.outbound().pointAt(along)))
                            .toList();
        }
        List<End> ends = new ArrayList<>();
        path.ifPresent(each -> each.steps()
                .forEach(step -> arc.crossings(step.line()).stream()
                        .filter(along -> Intercepts.within(along, step.line()))
                        .forEach(along -> ends.add(
                                new End(step.line().pointAt(along), Optional.of(step), along, Optional.empty())))));
        return ends;
    }

    // ---- A radial ----

    private Here radialTo(FlownLine.OnRadial radial, Here here, Optional<FlownLine> next, Optional<AirwayPath> path)
            throws ClearanceException {
        double from = radial.outbound().offset(here.position()).alongTrackNm();
        List<End> ends = radialEnds(radial, next, path);
        double sign = switch (radial.sense()) {
            case INBOUND -> -1;
            case OUTBOUND -> 1;
            case UNSAID -> 0;
        };
        End end = ends.stream()
                .filter(each -> sign == 0 || (along(radial, each) - from) * sign > 0)
                .min(Comparator.comparingDouble(each -> Math.abs(along(radial, each) - from)))
                .orElseThrow(() -> ClearanceException.cannotBeWorkedOut("along the " + radial.name()
                        + " there is nothing ahead to leave it at: where it is to be left lies behind, or is not met"));
        double to = along(radial, end);
        Waypoint at = end.named().orElseGet(() -> new Fix(radial.ident(end.position()), end.position()));
        TrueDirection track = radialLeg(radial, from, to, at);
        draft.step(
                "where the " + radial.name() + " is left",
                "crossing on WGS 84",
                "%.6f, %.6f, %.4f NM from %s",
                end.position().latitudeDeg(),
                end.position().longitudeDeg(),
                to,
                radial.station().ident());
        if (end.step().isPresent()) {
            onto(end, at, radial.station(), radial.radial(), track, to, path.orElseThrow());
            rest.clear();
            finished = true;
        }
        return new Here(end.position(), track);
    }

    /** The leg along a radial; its true course at the end. */
    private TrueDirection radialLeg(FlownLine.OnRadial radial, double from, double to, Waypoint at) {
        GeodesicLine outbound = radial.outbound();
        boolean out = to >= from;
        draft.course = draft.course
                .filter(course -> !course.station().equals(radial.station()) || draft.legs.size() > 1)
                .or(() -> Optional.of(new Course(
                        radial.station(),
                        radial.radial(),
                        out ? Course.Direction.FROM : Course.Direction.TO,
                        outbound)));
        if (out) {
            draft.legs.add(new Leg.FixOutbound(
                    radial.station(),
                    at,
                    radial.radial(),
                    GeodesicLine.from(outbound.start(), outbound.initialCourse(), Math.max(to, 0.05)),
                    Math.max(0, Math.min(from, to))));
            return outbound.courseAt(to);
        }
        draft.legs.add(new Leg.CourseToFix(
                at,
                radial.radial().reciprocal(),
                GeodesicLine.between(outbound.pointAt(Math.max(from, to + 0.05)), outbound.pointAt(to)),
                radial.station()));
        return outbound.courseAt(to).reciprocal();
    }

    private static double along(FlownLine.OnRadial radial, End end) {
        return radial.outbound().offset(end.position()).alongTrackNm();
    }

    private List<End> radialEnds(FlownLine.OnRadial radial, Optional<FlownLine> next, Optional<AirwayPath> path)
            throws ClearanceException {
        Until until = radial.until().orElse(null);
        GeodesicLine outbound = radial.outbound();
        if (until instanceof Until.AtFix at) {
            Offset offset = outbound.offset(at.fix().position());
            if (Math.abs(offset.crossTrackNm()) > ON_LINE_NM) {
                throw ClearanceException.cannotBeWorkedOut(String.format(
                        Locale.ROOT,
                        "%s lies %.1f NM off the %s",
                        at.fix().ident(),
                        Math.abs(offset.crossTrackNm()),
                        radial.name()));
            }
            return List.of(
                    new End(outbound.pointAt(offset.alongTrackNm()), Optional.empty(), 0, Optional.of(at.fix())));
        }
        if (until instanceof Until.AtDistance at) {
            return outbound.crossingsOfCircle(at.station().distancePosition(), at.distanceNm()).stream()
                    .filter(each -> each > 0.01)
                    .map(each -> End.at(outbound.pointAt(each)))
                    .toList();
        }
        FlownLine line = until instanceof Until.AtRadial at
                ? FlownLine.of(
                        new Instruction.InterceptRadial(at.station(), at.radial(), Instruction.Sense.UNSAID),
                        chart,
                        draft)
                : next.orElse(null);
        if (line != null) {
            return line.crossings(outbound).stream()
                    .filter(each -> each > 0.01 && each < RadialAmendment.RADIAL_REACH_NM)
                    .map(each -> End.at(outbound.pointAt(each)))
                    .toList();
        }
        List<End> ends = new ArrayList<>();
        path.ifPresent(each -> each.steps()
                .forEach(step -> outbound.crossing(step.line())
                        .filter(crossing -> Intercepts.within(crossing.alongSecondNm(), step.line())
                                && crossing.alongFirstNm() > 0.01)
                        .ifPresent(crossing -> ends.add(new End(
                                crossing.position(), Optional.of(step), crossing.alongSecondNm(), Optional.empty())))));
        return ends;
    }

    /** The last radial leads to the airway, which it may be itself, or to its station on the route. */
    private void finishRadial(FlownLine.OnRadial radial, Here here, Optional<AirwayPath> path)
            throws ClearanceException {
        if (path.isEmpty()) {
            throw ClearanceException.cannotBeWorkedOut("the clearance does not say where the " + radial.name()
                    + " is left: say \"until\" a radial or a distance, then direct");
        }
        AirwayPath airway = path.get();
        double from = radial.outbound().offset(here.position()).alongTrackNm();
        Optional<RadialOfAirway> same =
                RadialOfAirway.of(airway, radial.station(), radial.outbound().initialCourse());
        if (same.isPresent() && same.get().fits(radial.sense())) {
            AirwayPath.Step step = airway.steps().get(same.get().first());
            double along = step.line().offset(here.position()).alongTrackNm();
            if (along < step.line().lengthNm()) {
                int begins = draft.legs.size();
                draft.legs.addAll(
                        airway.legsFrom(same.get().first(), step.segment().from(), Math.max(0, along)));
                draft.markJoin(begins, airway.ident());
                draft.markResume(begins);
                draft.notes.add("the " + radial.name() + " is " + AirwayPath.name(step.segment()) + " itself");
                return;
            }
        }
        int onPath = airway.indexOf(radial.station());
        if (onPath >= 0 && radial.sense() != Instruction.Sense.OUTBOUND) {
            radialLeg(radial, from, 0, radial.station());
            int begins = draft.legs.size();
            draft.legs.addAll(airway.legsFromPoint(onPath));
            draft.markJoin(begins, airway.ident());
            draft.markResume(begins);
            return;
        }
        if (impliedLast && radialEnds(radial, Optional.empty(), path).isEmpty()) {
            draft.warn(
                    Warning.Code.CHOICE_MADE,
                    "the clearance does not say how the route goes on from the %s: ask before you reach it",
                    radial.name());
            return;
        }
        if (radialEnds(radial, Optional.empty(), path).isEmpty()) {
            throw new ClearanceException(
                    ClearanceException.Code.RADIAL_DOES_NOT_CROSS_AIRWAY,
                    "the " + radial.name() + " does not cross "
                            + (airway.ident().isEmpty() ? "the filed route" : airway.ident()));
        }
        radialTo(radial, here, Optional.empty(), path);
    }

    // ---- How the route goes on ----

    /** From a line onto the airway that it crosses: that crossing is a computed fix. */
    private void onto(
            End end,
            Waypoint at,
            Station station,
            Radial radial,
            TrueDirection track,
            double distanceNm,
            AirwayPath path) {
        AirwayPath.Step step = end.step().orElseThrow();
        TrueDirection airwayCourse = step.line().courseAt(end.alongStepNm());
        Crossing crossing = new Crossing(end.position(), distanceNm, end.alongStepNm(), track, airwayCourse);
        OptionalDouble altitude = draft.altitudeFt();
        draft.computedFix = Optional.of(new ComputedFix(
                at instanceof Fix fix ? fix : new Fix(at.ident(), at.position()),
                step.segment(),
                end.alongStepNm(),
                crossing.acuteAngleDeg(),
                track,
                airwayCourse,
                definitions(FixDefinitions.of(chart, station, radial, crossing, altitude))));
        int begins = draft.legs.size();
        draft.legs.addAll(path.legsFrom(path.steps().indexOf(step), at, 0));
        draft.markJoin(begins, path.ident());
        draft.markResume(begins);
    }

    /** The station of an arc names the fix by the radial where the arc is left. */
    private List<ComputedFix.Definition> definitions(List<ComputedFix.Definition> found) {
        if (!(draft.legs.get(draft.legs.size() - 1) instanceof Leg.DmeArc)) {
            return found;
        }
        List<ComputedFix.Definition> all = new ArrayList<>(found);
        ComputedFix.Definition first = found.get(0);
        all.set(
                0,
                new ComputedFix.Definition(
                        first.station(),
                        first.radial(),
                        first.distanceNm(),
                        first.crossingAngleDeg(),
                        first.use(),
                        "where the arc meets the airway"));
        return all;
    }

    private void onward(Here here) throws ClearanceException {
        if (finished) {
            return;
        }
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
