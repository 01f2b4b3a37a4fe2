package org.rejoin.bridge.clearance;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

import org.rejoin.bridge.chart.Waypoint;

/**
 * The filed route, expanded over the chart: every point, and how each is reached from the one before.
 *
 * @param text as filed
 * @param segments one or more, each starting where the one before ends
 * @param notes what was read but is not flown, and what was taken for granted, one sentence each; often empty
 */
public record FiledRoute(String text, List<Segment> segments, List<String> notes) {

    public FiledRoute {
        segments = List.copyOf(segments);
        notes = List.copyOf(notes);
    }

    /** A route without notes. */
    public FiledRoute(String text, List<Segment> segments) {
        this(text, segments, List.of());
    }

    /** One segment between neighbouring points; without an airway it is a direct. */
    public record Segment(Waypoint from, Waypoint to, Optional<String> airway) {

        /** {@return whether it is part of an airway} */
        public boolean isOn(String ident) {
            return airway.filter(ident::equals).isPresent();
        }
    }

    /** {@return where it leads, its last point} */
    public Waypoint destination() {
        return segments.get(segments.size() - 1).to();
    }

    /** {@return all points in order, one more than there are segments} */
    public List<Waypoint> points() {
        return Stream.concat(
                        Stream.of(segments.get(0).from()), segments.stream().map(Segment::to))
                .toList();
    }
}
