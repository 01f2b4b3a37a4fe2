package org.rejoin.bridge.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.Instruction.Until;
import org.rejoin.bridge.geo.Position;

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

    /** Where a line is left, by what its words say of it. */
    interface Places {

        /** Left at a fix. */
        LineEnd atFix(Waypoint fix) throws ClearanceException;

        /** Left at a distance from a station. */
        List<LineEnd> atDistance(Until.AtDistance at) throws ClearanceException;

        /** Left where it meets the next line. */
        List<LineEnd> atLine(FlownLine line) throws ClearanceException;

        /** Left onto a piece of the airway or of the filed route; the distances of the crossings along it. */
        List<Double> crossingsOf(AirwayPath.Step step);
    }

    /** The fix there: as named, else called by a line through it. */
    Waypoint fixOn(FlownLine line) {
        return named.orElseGet(() -> new Fix(line.ident(position), position));
    }

    /** Finds them; throws as the places do. */
    private interface Search {
        List<LineEnd> find() throws ClearanceException;
    }

    static LineEnd at(Position position) {
        return new LineEnd(position, Optional.empty(), 0, Optional.empty());
    }

    /**
     * Where a line can be left.
     *
     * @param line left
     * @param places of it
     * @param next line, if there is one
     * @param path of the airway that follows, or of the filed route; empty where a direct follows
     * @return empty where it is not met
     * @throws ClearanceException if the words do not fit the line
     */
    static List<LineEnd> of(
            FlownLine line,
            Places places,
            Optional<FlownLine> next,
            Optional<AirwayPath> path,
            Chart chart,
            AmendmentDraft draft)
            throws ClearanceException {
        Search goesOn = () -> next.isPresent() ? places.atLine(next.get()) : onPath(places, path);
        return line.until()
                .<Search>map(until -> until.fold(
                        radial -> () -> places.atLine(FlownLine.of(radial, chart, draft)),
                        distance -> () -> places.atDistance(distance),
                        fix -> () -> List.of(places.atFix(fix.fix())),
                        airway -> goesOn))
                .orElse(goesOn)
                .find();
    }

    private static List<LineEnd> onPath(Places places, Optional<AirwayPath> path) {
        List<LineEnd> ends = new ArrayList<>();
        path.ifPresent(each -> each.steps()
                .forEach(step -> places.crossingsOf(step).stream()
                        .filter(along -> Intercepts.within(along, step.line()))
                        .forEach(along -> ends.add(
                                new LineEnd(step.line().pointAt(along), Optional.of(step), along, Optional.empty())))));
        return ends;
    }
}
