package org.rejoin.bridge.clearance;

import org.rejoin.bridge.chart.Chart;

/** Reads a clearance in ATC's words against a chart and a filed route. */
public final class ClearanceReader {

    private ClearanceReader() {}

    /**
     * Reads a clearance.
     *
     * @param text as said or typed, any case
     * @param chart where its stations, fixes and airways are looked up
     * @param filed the filed route; of several stations of one ident the nearest to it is meant
     * @return the clearance
     * @throws ClearanceException if some words are not understood or not on the chart
     */
    public static Clearance read(String text, Chart chart, FiledRoute filed) throws ClearanceException {
        throw new ClearanceException(ClearanceException.Code.NOT_UNDERSTOOD, text);
    }
}
