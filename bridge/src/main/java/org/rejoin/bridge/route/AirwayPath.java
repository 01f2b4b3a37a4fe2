package org.rejoin.bridge.route;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.FiledRoute;
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

    /**
     * One segment that may be joined.
     *
     * @param segment in the direction flown
     * @param line its geodesic
     * @param filed whether the filed route has it
     */
    record Step(FiledRoute.Segment segment, GeodesicLine line, boolean filed) {}

    /** Any leg of the filed route. */
    static AirwayPath ofFiledRoute(FiledRoute filed) {
        return new AirwayPath("", steps(filed.segments(), filed), List.of());
    }

    static AirwayPath of(Chart chart, FiledRoute filed, String ident, Optional<Waypoint> leaveAt)
            throws ClearanceException {
        Airway airway = chart.airway(ident)
                .orElseThrow(() -> new ClearanceException(
                        ClearanceException.Code.UNKNOWN_AIRWAY,
                        "airway " + ident + " is not on chart " + chart.name()));
        List<FiledRoute.Segment> all = filed.segments();
        int first = 0;
        while (first < all.size() && !isOn(ident, all.get(first))) {
            first++;
        }
        if (first == all.size()) {
            return notFiled(airway, filed, leaveAt);
        }
        int last = first;
        while (last + 1 < all.size() && isOn(ident, all.get(last + 1))) {
            last++;
        }
        // The whole airway up to where the route leaves it: it may be met before the filed entry.
        List<Waypoint> points = new ArrayList<>(airway.points());
        Waypoint entry = all.get(first).from();
        if (points.indexOf(entry) > points.indexOf(all.get(first).to())) {
            Collections.reverse(points);
        }
        Waypoint exit = leaveAt.orElse(all.get(last).to());
        int exitIndex = points.indexOf(exit);
        if (exitIndex < 1) {
            throw new ClearanceException(
                    ClearanceException.Code.ROUTE_NOT_VALID,
                    "airway " + ident + " does not lead to " + exit.ident() + " in the filed direction (from "
                            + points.get(0).ident() + " to "
                            + points.get(points.size() - 1).ident() + ")");
        }
        List<FiledRoute.Segment> along = segments(points.subList(0, exitIndex + 1), ident);
        return new AirwayPath(ident, steps(along, filed), after(filed, exit, last + 1, leaveAt.isPresent()));
    }

    /** An airway the filed route does not use: only a named end tells which way along it. */
    private static AirwayPath notFiled(Airway airway, FiledRoute filed, Optional<Waypoint> leaveAt)
            throws ClearanceException {
        if (leaveAt.isEmpty() || !airway.passes(leaveAt.get())) {
            throw new ClearanceException(
                    ClearanceException.Code.AIRWAY_NOT_IN_ROUTE,
                    "airway " + airway.ident() + " is not in the filed route \"" + filed.text()
                            + "\", so which way along it is not known; say \"join " + airway.ident()
                            + " to\" one of its fixes");
        }
        Waypoint exit = leaveAt.get();
        int index = airway.points().indexOf(exit);
        List<FiledRoute.Segment> toward =
                new ArrayList<>(segments(airway.points().subList(0, index + 1), airway.ident()));
        List<Waypoint> backward =
                new ArrayList<>(airway.points().subList(index, airway.points().size()));
        Collections.reverse(backward);
        toward.addAll(segments(backward, airway.ident()));
        return new AirwayPath(
                airway.ident(),
                steps(toward, filed),
                after(filed, exit, filed.segments().size(), true));
    }

    private static boolean isOn(String ident, FiledRoute.Segment segment) {
        return segment.airway().filter(ident::equals).isPresent();
    }

    private static List<FiledRoute.Segment> segments(List<Waypoint> points, String ident) {
        List<FiledRoute.Segment> segments = new ArrayList<>();
        for (int i = 0; i + 1 < points.size(); i++) {
            segments.add(new FiledRoute.Segment(points.get(i), points.get(i + 1), Optional.of(ident)));
        }
        return segments;
    }

    private static List<Step> steps(List<FiledRoute.Segment> segments, FiledRoute filed) {
        return segments.stream()
                .map(segment -> new Step(
                        segment,
                        GeodesicLine.between(
                                segment.from().position(), segment.to().position()),
                        filed.segments().contains(segment)))
                .toList();
    }

    /** What the filed route has after a point; from a given index on where the point is not in it. */
    private static List<FiledRoute.Segment> after(FiledRoute filed, Waypoint exit, int otherwise, boolean searchExit) {
        if (searchExit) {
            for (int i = filed.segments().size() - 1; i >= 0; i--) {
                if (filed.segments().get(i).to().equals(exit)) {
                    return filed.segments().subList(i + 1, filed.segments().size());
                }
            }
            for (int i = 0; i < filed.segments().size(); i++) {
                if (filed.segments().get(i).from().equals(exit)) {
                    return filed.segments().subList(i, filed.segments().size());
                }
            }
        }
        return filed.segments().subList(otherwise, filed.segments().size());
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
        for (FiledRoute.Segment segment : tail) {
            legs.add(new Leg.TrackToFix(
                    segment.from(),
                    segment.to(),
                    segment.airway(),
                    GeodesicLine.between(segment.from().position(), segment.to().position()),
                    0));
        }
    }

    /**
     * Finds a point among the starts of the steps, or the end of the last.
     *
     * @param point to find
     * @return index of the step that starts there; {@code steps.size()} for the end; -1 if it is not on the path
     */
    int indexOf(Waypoint point) {
        for (int i = 0; i < steps.size(); i++) {
            if (steps.get(i).segment().from().equals(point)) {
                return i;
            }
        }
        return !steps.isEmpty() && steps.get(steps.size() - 1).segment().to().equals(point) ? steps.size() : -1;
    }

    /**
     * The legs that go on from a point of the path.
     *
     * @param index as {@link #indexOf} gives it
     * @return legs in the order flown
     */
    List<Leg> legsFromPoint(int index) {
        if (index < steps.size()) {
            return legsFrom(index, steps.get(index).segment().from(), 0);
        }
        List<Leg> legs = new ArrayList<>();
        tailLegs(legs);
        return legs;
    }
}
