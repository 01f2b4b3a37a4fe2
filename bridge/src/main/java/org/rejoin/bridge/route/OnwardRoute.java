package org.rejoin.bridge.route;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Phraseology;

/** How a route goes on from one of its points: by the airways and directs still to come, then as filed. */
final class OnwardRoute {

    private OnwardRoute() {}

    /**
     * The segments from a point to the end of the route.
     *
     * @param chart that shows the airways
     * @param filed the route before
     * @param start the point
     * @param instructions joins and directs still to come, in order; others are passed over
     * @return segments in the order flown; none where the filed route does not go on from the last point
     * @throws ClearanceException if an airway does not lead from point to point
     */
    static List<FiledRoute.Segment> from(Chart chart, FiledRoute filed, Waypoint start, List<Instruction> instructions)
            throws ClearanceException {
        List<FiledRoute.Segment> segments = new ArrayList<>();
        Waypoint at = start;
        for (int i = 0; i < instructions.size(); i++) {
            if (instructions.get(i) instanceof Instruction.Direct direct) {
                at = direct(at, direct.to(), segments);
            } else if (instructions.get(i) instanceof Instruction.JoinAirway join) {
                at = direct(at, join.at().orElse(at), segments);
                Airway airway = piece(chart, join.airway(), at);
                Waypoint exit = exit(airway, join, filed, chart, instructions.subList(i + 1, instructions.size()));
                List<FiledRoute.Segment> along = along(airway, at, exit);
                if (!along.isEmpty() && !join.leads(at.position(), exit.position())) {
                    throw otherWay(join, exit);
                }
                segments.addAll(along);
                at = along.isEmpty() ? at : along.get(along.size() - 1).to();
            }
        }
        segments.addAll(asFiledFrom(filed, at));
        return segments;
    }

    /** "Southbound" to a fix that the airway leads to from the south. */
    static ClearanceException otherWay(Instruction.JoinAirway join, Waypoint exit) {
        return notValid("\"" + join.bound().orElseThrow() + "bound\": " + join.airway() + " does not lead to "
                + exit.ident() + " that way; ask which way is meant");
    }

    private static Waypoint direct(Waypoint from, Waypoint to, List<FiledRoute.Segment> segments) {
        if (!from.equals(to)) {
            segments.add(new FiledRoute.Segment(from, to, Optional.empty()));
        }
        return to;
    }

    /** Where an airway is left: as said, else where the next one meets it, else where the filed route leaves it. */
    private static Waypoint exit(
            Airway airway, Instruction.JoinAirway join, FiledRoute filed, Chart chart, List<Instruction> rest)
            throws ClearanceException {
        if (join.to().isPresent()) {
            return join.to().get();
        }
        if (!rest.isEmpty()
                && rest.get(0) instanceof Instruction.JoinAirway next
                && next.at().isEmpty()) {
            Optional<Waypoint> meeting = meeting(chart, airway, next.airway());
            if (meeting.isPresent()) {
                return meeting.get();
            }
        }
        return filed.segments().stream()
                .filter(segment -> segment.isOn(airway.ident()))
                .reduce((first, second) -> second)
                .map(FiledRoute.Segment::to)
                .orElseThrow(() -> notInRoute(airway.ident(), filed));
    }

    /** The one fix that two airways share; two airways that share several leave open where to change. */
    static Optional<Waypoint> meeting(Chart chart, Airway airway, String next) throws ClearanceException {
        List<Waypoint> shared = airway.points().stream()
                .filter(point -> chart.airways(next).stream().anyMatch(other -> other.passes(point)))
                .distinct()
                .toList();
        if (shared.size() > 1) {
            throw ClearanceException.cannotBeWorkedOut(airway.ident() + " and " + next + " share "
                    + shared.stream().map(Waypoint::ident).collect(Collectors.joining(", "))
                    + ": say where to change, for example \"join " + airway.ident() + " to "
                    + shared.get(0).ident() + "\"");
        }
        return shared.stream().findFirst();
    }

    static ClearanceException notValid(String why) {
        return new ClearanceException(ClearanceException.Code.ROUTE_NOT_VALID, why);
    }

    static ClearanceException notInRoute(String ident, FiledRoute filed) {
        return new ClearanceException(
                ClearanceException.Code.AIRWAY_NOT_IN_ROUTE,
                "airway " + ident + " is not in the filed route \"" + filed.text()
                        + "\", so which way along it is not known; say \"join " + ident + " to\" one of its fixes");
    }

    /** "As filed" from a fix that was not filed leads nowhere. */
    static ClearanceException notFiled(Waypoint fix, Instruction.Onward said) {
        return ClearanceException.cannotBeWorkedOut(fix.ident() + " is not in the filed route, so \""
                + Phraseology.say(said).replaceFirst("^then ", "")
                + "\" does not say where the route goes on from there: name the next fix or airway");
    }

    /** The piece of an airway that passes a point. */
    private static Airway piece(Chart chart, String ident, Waypoint point) throws ClearanceException {
        return chart.airways(ident).stream()
                .filter(airway -> airway.passes(point))
                .max(Comparator.comparingInt(airway -> airway.points().size()))
                .orElseThrow(() -> notValid(
                        "airway " + ident + " does not pass " + point.ident() + ", so it cannot be joined there"));
    }

    /** Along an airway from one of its points to another, whichever way that is. */
    private static List<FiledRoute.Segment> along(Airway airway, Waypoint from, Waypoint to) throws ClearanceException {
        int first = airway.points().indexOf(from);
        int last = airway.points().indexOf(to);
        if (last < 0) {
            throw notValid("airway " + airway.ident() + " does not lead from " + from.ident() + " to " + to.ident());
        }
        List<Waypoint> points =
                new ArrayList<>(airway.points().subList(Math.min(first, last), Math.max(first, last) + 1));
        if (last < first) {
            Collections.reverse(points);
        }
        return segments(points, airway);
    }

    /**
     * Neighbouring points as segments.
     *
     * @param points of one airway, in the order flown
     * @param airway their airway
     * @return one fewer than points
     * @throws ClearanceException if the airway may only be flown the other way
     */
    static List<FiledRoute.Segment> segments(List<Waypoint> points, Airway airway) throws ClearanceException {
        List<FiledRoute.Segment> segments = new ArrayList<>();
        for (int i = 0; i + 1 < points.size(); i++) {
            FiledRoute.Segment segment =
                    new FiledRoute.Segment(points.get(i), points.get(i + 1), Optional.of(airway.ident()));
            if (!mayBeFlown(airway, segment)) {
                throw notValid(airway.ident() + " may not be flown from "
                        + points.get(i).ident() + " to "
                        + points.get(i + 1).ident() + ", only the other way");
            }
            segments.add(segment);
        }
        return segments;
    }

    /** Whether the airway is open in the direction of a segment of it. */
    static boolean mayBeFlown(Airway airway, FiledRoute.Segment segment) {
        int from = airway.points().indexOf(segment.from());
        int to = airway.points().indexOf(segment.to());
        Airway.Direction open = airway.segments().get(Math.min(from, to)).direction();
        return open != (to > from ? Airway.Direction.BACKWARD : Airway.Direction.FORWARD);
    }

    /** What the filed route has after a point; nothing where the point is not in it. */
    static List<FiledRoute.Segment> asFiledFrom(FiledRoute filed, Waypoint point) {
        List<FiledRoute.Segment> all = filed.segments();
        for (int i = all.size() - 1; i >= 0; i--) {
            if (all.get(i).to().equals(point)) {
                return all.subList(i + 1, all.size());
            }
        }
        return all.get(0).from().equals(point) ? all : List.of();
    }
}
