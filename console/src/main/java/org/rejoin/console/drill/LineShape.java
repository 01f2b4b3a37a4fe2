package org.rejoin.console.drill;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.console.drill.PaperDrill.Flaw;
import org.rejoin.console.skill.Shape;

/** One kind of line: finds one on a chart. A new kind is one class of this. */
interface LineShape {

    /** Which kind. */
    Shape shape();

    /**
     * Draws a line.
     *
     * @param way a filed route on the chart
     * @param ask everything else that is wanted
     * @param random the draw
     * @param tally told why there is none
     * @return empty where this draw gives none
     */
    Optional<LineToMeet> draw(DrillChart chart, FiledAirway way, Ask ask, Random random, Tally tally);

    /**
     * What a line should be like.
     *
     * @param turnsRight at its end, where that can be chosen
     * @param request the drill asked for
     * @param wind of the place
     * @param flaw that it is to have; empty for one that can be flown
     */
    record Ask(boolean turnsRight, DrillRequest request, Wind wind, Optional<Flaw> flaw) {}

    /**
     * A line to be met, before the aircraft is placed.
     *
     * @param shape it is of
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

        public LineToMeet {
            then = List.copyOf(then);
        }
    }
}
