package org.rejoin.bridge.chart.io;

import java.util.Collections;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

import org.rejoin.bridge.chart.AiracCycle;

/**
 * What kind of file a chart came from.
 *
 * @param format how it was written
 * @param cycle the file is valid for; only ARINC 424 names one
 * @param records number of records of each ARINC 424 section and subsection, as "PC"; those that are no record under "?"
 */
public record ChartSource(Format format, Optional<AiracCycle> cycle, SortedMap<String, Integer> records) {

    /** Formats of chart files. */
    public enum Format {
        /** Our own. */
        YAML,
        /** ARINC 424 records of 132 columns. */
        ARINC_424
    }

    /** Copies. */
    public ChartSource {
        records = Collections.unmodifiableSortedMap(new TreeMap<>(records));
    }

    static ChartSource yaml() {
        return new ChartSource(Format.YAML, Optional.empty(), new TreeMap<>());
    }
}
