package org.rejoin.bridge.clearance;

import org.rejoin.bridge.chart.Chart;

/** Reads a filed route and expands it over a chart. */
public final class FiledRouteReader {

    private FiledRouteReader() {}

    /**
     * Reads a route, for example {@code XAAA DCT AAA V31 BBB DCT XBBB}.
     *
     * @param text as filed, any case
     * @param chart where its points and airways are looked up
     * @return the expanded route
     * @throws ClearanceException if an element is not on the chart or does not connect; the message names it
     */
    public static FiledRoute read(String text, Chart chart) throws ClearanceException {
        throw new ClearanceException(ClearanceException.Code.ROUTE_NOT_VALID, text);
    }
}
