package org.rejoin.bridge.route;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.TrueDirection;

/** A radial of a clearance, or a bearing: how far it is flown, and where it is left. */
record RadialToFly(Chart chart, AmendmentDraft draft) {

    /** An arc leads onto a radial of its station at a right angle, degrees: as near as that is neither ahead nor behind. */
    private static final double RIGHT_ANGLE_DEG = 1;

    /** Nearer than this to its station nothing of a radial is left to fly inbound, nautical miles. */
    private static final double OVER_STATION_NM = 0.1;

    private static String nothingAhead(FlownLine.OnRadial radial, Optional<FlownLine> next) {
        return "along the " + radial.name() + " there is nothing ahead to leave it at: "
                + next.map(line -> "the " + line.name()).orElse("where it is to be left")
                + " lies behind, or is not met";
    }

    /** "Direct AAA, inbound on the 258 course": over the station an inbound course is flown already. */
    private static String endsHere(FlownLine.OnRadial radial) {
        String station = radial.station().ident();
        return "direct " + station + " leads over " + station + ", where the " + radial.name()
                + " inbound ends: for the course to it say \"intercept the " + radial.name()
                + " inbound\" without the direct; for the way on say \"outbound\"";
    }

    /** Adds its leg, and those of the airway where it is left onto that. */
    FlownLine.Flown fly(
            FlownLine.OnRadial radial, FlownLine.Flown here, Optional<FlownLine> next, Optional<AirwayPath> path)
            throws ClearanceException {
        double from = radial.outbound().offset(here.position()).alongTrackNm();
        List<LineEnd> ends = LineEnd.of(radial, next, path, chart, draft);
        double sign = switch (radial.sense()) {
            case INBOUND -> -1;
            case OUTBOUND -> 1;
            case UNSAID -> 0;
        };
        LineEnd end = ends.stream()
                .filter(each -> sign == 0 || (along(radial, each) - from) * sign > 0)
                .min(Comparator.comparingDouble(each -> Math.abs(along(radial, each) - from)))
                .orElseThrow(() -> ClearanceException.cannotBeWorkedOut(
                        sign < 0 && from < OVER_STATION_NM ? endsHere(radial) : nothingAhead(radial, next)));
        double to = along(radial, end);
        Waypoint at = end.fixOn(radial);
        sayBehind(radial, here, from, to);
        TrueDirection track = radialLeg(radial, from, to, at);
        RouteChecks.usedAtEnd(draft, radial, end.position());
        draft.step(
                "where the " + radial.name() + " is left",
                "crossing on WGS 84",
                "%.6f, %.6f, %.4f NM from %s",
                end.position().latitudeDeg(),
                end.position().longitudeDeg(),
                to,
                radial.station().ident());
        return end.leave(at, radial.station(), radial.radial(), track, to, path, chart, draft);
    }

    /** A radial runs out from its station: back along it to where it is left is a way that nobody expects unsaid. */
    private void sayBehind(FlownLine.OnRadial radial, FlownLine.Flown here, double from, double to) {
        TrueDirection back = radial.outbound().offset(here.position()).course().reciprocal();
        double turn = Math.abs(here.track().turnTo(back));
        boolean unsaid = radial.sense() == Instruction.Sense.UNSAID;
        if (unsaid && to < from && turn > Intercepts.STEEP_DEG + RIGHT_ANGLE_DEG) {
            draft.warn(
                    Warning.Code.CROSSING_BEHIND,
                    "the %s is met %.1f NM past where it is left: that lies behind, back by a turn of %s",
                    radial.name(),
                    from - to,
                    Angles.degrees(turn));
        }
    }

    /** The leg along a radial; its true course at the end. */
    private TrueDirection radialLeg(FlownLine.OnRadial radial, double from, double to, Waypoint at) {
        GeodesicLine outbound = radial.outbound();
        boolean out = to >= from;
        RouteChecks.used(draft, radial.station(), Math.max(from, to));
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

    private static double along(FlownLine.OnRadial radial, LineEnd end) {
        return radial.outbound().offset(end.position()).alongTrackNm();
    }

    /**
     * Adds what is flown of the last radial, which leads to the airway, or is it, or leads to its station on the route.
     *
     * @param implied whether "to the 070 radial" of an arc named it, and nothing else
     */
    FlownLine.Flown finish(FlownLine.OnRadial radial, FlownLine.Flown here, Optional<AirwayPath> path, boolean implied)
            throws ClearanceException {
        if (path.isEmpty()) {
            throw ClearanceException.cannotBeWorkedOut("the clearance does not say where the " + radial.name()
                    + " is left: say \"until\" a radial or a distance, then direct");
        }
        AirwayPath route = path.get();
        FlownLine.Flown done = new FlownLine.Flown(here.position(), here.track(), true);
        List<LineEnd> met = LineEnd.of(radial, Optional.empty(), path, chart, draft);
        double from = radial.outbound().offset(here.position()).alongTrackNm();
        Optional<Integer> same = RadialOfAirway.of(chart, route, radial).flatMap(each -> each.stepAt(here.position()));
        if (same.isPresent()) {
            AirwayPath.Step step = route.steps().get(same.get());
            double along = step.line().offset(here.position()).alongTrackNm();
            draft.append(route.legsFrom(same.get(), step.segment().from(), Math.max(0, along)), route);
            draft.notes.add("the " + radial.name() + " is " + AirwayPath.name(step.segment()) + " itself");
            return done;
        }
        int onPath = route.indexOf(radial.station());
        if (onPath >= 0 && radial.sense() != Instruction.Sense.OUTBOUND) {
            radialLeg(radial, from, 0, radial.station());
            draft.append(route.legsFromPoint(onPath), route);
            return done;
        }
        if (implied && met.isEmpty()) {
            draft.choice(
                    "the clearance does not say how the route goes on from the %s: ask before you reach it",
                    radial.name());
            return done;
        }
        boolean untilMore = route.ident().isEmpty()
                && radial.sense() == Instruction.Sense.OUTBOUND
                && draft.clearance.first(Instruction.Onward.class).isEmpty()
                && here.position().distanceNm(radial.station().position()) < RouteEnd.OVER_NM;
        if (untilMore && met.isEmpty()) {
            // "Direct AAA, then the AAA 078 radial outbound" departs AAA on it.
            draft.course = radial.course();
            draft.legs.add(new Leg.CourseFrom(radial.station(), radial.radial(), radial.outbound()));
            return done;
        }
        if (met.isEmpty()) {
            throw new ClearanceException(
                    ClearanceException.Code.RADIAL_DOES_NOT_CROSS_AIRWAY,
                    "the " + radial.name() + " does not cross " + route.name());
        }
        return fly(radial, here, Optional.empty(), path);
    }
}
