package org.rejoin.bridge.chart.io;

import java.io.IOException;

/** Tells the formats of chart files apart by how they begin; a file's name says nothing. */
final class ChartFormat {

    /** Octets that are looked at. */
    static final int HEAD = 1 << 16;

    /** A shorter line is no record, whatever it begins with. */
    private static final int SHORTEST_RECORD = 40;

    private ChartFormat() {}

    /**
     * The format of a file that begins so: ARINC 424 if any line begins as a record does, else ours.
     *
     * @throws IOException if it is text of two octets a character, in which nothing can be told
     */
    static ChartSource.Format of(String name, byte[] head) throws IOException {
        if (head.length == 0) {
            throw new IOException(name + " is empty; expected a chart in YAML, or ARINC 424 records");
        }
        if (head.length > 1 && isByteOrderMark(head[0] & 0xFF, head[1] & 0xFF)) {
            throw new IOException(
                    name + ": line 1, column 1: text of two bytes a character (UTF-16); save the file as " + "UTF-8");
        }
        int start = 0;
        while (start < head.length) {
            int end = start;
            while (end < head.length && head[end] != '\n' && head[end] != '\r') {
                end++;
            }
            boolean colon = false; // common in YAML, no part of a record's first columns
            for (int i = start; i < Math.min(end, start + SHORTEST_RECORD); i++) {
                colon |= head[i] == ':';
            }
            if (end - start >= SHORTEST_RECORD && !colon && ArincLines.startsRecord(head, start, end)) {
                return ChartSource.Format.ARINC_424;
            }
            start = end + 1;
        }
        return ChartSource.Format.YAML;
    }

    private static boolean isByteOrderMark(int first, int second) {
        return (first == 0xFE && second == 0xFF) || (first == 0xFF && second == 0xFE);
    }
}
