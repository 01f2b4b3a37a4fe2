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
import org.rejoin.bridge.clearance.Instruction.Until;

/**
 * Lines one after the other: a heading to an arc, an arc to a radial, a radial to another or to a distance, a fix departed on
 * a radial, and from the last of them to the airway or the fix that follows. Each line ends where its words say, else where
 * it meets the next.
 */
final class LineSequence {

    private final Chart chart;
    private final AmendmentDraft draft;
    private final List<FlownLine> lines = new ArrayList<>();
    private final List<Instruction> rest = new ArrayList<>();
    private Optional<Waypoint> directFirst = Optional.empty();
    private Optional<Waypoint> departed = Optional.empty();
    private boolean impliedLast;

    LineSequence(Chart chart, AmendmentDraft draft) {
        this.chart = chart;
        this.draft = draft;
    }

    /**
     * Whether a clearance is more than one heading, one course and an airway. A radial of which the way along it is said leads
     * to the line said next, as it leads to an airway; one that may be flown either way does not.
     */
    static boolean applies(List<Instruction> instructions) {
        boolean direct = false;
        boolean before = false;
        for (Instruction each : instructions) {
            if (each instanceof Instruction.StationLine line
                    && (direct
                            || before
                            || line instanceof Instruction.InterceptArc
                            || line.until().isPresent())) {
                return true;
            }
            if (each instanceof Instruction.Depart depart
                    && depart.line().isPresent()
                    && begins(instructions, depart)) {
                return true;
            }
            direct |= each instanceof Instruction.Direct;
            before |= each instanceof Instruction.StationLine said && said.sense() != Instruction.Sense.UNSAID;
        }
        return false;
    }

    /** Whether more is said than the fix that is departed, and how: where the line is left, or held, or what follows it. */
    static boolean begins(List<Instruction> instructions, Instruction.Depart depart) {
        return depart.line().flatMap(Instruction.StationLine::until).isPresent()
                || RouteEnd.goesOn(instructions, depart)
                || instructions.stream()
                        .anyMatch(each -> each instanceof Instruction.Hold hold
                                && !hold.fix().equals(depart.fix()));
    }

    /** Works the lines out. */
    void work(List<Instruction> instructions) throws ClearanceException {
        sort(instructions);
        Optional<AirwayPath> path = path();
        departed.filter(fix -> directFirst.isEmpty()).ifPresent(draft::assignedHeadingUntilGoingOn);
        boolean filedFirst = departed.isPresent() && directFirst.isEmpty() && !RouteEnd.over(draft, departed.get());
        FlownLine.Flown here = filedFirst
                ? FixAmendment.filedTo(draft, departed.get())
                : FirstLine.of(lines.get(0), draft, directFirst.or(() -> departed));
        for (int i = 0; i < lines.size(); i++) {
            if (here.onAirway()) {
                throw ClearanceException.cannotBeWorkedOut("the route is on the airway before the "
                        + lines.get(i).name() + " is met: say that line as a clearance of its own");
            }
            Optional<FlownLine> next = i + 1 < lines.size() ? Optional.of(lines.get(i + 1)) : Optional.empty();
            here = flown(lines.get(i), here, next, path);
        }
        if (!here.onAirway()) {
            onward(here);
        }
        Intercepts.turnOnto(draft, lines.get(0).name());
    }

    /** Flies one line to where the next begins. */
    private FlownLine.Flown flown(
            FlownLine line, FlownLine.Flown here, Optional<FlownLine> next, Optional<AirwayPath> path)
            throws ClearanceException {
        RadialToFly onRadial = new RadialToFly(chart, draft);
        return line.meet(
                radial -> next.isEmpty() && radial.until().isEmpty()
                        ? onRadial.finish(radial, here, path, impliedLast)
                        : onRadial.fly(radial, here, next, path),
                arc -> new ArcToFly(chart, draft).fly(arc, here, next, path));
    }

    private void sort(List<Instruction> instructions) throws ClearanceException {
        List<Instruction.Onto> before = new ArrayList<>();
        for (Instruction each : instructions) {
            if (each instanceof Instruction.StationLine line) {
                lines.add(FlownLine.of(line, chart, draft));
            } else if (each instanceof Instruction.Depart depart) {
                depart(depart, before);
            } else if (each instanceof Instruction.Onto onto && !lines.isEmpty()) {
                rest.add(onto.onto(Instruction.InterceptAirway::joined, join -> join, direct -> direct));
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

    /** A station departed on its radial: over it the radial is flown outbound. */
    private void depart(Instruction.Depart said, List<Instruction.Onto> before) throws ClearanceException {
        if (!lines.isEmpty() || said.line().isEmpty()) {
            throw RouteEnd.noLineFrom(said);
        }
        Optional<Waypoint> direct = directFirst(before);
        if (direct.filter(to -> !to.equals(said.fix())).isPresent()) {
            throw RouteEnd.notOnRoute(said);
        }
        departed = Optional.of(said.fix());
        lines.add(FlownLine.of(said.line().get(), chart, draft));
    }

    /** The fix that the aircraft goes to before it flies a line; nothing else can come before one. */
    private static Optional<Waypoint> directFirst(List<Instruction.Onto> before) throws ClearanceException {
        List<Waypoint> fixes = before.stream()
                .flatMap(each -> each.<Stream<Waypoint>>onto(
                        airway -> Stream.empty(), join -> Stream.empty(), direct -> Stream.of(direct.to())))
                .toList();
        if (before.size() > 1 || fixes.size() < before.size()) {
            throw routeBeforeLines();
        }
        return fixes.stream().findFirst();
    }

    static ClearanceException routeBeforeLines() {
        return ClearanceException.cannotBeWorkedOut(
                "a radial, bearing or arc stands after an airway or a route of several parts: say first what is flown first,"
                        + " and the line as a clearance of its own");
    }

    /** The airway that follows, or the filed route; none where a direct follows. */
    private Optional<AirwayPath> path() throws ClearanceException {
        if (!rest.isEmpty() && rest.get(0) instanceof Instruction.JoinAirway join) {
            return Optional.of(AirwayPath.of(chart, draft.filed, join, rest.subList(1, rest.size())));
        }
        return rest.isEmpty() ? Optional.of(AirwayPath.ofFiledRoute(draft.filed)) : Optional.empty();
    }

    private void onward(FlownLine.Flown here) throws ClearanceException {
        Waypoint at = draft.legs.get(draft.legs.size() - 1).endsAt().orElseThrow();
        if (rest.isEmpty()) {
            draft.append(OnwardRoute.asFiledFrom(draft.filed, at), List.of());
            return;
        }
        if (rest.get(0) instanceof Instruction.Direct direct) {
            List<FiledRoute.Segment> segments = new ArrayList<>();
            if (here.position().distanceNm(direct.to().position()) > 0.01) {
                segments.add(new FiledRoute.Segment(at, direct.to(), Optional.empty()));
            }
            segments.addAll(OnwardRoute.from(chart, draft.filed, direct.to(), rest.subList(1, rest.size())));
            draft.append(segments, rest);
            return;
        }
        draft.append(OnwardRoute.from(chart, draft.filed, at, rest), rest);
    }
}
