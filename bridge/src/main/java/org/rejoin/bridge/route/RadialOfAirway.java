package org.rejoin.bridge.route;

import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.AirwayGuide;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;

/**
 * A radial that is the airway's own: "intercept the AAA 075 radial, join V12", where V12 runs out from AAA on its 074.8
 * radial. It is the airway that is flown, the way it is filed, as far as the straight stretch from the station goes:
 * where the airway bends away from the radial, it is the radial that was cleared.
 *
 * @param first index of the first step on the stretch
 * @param last index of the last step on it
 * @param station of the radial, at one end of the stretch
 * @param direction which way along the radial the airway is flown
 * @param offDeg between the radial and the airway, degrees, right positive
 */
record RadialOfAirway(
        AirwayPath path, int first, int last, Station station, Course.Direction direction, double offDeg) {

    /** A radial is said in whole degrees and a station may be a degree out of true (no source). */
    static final double SAME_DEG = 2;

    /** Where the words leave it to the airway which way it is flown, or say the same; empty where they say another. */
    static Optional<RadialOfAirway> of(Chart chart, AirwayPath path, FlownLine.OnRadial line) {
        return of(chart, path, line.station(), line.outbound().initialCourse())
                .filter(each -> line.sense() == Instruction.Sense.UNSAID
                        || (line.sense() == Instruction.Sense.OUTBOUND) == (each.direction == Course.Direction.FROM));
    }

    private static Optional<RadialOfAirway> of(Chart chart, AirwayPath path, Station station, TrueDirection azimuth) {
        Optional<RadialOfAirway> found = Optional.empty();
        for (int i = 0; i < path.steps().size(); i++) {
            FiledRoute.Segment leg = path.steps().get(i).segment();
            Optional<AirwayGuide> guide = guide(chart, leg, station);
            double off = guide.map(each -> azimuth.turnTo(
                            station.position().to(each.otherEnd()).initial()))
                    .orElse(180.0);
            if (Math.abs(off) > SAME_DEG) {
                if (found.isPresent()) {
                    return found;
                }
                continue;
            }
            int from = found.map(RadialOfAirway::first).orElse(i);
            found = Optional.of(new RadialOfAirway(
                    path,
                    from,
                    i,
                    station,
                    guide.orElseThrow().ahead() ? Course.Direction.TO : Course.Direction.FROM,
                    off));
        }
        return found;
    }

    /** The straight stretch that a leg of an airway is on, where the station is at one end of it. */
    private static Optional<AirwayGuide> guide(Chart chart, FiledRoute.Segment leg, Station station) {
        for (Airway airway : leg.airway().map(chart::airways).orElseGet(List::of)) {
            List<Waypoint> points = airway.points();
            int from = points.indexOf(leg.from());
            int to = points.indexOf(leg.to());
            if (from >= 0 && to >= 0) {
                return AirwayGuide.of(airway, Math.min(from, to), to > from, station.position())
                        .filter(guide -> guide.station().equals(station));
            }
        }
        return Optional.empty();
    }

    /** Whether it is met before the airway leaves the radial, on the heading, or on one that can be proposed. */
    boolean isMet(Chart chart, AmendmentDraft draft) {
        return new AirwayAmendment(chart, draft, stretch()).isMet();
    }

    /**
     * The step of the path that a place on the radial lies beside; empty where the airway is not on the radial there.
     */
    Optional<Integer> stepAt(Position place) {
        for (int i = first; i <= last; i++) {
            GeodesicLine line = path.steps().get(i).line();
            if (Intercepts.within(line.offset(place).alongTrackNm(), line)) {
                return Optional.of(i);
            }
        }
        return Optional.empty();
    }

    private AirwayPath stretch() {
        return path.only(first, last);
    }

    void work(Chart chart, AmendmentDraft draft, Radial radial, GeodesicLine outbound) throws ClearanceException {
        AirwayPath.Step step = path.steps().get(direction == Course.Direction.FROM ? first : last);
        draft.note(
                "the %s %s radial is %s: its leg %s runs within %.1f degrees of it, and is flown as filed, %s the station",
                station.ident(),
                Angles.figures(radial.deg()),
                step.segment().airway().orElse("the route"),
                AirwayPath.name(step.segment()),
                Math.max(0.1, Math.abs(offDeg)),
                direction);
        new AirwayAmendment(chart, draft, stretch()).work();
        Course course = new Course(station, radial, direction, outbound);
        draft.course = Optional.of(course);
        if (draft.intercept.isEmpty()) {
            Waypoint end = path.steps().get(last).segment().to();
            double bends = outbound.offset(end.position()).alongTrackNm();
            Intercepts.ahead(draft.heading.orElseThrow(), outbound)
                    .filter(met -> direction == Course.Direction.FROM && met.alongSecondNm() > bends)
                    .ifPresent(met -> draft.warn(
                            Warning.Code.CROSSING_BEHIND,
                            "heading %s meets the %s %.1f NM past %s, where %s has left it: the leg lies behind",
                            Angles.figures(
                                    draft.heading.orElseThrow().magnetic().deg()),
                            course.name(),
                            met.alongSecondNm() - bends,
                            end.ident(),
                            step.segment().airway().orElse("the route")));
        }
    }

    /** Says that it is flown as a radial where it is met before the airway comes onto it. */
    void noteMetBefore(AmendmentDraft draft, Radial radial) {
        FiledRoute.Segment leg = path.steps().get(first).segment();
        draft.intercept.ifPresent(met -> draft.notes.add(
                "the " + Course.name(station, radial) + " is " + leg.airway().orElse("the route") + " from "
                        + leg.from().ident() + " on; it is met before that, and flown as a radial"));
    }
}
