package org.rejoin.bridge.chart.io;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;

import org.rejoin.bridge.chart.Chart;

/** Reads a chart file, ours in YAML or ARINC 424, telling them apart by their content. */
public final class ChartReader {

    private ChartReader() {}

    /**
     * Something in the file that is not as it should be.
     *
     * @param line in the file, from 1; 0 where no line is to blame
     * @param what was found, and what would be right
     * @param fatal whether the record was dropped for it
     */
    public record Problem(int line, String what, boolean fatal) {}

    /**
     * What a file holds.
     *
     * @param chart of all that is good
     * @param problems in the order of the file
     */
    public record Result(Chart chart, List<Problem> problems) {}

    /**
     * Reads a file.
     *
     * @param file the chart
     * @return chart and problems
     * @throws IOException if the file cannot be read at all; the message says why
     */
    public static Result read(Path file) throws IOException {
        throw new IOException(file + " cannot be read");
    }
}
