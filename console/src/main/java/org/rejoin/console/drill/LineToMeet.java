package org.rejoin.console.drill;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Station;
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
 * @param station that gives the course; empty on an airway
 */
record LineToMeet(
        Shape shape,
        FiledAirway way,
        List<Instruction> then,
        GroundPath line,
        double leastAlongNm,
        Band left,
        OptionalDouble turnAtEndDeg,
        double altitudeFt,
        Optional<Station> station) {

    LineToMeet {
        then = List.copyOf(then);
    }
}
