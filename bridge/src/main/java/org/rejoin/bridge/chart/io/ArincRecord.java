package org.rejoin.bridge.chart.io;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;

/**
 * One record of an ARINC 424 file by its columns, which count from 1, both ends included, as in the standard. The reader
 * of lines fills the same record again and again; nothing of it may be kept but text taken out of it.
 */
final class ArincRecord {

    /** Columns of a record (ARINC 424-18, 4.1; paragraph number from memory). */
    static final int COLUMNS = 132;

    private static final byte BLANK = ' ';

    private final byte[] columns = new byte[COLUMNS];
    private int line;
    private int length;

    /** Takes the next line; what it has not is blank. */
    void fill(int newLine, byte[] source, int offset, int newLength) {
        System.arraycopy(source, offset, columns, 0, newLength);
        Arrays.fill(columns, newLength, COLUMNS, BLANK);
        line = newLine;
        length = newLength;
    }

    /** In the file, from 1; the number of the record where the file has no line ends. */
    int line() {
        return line;
    }

    /** Columns the line really had. */
    int length() {
        return length;
    }

    char at(int column) {
        return (char) (columns[column - 1] & 0xFF);
    }

    /** The columns as they are, blanks too. */
    String raw(int first, int last) {
        return new String(columns, first - 1, last - first + 1, StandardCharsets.ISO_8859_1);
    }

    String text(int first, int last) {
        return raw(first, last).strip();
    }

    boolean blank(int first, int last) {
        for (int column = first; column <= last; column++) {
            if (at(column) != ' ') {
                return false;
            }
        }
        return true;
    }

    /** The number in columns that must all be digits; -1 where one is not. */
    int digits(int first, int last) {
        int number = 0;
        for (int column = first; column <= last; column++) {
            char c = at(column);
            if (c < '0' || c > '9') {
                return -1;
            }
            number = number * 10 + (c - '0');
        }
        return number;
    }

    /**
     * Refuses a line that was cut off.
     *
     * @throws BadField if it has fewer columns
     */
    void requireLength(int needed, String kind) throws BadField {
        if (length < needed) {
            throw new BadField("too short for " + kind + " record: " + length + " of " + COLUMNS + " columns");
        }
    }
}
