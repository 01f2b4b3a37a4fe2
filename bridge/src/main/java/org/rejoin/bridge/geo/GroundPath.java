package org.rejoin.bridge.geo;

import java.util.function.Function;

/** A line over the ground that an aircraft can be on: a straight one, or an arc. Immutable. */
public sealed interface GroundPath permits GeodesicLine, GeodesicArc {

    /** {@return length from start to end; nautical miles, above 0} */
    double lengthNm();

    /** A point of it, nautical miles from its start; may be negative or past the end. */
    Position pointAt(double alongNm);

    /** The course at a point of it. */
    TrueDirection courseAt(double alongNm);

    /** Where a point near it lies as seen from it. */
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

    /** What one makes of it, by its kind; a new kind is a new function here. */
    <R> R fold(Function<GeodesicLine, R> straight, Function<GeodesicArc, R> arc);
}
