package org.rejoin.bridge.learn;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;

import org.rejoin.protocol.profile.Layout;

/**
 * One way to take the datagrams apart.
 *
 * @param layout how; of a binary record without the octets it begins with, which are settled at the end
 * @param timeS time of each record, seconds from the first datagram of the flight, ascending
 * @param columns every number that changes
 * @param beginning octets that every binary record begins with, at most {@link #MOST_BEGINNING}
 * @param signs so many of them tell its kind from others
 * @param words what it is, for the report
 * @param others other kinds of datagram, whose columns stand among these as messages 1, 2 and so on
 */
record Frame(
        Layout layout,
        double[] timeS,
        List<Column> columns,
        byte[] beginning,
        int signs,
        String words,
        List<Frame> others) {
    private static final int MOST_LETTERS = 4;
    private static final int MOST_OCTETS = 2;

    /** What begins later is a number. */
    static final int MOST_BEGINNING = 8;

    /** One kind of datagram alone. */
    Frame(Layout layout, double[] timeS, List<Column> columns, byte[] beginning, String words) {
        this(layout, timeS, columns, beginning, 0, words, List.of());
    }

    /** The same with the columns of other kinds beside its own. */
    Frame beside(List<Frame> kinds) {
        List<Column> all = new ArrayList<>(columns);
        for (int i = 0; i < kinds.size(); i++) {
            int message = i + 1;
            kinds.get(i).columns.forEach(column -> all.add(column.in(message)));
        }
        return new Frame(layout, timeS, List.copyOf(all), beginning, signs, words, List.copyOf(kinds));
    }

    /** Its columns without those of other kinds. */
    List<Column> own() {
        return columns.stream().filter(column -> column.spot().message() == 0).toList();
    }

    /** Whether it is of other datagrams, and numbers are written the same way in both. */
    boolean isAnotherKindThan(Frame other) {
        Set<Double> times = Arrays.stream(other.timeS).boxed().collect(Collectors.toSet());
        long common = Arrays.stream(timeS).filter(times::contains).count();
        return common < 0.1 * timeS.length && littleEndian() == other.littleEndian();
    }

    private boolean littleEndian() {
        return layout instanceof Layout.Binary binary && binary.littleEndian();
    }

    /**
     * The layouts of a profile, its own first.
     *
     * @param claimed fields that are something, of whatever message
     */
    List<Layout> layouts(List<Spot> claimed) {
        List<Layout> layouts = new ArrayList<>();
        for (int message = 0; message <= others.size(); message++) {
            Frame frame = message == 0 ? this : others.get(message - 1);
            int which = message;
            List<Spot> own =
                    claimed.stream().filter(spot -> spot.message() == which).toList();
            layouts.add(
                    frame.layout instanceof Layout.Binary binary
                            ? new Layout.Binary(
                                    binary.littleEndian(), frame.magic(own), binary.length(), binary.records())
                            : frame.layout);
        }
        return layouts;
    }

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
    private String magic(List<Spot> claimed) {
        int length = 0;
        while (length < Math.min(MOST_LETTERS, beginning.length)
                && Character.isLetterOrDigit(beginning[length] & 0x7F)
                && beginning[length] > 0) {
            length++;
        }
        length = Math.max(length, Math.min(MOST_OCTETS, beginning.length));
        boolean bigEndian = !littleEndian();
        for (Spot spot : claimed) {
            if (spot.index().isEmpty()) {
                length = Math.min(length, spot.at());
            }
        }
        for (Column column : own()) {
            Spot spot = column.spot();
            boolean slow = bigEndian && spot.index().isEmpty() && spot.at() < length && moves(column);
            if (slow && beginning.length - spot.at() < 3) {
                length = Math.min(length, spot.at());
            }
        }
        length = Math.max(length, Math.min(signs, beginning.length));
        return length < (signs > 0 ? signs : 2)
                ? ""
                : HexFormat.ofDelimiter(" ").withUpperCase().formatHex(Arrays.copyOf(beginning, length));
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
