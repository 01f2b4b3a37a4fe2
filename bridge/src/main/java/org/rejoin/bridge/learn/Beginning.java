package org.rejoin.bridge.learn;

import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;

import org.rejoin.protocol.profile.Layout;

/** Chooses the octets by which a binary record is known again. */
final class Beginning {

    private static final int MOST_LETTERS = 4;
    private static final int MOST_OCTETS = 2;

    private Beginning() {}

    /**
     * Few octets rather than many: the upper octets of a number that hardly moved in three minutes look constant too.
     */
    static String magic(Frame frame, List<Spot> claimed) {
        byte[] octets = frame.beginning();
        int length = 0;
        while (length < Math.min(MOST_LETTERS, octets.length)
                && Character.isLetterOrDigit(octets[length] & 0x7F)
                && octets[length] > 0) {
            length++;
        }
        length = Math.max(length, Math.min(MOST_OCTETS, octets.length));
        boolean bigEndian = frame.layout() instanceof Layout.Binary binary && !binary.littleEndian();
        for (Spot spot : claimed) {
            if (spot.index().isEmpty()) {
                length = Math.min(length, spot.at());
            }
        }
        for (Column column : frame.columns()) {
            Spot spot = column.spot();
            boolean slow = bigEndian && spot.index().isEmpty() && spot.at() < length && moves(column);
            if (slow && octets.length - spot.at() < 3) {
                length = Math.min(length, spot.at());
            }
        }
        return length < 2 ? "" : HexFormat.ofDelimiter(" ").withUpperCase().formatHex(Arrays.copyOf(octets, length));
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
