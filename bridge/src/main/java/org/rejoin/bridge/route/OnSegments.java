package org.rejoin.bridge.route;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;

import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;

/**
 * Where an aircraft is beside pieces of a route.
 *
 * @param index of the nearest piece
 * @param awayNm distance from it, nautical miles, 0 or more
 * @param alongNm along it, nautical miles; negative before it, and more than its length beyond it
 * @param lengthNm of it, nautical miles
 */
record OnSegments(int index, double awayNm, double alongNm, double lengthNm) {

    /** Closer than this to a leg the aircraft is on it, nautical miles (a quarter of an airway's half-width). */
    static final double ON_LEG_NM = 1;

    /** A point this close to a piece is on it, nautical miles: more than the rounding of a made fix. */
    private static final double SAME_NM = 0.1;

    private static final Comparator<OnSegments> BY_DISTANCE = Comparator.comparingDouble(OnSegments::awayNm);

    /** The nearest of some pieces. */
    static OnSegments nearest(List<FiledRoute.Segment> segments, Position here) {
        return all(segments, here).min(BY_DISTANCE).orElseThrow();
    }

    /** The piece that the aircraft is on, and not at its end; empty where it is on none. */
    static Optional<OnSegments> on(List<FiledRoute.Segment> segments, Position here) {
        return all(segments, here).filter(OnSegments::isOn).min(BY_DISTANCE);
    }

    private static Stream<OnSegments> all(List<FiledRoute.Segment> segments, Position here) {
        return IntStream.range(0, segments.size()).mapToObj(index -> of(segments, index, here));
    }

    /** Whether a point is on a piece: not beside it, before it or beyond it. */
    static boolean isOn(FiledRoute.Segment segment, Position point) {
        return of(List.of(segment), 0, point).awayNm <= SAME_NM;
    }

    private static OnSegments of(List<FiledRoute.Segment> segments, int index, Position here) {
        GeodesicLine line = Leg.TrackToFix.along(segments.get(index)).path();
        double along = line.offset(here).alongTrackNm();
        double clamped = Math.min(Math.max(along, 0), line.lengthNm());
        return new OnSegments(index, line.pointAt(clamped).distanceNm(here), along, line.lengthNm());
    }

    /** Whether the aircraft is on the piece, with some of it still to fly. */
    boolean isOn() {
        return awayNm <= ON_LEG_NM && alongNm < lengthNm - 0.01;
    }

    /** What is left of the piece, from abeam the aircraft. */
    Leg.TrackToFix leg(List<FiledRoute.Segment> segments) {
        FiledRoute.Segment segment = segments.get(index);
        return new Leg.TrackToFix(
                segment.from(),
                segment.to(),
                segment.airway(),
                Leg.TrackToFix.along(segment).path(),
                Math.min(Math.max(0, alongNm), lengthNm));
    }
}
