package org.rejoin.bridge.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.geo.Crossing;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;

/**
 * Where a line can be left.
 *
 * @param step of the path that it lies on, if the line is left onto one
 * @param alongStepNm from the beginning of that step
 * @param named the fix it is, where the clearance names one
 */
record LineEnd(Position position, Optional<AirwayPath.Step> step, double alongStepNm, Optional<Waypoint> named) {

    /** A fix this far off a line is not on it, nautical miles (no source). */
    static final double ON_LINE_NM = 1;

    /** The fix there: as named, else called by a line through it. */
    Waypoint fixOn(FlownLine line) {
        return named.orElseGet(() -> new Fix(line.ident(position), position));
    }

    static LineEnd at(Position position) {
        return new LineEnd(position, Optional.empty(), 0, Optional.empty());
    }

    /**
     * Where a line can be left.
     *
     * @param line left
     * @param next line, if there is one
     * @param path of the airway that follows, or of the filed route; empty where a direct follows
     * @return empty where it is not met
     * @throws ClearanceException if the words do not fit the line
     */
    static List<LineEnd> of(
            FlownLine line, Optional<FlownLine> next, Optional<AirwayPath> path, Chart chart, AmendmentDraft draft)
            throws ClearanceException {
        FlownLine.Working<List<LineEnd>> goesOn = () -> next.isPresent() ? line.atLine(next.get()) : onPath(line, path);
        return line.until()
                .<FlownLine.Working<List<LineEnd>>>map(until -> until.fold(
                        radial -> () -> line.atLine(FlownLine.of(radial, chart, draft)),
                        distance -> () -> line.atDistance(distance),
                        fix -> () -> List.of(line.atFix(fix.fix())),
                        airway -> goesOn))
                .orElse(goesOn)
                .out();
    }

    private static List<LineEnd> onPath(FlownLine line, Optional<AirwayPath> path) {
        List<LineEnd> ends = new ArrayList<>();
        path.ifPresent(each -> each.steps()
                .forEach(step -> line.crossingsOf(step).stream()
                        .filter(along -> Intercepts.within(along, step.line()))
                        .forEach(along -> ends.add(
                                new LineEnd(step.line().pointAt(along), Optional.of(step), along, Optional.empty())))));
        return ends;
    }

    /**
     * Leaves a line that is flown to its end; where that is on the airway that follows, it is a computed fix.
     *
     * @param at the fix here
     * @param station of the line
     * @param radial of that station through the end
     * @param track over the ground there
     * @param distanceNm from the station
     * @param path of the airway that follows, or of the filed route; empty where a direct follows
     */
    FlownLine.Flown leave(
            Waypoint at,
            Station station,
            Radial radial,
            TrueDirection track,
            double distanceNm,
            Optional<AirwayPath> path,
            Chart chart,
            AmendmentDraft draft) {
        if (step.isEmpty()) {
            return new FlownLine.Flown(position, track, false);
        }
        AirwayPath.Step piece = step.get();
        TrueDirection airwayCourse = piece.line().courseAt(alongStepNm);
        Crossing crossing = new Crossing(position, distanceNm, alongStepNm, track, airwayCourse);
        boolean byArc = draft.legs.get(draft.legs.size() - 1) instanceof Leg.DmeArc;
        draft.computedFix = Optional.of(new ComputedFix(
                at instanceof Fix fix ? fix : new Fix(at.ident(), at.position()),
                piece.segment(),
                alongStepNm,
                crossing.acuteAngleDeg(),
                track,
                airwayCourse,
                FixDefinitions.of(chart, station, radial, byArc, crossing, draft.altitudeFt())));
        AirwayPath onto = path.orElseThrow();
        draft.append(onto.legsFrom(onto.steps().indexOf(piece), at, 0), onto);
        return new FlownLine.Flown(position, track, true);
    }
}
