package org.rejoin.console.drill;

import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.console.skill.Shape;

/**
 * A line to be met, before the aircraft is placed.
 *
 * @param way filed, on which the route goes on
 * @param then instructions that follow the heading
 * @param line in the direction flown, ending where the next course begins
 * @param leastAlongNm nearest to its start where it may be met, nautical miles
 * @param left how far before its end it may be met, nautical miles
 * @param turnAtEndDeg onto the next course, degrees, right positive; empty where the route ends there
 * @param altitudeFt to fly at, feet above mean sea level
 */
record LineToMeet(
        Shape shape,
        FiledAirway way,
        List<Instruction> then,
        GroundPath line,
        double leastAlongNm,
        Band left,
        OptionalDouble turnAtEndDeg,
        double altitudeFt) {

    LineToMeet {
        then = List.copyOf(then);
    }

    /** The same line at another altitude, feet. */
    LineToMeet at(double otherFt) {
        return new LineToMeet(shape, way, then, line, leastAlongNm, left, turnAtEndDeg, otherFt);
    }
}
