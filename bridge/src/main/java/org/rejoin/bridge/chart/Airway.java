package org.rejoin.bridge.chart;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.BiPredicate;

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
     * @param minimumAltitudeFt minimum en-route altitude in the order of the points, feet above mean sea level; empty
     *     where none is published
     * @param direction which way it may be flown
     * @param minimumAltitudeBackwardFt the same against the order of the points; mostly the same altitude
     * @param maximumAltitudeFt highest usable altitude, feet above mean sea level; empty where there is no limit
     * @param changeoverNm published changeover point, nautical miles from the first point of the segment; empty where none
     *     is published on it
     * @param minimumUnknown for which way of flying it there is a minimum that is not known; empty where it is known, or
     *     none is published
     */
    public record Segment(
            OptionalDouble minimumAltitudeFt,
            Direction direction,
            OptionalDouble minimumAltitudeBackwardFt,
            OptionalDouble maximumAltitudeFt,
            OptionalDouble changeoverNm,
            Optional<Direction> minimumUnknown) {

        /** A segment without a published changeover point, whose minimum is known, or that has none. */
        public Segment(
                OptionalDouble minimumAltitudeFt,
                Direction direction,
                OptionalDouble minimumAltitudeBackwardFt,
                OptionalDouble maximumAltitudeFt) {
            this(
                    minimumAltitudeFt,
                    direction,
                    minimumAltitudeBackwardFt,
                    maximumAltitudeFt,
                    OptionalDouble.empty(),
                    Optional.empty());
        }

        /** A segment with one minimum altitude for both ways and no maximum. */
        public Segment(OptionalDouble minimumAltitudeFt, Direction direction) {
            this(minimumAltitudeFt, direction, minimumAltitudeFt, OptionalDouble.empty());
        }

        /**
         * The minimum en-route altitude for a way of flying the segment, feet above mean sea level; for {@code BOTH},
         * where the way is not known, the higher of the two; empty where none is published.
         */
        public OptionalDouble minimumAltitudeFt(Direction flown) {
            return switch (flown) {
                case FORWARD -> minimumAltitudeFt;
                case BACKWARD -> minimumAltitudeBackwardFt;
                case BOTH ->
                    minimumAltitudeFt.isPresent() && minimumAltitudeBackwardFt.isPresent()
                            ? OptionalDouble.of(
                                    Math.max(minimumAltitudeFt.getAsDouble(), minimumAltitudeBackwardFt.getAsDouble()))
                            : OptionalDouble.empty();
            };
        }

        /** Whether there is a minimum en-route altitude for a way of flying the segment that nobody can tell from here. */
        public boolean minimumUnknown(Direction flown) {
            return minimumUnknown
                    .filter(way -> way == flown || way == Direction.BOTH || flown == Direction.BOTH)
                    .isPresent();
        }
    }

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

    /** Whether a point is on the airway, by identity of ident and position. */
    public boolean passes(Waypoint point) {
        return points.contains(point);
    }

    /** The runs of legs that are wanted, each a piece of its own. */
    List<Airway> piecesOf(BiPredicate<Waypoint, Waypoint> wanted) {
        List<Airway> pieces = new ArrayList<>();
        int start = 0;
        for (int leg = 0; leg <= segments.size(); leg++) {
            if (leg == segments.size() || !wanted.test(points.get(leg), points.get(leg + 1))) {
                if (leg > start) {
                    pieces.add(new Airway(ident, points.subList(start, leg + 1), segments.subList(start, leg)));
                }
                start = leg + 1;
            }
        }
        boolean whole = pieces.size() == 1 && pieces.get(0).points.size() == points.size();
        return whole ? List.of(this) : pieces;
    }
}
