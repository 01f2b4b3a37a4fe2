package org.rejoin.bridge.chart;

import java.util.List;
import java.util.OptionalDouble;

/**
 * An airway: published points in published order.
 *
 * @param ident for example V31
 * @param points two or more, in order
 * @param segments one for each pair of neighbours, so one fewer than points
 */
public record Airway(String ident, List<Waypoint> points, List<Segment> segments) {

    /**
     * What is published for one segment.
     *
     * @param minimumAltitudeFt minimum en-route altitude, feet above mean sea level; empty where none is published
     * @param direction which way it may be flown
     */
    public record Segment(OptionalDouble minimumAltitudeFt, Direction direction) {}

    /** Which way along the order of the points a segment may be flown. */
    public enum Direction {
        /** Both ways. */
        BOTH,
        /** In the order of the points only. */
        FORWARD,
        /** Against the order of the points only. */
        BACKWARD
    }

    /**
     * Copies and checks.
     *
     * @throws IllegalArgumentException if there are fewer than two points or the segments do not match them
     */
    public Airway {
        points = List.copyOf(points);
        segments = List.copyOf(segments);
        if (points.size() < 2) {
            throw new IllegalArgumentException("airway " + ident + " needs two points or more, has " + points.size());
        }
        if (segments.size() != points.size() - 1) {
            throw new IllegalArgumentException("airway " + ident + " has " + points.size() + " points but "
                    + segments.size() + " segments, expected one fewer than points");
        }
    }

    /**
     * Whether a point is on the airway, by identity of ident and position.
     *
     * @param point any
     * @return true if it is one of the points
     */
    public boolean passes(Waypoint point) {
        return points.contains(point);
    }
}
