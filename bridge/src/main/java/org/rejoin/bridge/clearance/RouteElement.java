package org.rejoin.bridge.clearance;

import java.util.List;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Waypoint;

/** One element of a filed route, before it is expanded. */
sealed interface RouteElement {

    /** As filed. */
    Word word();

    /**
     * A point.
     *
     * @param word as filed
     * @param candidates what the chart shows of that ident, one or more
     * @param coded whether it was filed by ident; false for coordinates and for bearing and distance
     */
    record Point(Word word, List<Waypoint> candidates, boolean coded) implements RouteElement {}

    /** An airway to the next point. */
    record Along(Word word, Airway airway) implements RouteElement {}

    /** "DCT". */
    record Direct(Word word) implements RouteElement {}
}
