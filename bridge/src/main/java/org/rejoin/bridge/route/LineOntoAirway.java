package org.rejoin.bridge.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Crossing;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;

/** From a line onto the airway, or the filed route, that it crosses. */
final class LineOntoAirway {

    private final Chart chart;
    private final AmendmentDraft draft;

    LineOntoAirway(Chart chart, AmendmentDraft draft) {
        this.chart = chart;
        this.draft = draft;
    }

    /**
     * Leaves a line that is flown to its end.
     *
     * @param end of it
     * @param at the fix there
     * @param station of the line
     * @param radial of that station through the end
     * @param track over the ground there
     * @param distanceNm from the station
     * @param path of the airway that follows, or of the filed route; empty where a direct follows
     */
    LineFlown leave(
            LineEnd end,
            Waypoint at,
            Station station,
            Radial radial,
            TrueDirection track,
            double distanceNm,
            Optional<AirwayPath> path) {
        if (end.step().isPresent()) {
            onto(end, at, station, radial, track, distanceNm, path.orElseThrow());
        }
        return new LineFlown(end.position(), track, end.step().isPresent());
    }

    /** From a line onto the airway that it crosses: that crossing is a computed fix. */
    private void onto(
            LineEnd end,
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
        draft.append(path.legsFrom(path.steps().indexOf(step), at, 0), path);
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
}
