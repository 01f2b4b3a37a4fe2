package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.bridge.chart.Chart;

/**
 * Reads a filed route and expands it over a chart: item 15 of the flight plan (ICAO Doc 4444, Appendix 2) and the plain
 * form used in the United States, in which airports may stand at the ends and DCT may be left out.
 */
public final class FiledRouteReader {

    /** Longer than any flight plan; keeps a hostile text from costing time. */
    private static final int LONGEST = 10_000;

    private FiledRouteReader() {}

    /**
     * Reads a route, for example {@code XAAA DCT AAA V31 BBB DCT XBBB}. Of several points of one ident those are taken
     * that the airways beside them pass, then those that make the route shortest; a note says so.
     *
     * @param text as filed, any case
     * @param chart where its points and airways are looked up
     * @return the expanded route
     * @throws ClearanceException if an element is not on the chart or does not connect; the message names it
     */
    public static FiledRoute read(String text, Chart chart) throws ClearanceException {
        if (text.length() > LONGEST) {
            throw new ClearanceException(
                    ClearanceException.Code.ROUTE_NOT_VALID,
                    "the route has " + text.length() + " characters; up to " + LONGEST + " are read");
        }
        List<String> notes = new ArrayList<>();
        List<RouteElement> elements = RouteElements.read(text, chart, notes);
        return new FiledRoute(text, new RouteExpansion(elements, notes).segments(), notes);
    }
}
