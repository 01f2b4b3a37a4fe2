package org.rejoin.bridge.chart;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;

/**
 * The station that guides at a place of an airway.
 *
 * <p>A straight stretch of an airway has one guiding station at each end. Guidance changes from one to the other at the
 * published changeover point, at a bend between them, else in the middle (Aeronautical Information Manual 5-3-6). A stretch
 * between two bends has none.
 *
 * @param station at one end of the straight stretch
 * @param otherEnd the other end of it
 * @param ahead whether the station lies ahead, so that the course leads to it
 */
public record AirwayGuide(Station station, Position otherEnd, boolean ahead) {

    /** Fixes are published to some hundredths of a minute: a smaller turn is no bend, degrees (no source). */
    private static final double BEND_DEG = 1;

    /**
     * The station that guides on a segment, flown in published order or against it; empty where no station is at either
     * end of the straight stretch.
     */
    public static Optional<AirwayGuide> of(Airway airway, int segment, boolean forward, Position here) {
        List<Waypoint> points = airway.points();
        int first = segment;
        while (first > 0 && !guides(points.get(first)) && straight(points, first)) {
            first--;
        }
        int last = segment + 1;
        while (last + 1 < points.size() && !guides(points.get(last)) && straight(points, last)) {
            last++;
        }
        Waypoint start = points.get(first);
        Waypoint end = points.get(last);
        boolean before = before(airway, first, last, here);
        if (guides(start) && (before || !guides(end))) {
            // The segment at the station has a course of its own, within the bend that is none.
            Waypoint other = first == segment ? points.get(segment + 1) : end;
            return Optional.of(new AirwayGuide((Station) start, other.position(), !forward));
        }
        Waypoint other = last == segment + 1 ? points.get(segment) : start;
        return guides(end) ? Optional.of(new AirwayGuide((Station) end, other.position(), forward)) : Optional.empty();
    }

    /** Whether a place lies before the changeover of its straight stretch, in published order. */
    private static boolean before(Airway airway, int first, int last, Position here) {
        Position start = airway.points().get(first).position();
        for (int i = first; i < last; i++) {
            OptionalDouble published = airway.segments().get(i).changeoverNm();
            if (published.isPresent()) {
                double changeover = start.distanceNm(airway.points().get(i).position()) + published.getAsDouble();
                return start.distanceNm(here) <= changeover;
            }
        }
        return start.distanceNm(here)
                <= here.distanceNm(airway.points().get(last).position());
    }

    /** A VOR of known alignment, or an NDB. */
    private static boolean guides(Waypoint point) {
        return point instanceof Station station
                && (station.declination().isPresent() || station.kind() == Station.Kind.NDB);
    }

    private static boolean straight(List<Waypoint> points, int at) {
        Position here = points.get(at).position();
        if (here.distanceNm(points.get(at - 1).position()) < 0.01
                || here.distanceNm(points.get(at + 1).position()) < 0.01) {
            return true;
        }
        TrueDirection before = points.get(at - 1).position().to(here).onward();
        TrueDirection after = here.to(points.get(at + 1).position()).initial();
        return Math.abs(before.turnTo(after)) < BEND_DEG;
    }
}
