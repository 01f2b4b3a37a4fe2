package org.rejoin.console.drill;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Instruction;

/**
 * An airway, or a part of it, as a route filed one way along it.
 *
 * @param filed route along it, with an airport at either end where one is near
 * @param legs of the filed route that are on the airway, in the order flown
 * @param minimumFt highest of the minimum altitudes of the legs, feet; 0 where none is published
 * @param maximumFt lowest of the highest usable altitudes, feet; infinite where there is no limit
 */
record FiledAirway(String airway, FiledRoute filed, List<FiledRoute.Segment> legs, double minimumFt, double maximumFt) {

    FiledAirway {
        legs = List.copyOf(legs);
    }

    /** The points of the airway, in the order flown. */
    List<Waypoint> points() {
        return new FiledRoute("", legs).points();
    }

    /** What is flown first, then the airway is joined and the route goes on as filed. */
    List<Instruction> joinedBy(Instruction... first) {
        return Stream.concat(
                        Stream.of(first),
                        Stream.of(
                                new Instruction.JoinAirway(airway, Optional.empty(), Optional.empty()),
                                new Instruction.Onward(Instruction.Onward.How.AS_FILED)))
                .toList();
    }

    /** Whether the filed route passes a point. */
    boolean passes(Waypoint point) {
        return filed.points().contains(point);
    }
}
