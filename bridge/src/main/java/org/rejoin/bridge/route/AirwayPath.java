package org.rejoin.bridge.route;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.GeodesicLine;

/**
 * The airway to join, in the direction flown, and how the route goes on after it. The direction is the filed one; only
 * a fix named as its end ("join V40 to DDD") can say otherwise.
 *
 * @param ident of the airway; empty text when any leg of the filed route will do
 * @param steps the segments that may be joined, in the order flown
 * @param tail filed segments flown after the last step
 */
record AirwayPath(String ident, List<Step> steps, List<FiledRoute.Segment> tail) {

    /** One segment that may be joined. */
    record Step(FiledRoute.Segment segment, GeodesicLine line) {}

    /** A segment by name: "V31 AAA-ABCDE". */
    static String name(FiledRoute.Segment segment) {
        return segment.airway().orElse("the direct") + " " + segment.from().ident() + "-"
                + segment.to().ident();
    }

    /** What is joined, by name: "V31", "the filed route". */
    String name() {
        return ident.isEmpty() ? "the filed route" : ident;
    }

    /** Whether a point is on it, before it is left. */
    boolean passes(Waypoint point) {
        return steps.stream()
                .anyMatch(step -> step.segment().from().equals(point)
                        || step.segment().to().equals(point));
    }

    /** The same, to be joined on some of its steps alone. */
    AirwayPath only(int first, int last) {
        List<FiledRoute.Segment> onward = new ArrayList<>();
        for (int i = last + 1; i < steps.size(); i++) {
            FiledRoute.Segment next = steps.get(i).segment();
            if (!next.from().equals(steps.get(i - 1).segment().to())) {
                break;
            }
            onward.add(next);
        }
        onward.addAll(tail);
        return new AirwayPath(ident, steps.subList(first, last + 1), onward);
    }

    /** The same, to be joined no farther than a fix, and with nothing beyond it; empty where no step of it leads there. */
    Optional<AirwayPath> upTo(Waypoint fix) {
        for (int i = 0; i < steps.size(); i++) {
            if (steps.get(i).segment().to().equals(fix)) {
                return Optional.of(new AirwayPath(ident, steps.subList(0, i + 1), List.of()));
            }
        }
        return Optional.empty();
    }

    /** Any leg of the filed route. */
    static AirwayPath ofFiledRoute(FiledRoute filed) {
        return new AirwayPath("", steps(filed.segments()), List.of());
    }

    /**
     * An airway and what follows it.
     *
     * @param chart that shows it
     * @param filed the route before
     * @param join the airway, where it is left and which way it leads, as said
     * @param rest joins and directs that follow
     * @throws ClearanceException if the chart does not show it, nothing tells which way along it, or it does not lead on
     */
    static AirwayPath of(Chart chart, FiledRoute filed, Instruction.JoinAirway join, List<Instruction> rest)
            throws ClearanceException {
        String ident = join.airway();
        // "Intercept V31, direct BBB": where BBB is a fix of V31 it is left there.
        Optional<Waypoint> leaveAt = join.to()
                .or(() -> rest.stream()
                        .limit(1)
                        .flatMap(next ->
                                next instanceof Instruction.Direct direct ? Stream.of(direct.to()) : Stream.of())
                        .filter(fix -> chart.airways(ident).stream().anyMatch(airway -> airway.passes(fix)))
                        .findFirst());
        List<FiledRoute.Segment> onAirway =
                filed.segments().stream().filter(segment -> segment.isOn(ident)).toList();
        Airway airway = piece(chart, ident, onAirway, leaveAt);
        if (leaveAt.isPresent()) {
            return toward(airway, chart, filed, join, leaveAt.get(), onAirway, rest);
        }
        if (!rest.isEmpty() && rest.get(0) instanceof Instruction.JoinAirway next) {
            Optional<Waypoint> change =
                    next.at().isPresent() ? next.at() : OnwardRoute.meeting(chart, airway, next.airway());
            if (change.isPresent() && airway.passes(change.get())) {
                return toward(airway, chart, filed, join, change.get(), onAirway, rest);
            }
        }
        if (onAirway.isEmpty()) {
            throw OnwardRoute.notInRoute(ident, filed);
        }
        // The whole airway up to where the route leaves it: it may be met before the filed entry.
        List<Waypoint> points = inFiledOrder(airway, onAirway);
        int last = lastOfFirstRun(filed, ident);
        Waypoint exit = filed.segments().get(last).to();
        List<FiledRoute.Segment> along = open(points.subList(0, points.indexOf(exit) + 1), airway);
        List<FiledRoute.Segment> tail = rest.isEmpty()
                ? filed.segments().subList(last + 1, filed.segments().size())
                : OnwardRoute.from(chart, filed, exit, rest);
        return new AirwayPath(ident, steps(along), tail);
    }

    /** Of an airway in pieces, the one that the filed route uses, or that passes the named end, or the longest. */
    private static Airway piece(
            Chart chart, String ident, List<FiledRoute.Segment> onAirway, Optional<Waypoint> leaveAt)
            throws ClearanceException {
        List<Airway> pieces = chart.airways(ident);
        for (FiledRoute.Segment segment : onAirway) {
            for (Airway each : pieces) {
                if (each.passes(segment.from())
                        && each.passes(segment.to())
                        && leaveAt.map(each::passes).orElse(true)) {
                    return each;
                }
            }
        }
        if (leaveAt.isPresent()) {
            for (Airway each : pieces) {
                if (each.passes(leaveAt.get())) {
                    return each;
                }
            }
            if (!pieces.isEmpty()) {
                throw OnwardRoute.notValid(
                        "airway " + ident + " does not pass " + leaveAt.get().ident() + ", where it is to be left");
            }
        }
        return chart.airway(ident)
                .orElseThrow(() -> new ClearanceException(
                        ClearanceException.Code.UNKNOWN_AIRWAY,
                        "airway " + ident + " is not on chart " + chart.name()));
    }

    private static int lastOfFirstRun(FiledRoute filed, String ident) {
        int last = -1;
        for (int i = 0; i < filed.segments().size(); i++) {
            if (filed.segments().get(i).isOn(ident)) {
                last = i;
            } else if (last >= 0) {
                break;
            }
        }
        return last;
    }

    private static List<Waypoint> inFiledOrder(Airway airway, List<FiledRoute.Segment> onAirway) {
        List<Waypoint> points = new ArrayList<>(airway.points());
        if (!onAirway.isEmpty()
                && points.indexOf(onAirway.get(0).from())
                        > points.indexOf(onAirway.get(0).to())) {
            Collections.reverse(points);
        }
        return points;
    }

    /** Toward a named end from either side of it, the filed direction first; from one side where the way is said. */
    private static AirwayPath toward(
            Airway airway,
            Chart chart,
            FiledRoute filed,
            Instruction.JoinAirway join,
            Waypoint exit,
            List<FiledRoute.Segment> onAirway,
            List<Instruction> rest)
            throws ClearanceException {
        List<Waypoint> points = inFiledOrder(airway, onAirway);
        int index = points.indexOf(exit);
        List<Waypoint> backward = new ArrayList<>(points.subList(index, points.size()));
        Collections.reverse(backward);
        List<FiledRoute.Segment> both = new ArrayList<>(open(points.subList(0, index + 1), airway));
        both.addAll(open(backward, airway));
        boolean open = !both.isEmpty();
        both.removeIf(segment -> !join.leads(segment.from().position(), exit.position()));
        if (open && both.isEmpty()) {
            throw OnwardRoute.otherWay(join, exit);
        }
        if (both.isEmpty()) {
            throw OnwardRoute.notValid(
                    airway.ident() + " may not be flown toward " + exit.ident() + ", only the other way");
        }
        return new AirwayPath(airway.ident(), steps(both), OnwardRoute.from(chart, filed, exit, rest));
    }

    /** The segments up to the last point that may be flown in this direction without a break. */
    private static List<FiledRoute.Segment> open(List<Waypoint> points, Airway airway) {
        List<FiledRoute.Segment> segments = new ArrayList<>();
        for (int i = 0; i + 1 < points.size(); i++) {
            FiledRoute.Segment segment =
                    new FiledRoute.Segment(points.get(i), points.get(i + 1), Optional.of(airway.ident()));
            if (OnwardRoute.mayBeFlown(airway, segment)) {
                segments.add(segment);
            } else {
                segments.clear();
            }
        }
        return segments;
    }

    private static List<Step> steps(List<FiledRoute.Segment> segments) {
        return segments.stream()
                .map(segment -> new Step(
                        segment,
                        GeodesicLine.between(
                                segment.from().position(), segment.to().position())))
                .toList();
    }

    /**
     * The legs from a point on one step to the end of the route.
     *
     * @param index of the step
     * @param start where it is entered; the step's own first point, or a computed fix on it
     * @param joinedAtNm from the first point, where the step is met part-way
     * @return legs in the order flown; none for the step itself when it is entered at its very end
     */
    List<Leg> legsFrom(int index, Waypoint start, double joinedAtNm) {
        List<Leg> legs = new ArrayList<>();
        Step step = steps.get(index);
        if (start.position().distanceNm(step.segment().to().position()) > 0.01) {
            GeodesicLine line = start.equals(step.segment().from())
                    ? step.line()
                    : GeodesicLine.between(start.position(), step.segment().to().position());
            legs.add(new Leg.TrackToFix(
                    start, step.segment().to(), step.segment().airway(), line, joinedAtNm));
        }
        for (int i = index + 1; i < steps.size(); i++) {
            Step next = steps.get(i);
            if (!next.segment().from().equals(steps.get(i - 1).segment().to())) {
                break;
            }
            legs.add(new Leg.TrackToFix(
                    next.segment().from(), next.segment().to(), next.segment().airway(), next.line(), 0));
        }
        tailLegs(legs);
        return legs;
    }

    private void tailLegs(List<Leg> legs) {
        tail.forEach(segment -> legs.add(Leg.TrackToFix.along(segment)));
    }

    /**
     * Index of the step that starts at a point; {@code steps.size()} for the end of the last; -1 if it is not on the
     * path.
     */
    int indexOf(Waypoint point) {
        for (int i = 0; i < steps.size(); i++) {
            if (steps.get(i).segment().from().equals(point)) {
                return i;
            }
        }
        return steps.stream().anyMatch(step -> step.segment().to().equals(point)) ? steps.size() : -1;
    }

    /** The legs that go on from a point of the path, by its {@link #indexOf index}. */
    List<Leg> legsFromPoint(int index) {
        if (index < steps.size()) {
            return legsFrom(index, steps.get(index).segment().from(), 0);
        }
        List<Leg> legs = new ArrayList<>();
        tailLegs(legs);
        return legs;
    }
}
