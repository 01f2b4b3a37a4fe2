package org.rejoin.bridge.learn;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.function.Predicate;

import org.rejoin.protocol.profile.Layout;

/**
 * One way to take the datagrams apart.
 *
 * @param layout how; of a binary record without the octets it begins with, which are settled at the end
 * @param timeS time of each record, seconds from the first, ascending
 * @param columns every number that changes
 * @param beginning octets that every binary record begins with, at most 8
 * @param words what it is, for the report
 */
record Frame(Layout layout, double[] timeS, List<Column> columns, byte[] beginning, String words) {
    private static final int MOST_LETTERS = 4;
    private static final int MOST_OCTETS = 2;

    /** The columns that may be something else than a place and are smooth enough: rougher than a share of their spread none is. */
    List<Column.Smoothed> smooth(Grid grid, double roughest, Predicate<Spot> leftOut) {
        List<Column.Smoothed> smoothed = new ArrayList<>();
        for (Column column : columns) {
            if (!column.spot().coordinate() && !leftOut.test(column.spot())) {
                Grid.Smooth smooth = grid.smooth(column.timeS(), column.raw());
                if (smooth.spread() > 0 && smooth.roughness() < roughest * smooth.spread()) {
                    smoothed.add(new Column.Smoothed(column, smooth, column.lowest(), column.highest()));
                }
            }
        }
        return smoothed;
    }

    /**
     * The octets by which a binary record is known again. Few rather than many: the upper octets of a number that hardly moved in three minutes look constant too.
     */
    String magic(List<Spot> claimed) {
        int length = 0;
        while (length < Math.min(MOST_LETTERS, beginning.length)
                && Character.isLetterOrDigit(beginning[length] & 0x7F)
                && beginning[length] > 0) {
            length++;
        }
        length = Math.max(length, Math.min(MOST_OCTETS, beginning.length));
        boolean bigEndian = layout instanceof Layout.Binary binary && !binary.littleEndian();
        for (Spot spot : claimed) {
            if (spot.index().isEmpty()) {
                length = Math.min(length, spot.at());
            }
        }
        for (Column column : columns) {
            Spot spot = column.spot();
            boolean slow = bigEndian && spot.index().isEmpty() && spot.at() < length && moves(column);
            if (slow && beginning.length - spot.at() < 3) {
                length = Math.min(length, spot.at());
            }
        }
        return length < 2 ? "" : HexFormat.ofDelimiter(" ").withUpperCase().formatHex(Arrays.copyOf(beginning, length));
    }

    /** Changes little from record to record, as a number does and a pattern across fields does not. */
    private static boolean moves(Column column) {
        double steps = 0;
        for (int i = 1; i < column.raw().length; i++) {
            steps = Math.max(steps, Math.abs(column.raw()[i] - column.raw()[i - 1]));
        }
        return steps < 0.2 * (column.highest() - column.lowest());
    }
}
