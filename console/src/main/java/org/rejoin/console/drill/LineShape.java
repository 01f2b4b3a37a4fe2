package org.rejoin.console.drill;

import java.util.Optional;
import java.util.Random;

import org.rejoin.bridge.geo.Wind;

/** One kind of line: finds one on a chart. A new kind is one class of this. */
interface LineShape {

    /** Draws a line to a filed route on the chart; empty where this draw gives none, and the tally is told why. */
    Optional<LineToMeet> draw(DrillChart chart, FiledAirway way, Ask ask, Random random, Tally tally);

    /**
     * What a line should be like.
     *
     * @param turnsRight at its end, where that can be chosen
     * @param flaw that it is to have; empty for one that can be flown
     */
    record Ask(boolean turnsRight, DrillRequest request, Wind wind, Optional<Flaw> flaw) {}
}
