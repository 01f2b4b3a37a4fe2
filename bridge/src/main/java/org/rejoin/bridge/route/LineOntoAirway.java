package org.rejoin.bridge.route;

import java.util.Optional;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Crossing;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;

/** From a line onto the airway, or the filed route, that it crosses. */
record LineOntoAirway(Chart chart, AmendmentDraft draft) {

    /**
     * Leaves a line that is flown to its end; where it crosses the airway that follows, that crossing is a computed fix.
     *
     * @param end of it
     * @param at the fix there
     * @param station of the line
     * @param radial of that station through the end
     * @param track over the ground there
     * @param distanceNm from the station
     * @param path of the airway that follows, or of the filed route; empty where a direct follows
     */
    FlownLine.Flown leave(
            LineEnd end,
            Waypoint at,
            Station station,
            Radial radial,
            TrueDirection track,
            double distanceNm,
            Optional<AirwayPath> path) {
        if (end.step().isEmpty()) {
            return new FlownLine.Flown(end.position(), track, false);
        }
        AirwayPath.Step step = end.step().get();
        TrueDirection airwayCourse = step.line().courseAt(end.alongStepNm());
        Crossing crossing = new Crossing(end.position(), distanceNm, end.alongStepNm(), track, airwayCourse);
        boolean byArc = draft.legs.get(draft.legs.size() - 1) instanceof Leg.DmeArc;
        draft.computedFix = Optional.of(new ComputedFix(
                at instanceof Fix fix ? fix : new Fix(at.ident(), at.position()),
                step.segment(),
                end.alongStepNm(),
                crossing.acuteAngleDeg(),
                track,
                airwayCourse,
                FixDefinitions.of(chart, station, radial, byArc, crossing, draft.altitudeFt())));
        AirwayPath onto = path.orElseThrow();
        draft.append(onto.legsFrom(onto.steps().indexOf(step), at, 0), onto);
        return new FlownLine.Flown(end.position(), track, true);
    }
}
