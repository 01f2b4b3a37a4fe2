package org.rejoin.console.drill;

import java.util.Optional;
import java.util.Random;

import org.rejoin.bridge.geo.Wind;
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
}
