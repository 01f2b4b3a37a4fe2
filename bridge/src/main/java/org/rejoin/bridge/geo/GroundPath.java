package org.rejoin.bridge.geo;

import java.util.function.Function;

/** A line over the ground that an aircraft can be on: a straight one, or an arc. Immutable. */
public sealed interface GroundPath permits GeodesicLine, GeodesicArc {

    /** {@return length from start to end; nautical miles, above 0} */
    double lengthNm();

    /**
     * A point of it.
     *
     * @param alongNm from its start, nautical miles; may be negative or past the end
     * @return the point
     */
    Position pointAt(double alongNm);

    /**
     * The course at a point of it.
     *
     * @param alongNm from its start, nautical miles
     */
    TrueDirection courseAt(double alongNm);

    /**
     * Where a point lies as seen from it.
     *
     * @param point anywhere near
     * @return cross-track right of course positive, along-track from the start, and the course abeam
     */
    Offset offset(Position point);

    /** {@return where it starts, WGS 84} */
    default Position start() {
        return pointAt(0);
    }

    /** {@return where it ends, WGS 84} */
    default Position end() {
        return pointAt(lengthNm());
    }

    /** The course at its end. */
    default TrueDirection finalCourse() {
        return courseAt(lengthNm());
    }

    /** {@return the same flown the other way, from the end to the start} */
    GroundPath reversed();

    /**
     * What one makes of it, by its kind; a new kind is a new function here.
     *
     * @param straight for a straight one
     * @param arc for an arc
     * @return what its function gives
     */
    <R> R fold(Function<GeodesicLine, R> straight, Function<GeodesicArc, R> arc);
}
