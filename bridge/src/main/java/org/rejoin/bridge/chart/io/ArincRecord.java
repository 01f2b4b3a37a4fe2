package org.rejoin.bridge.chart.io;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.geo.Declination;
import org.rejoin.bridge.geo.Position;

/**
 * One record of an ARINC 424 file by its columns, which count from 1, both ends included, as in the standard, and the
 * encodings of its fields (ARINC 424-18, chapter 5; paragraph numbers from memory). A blank field is absent, never 0. The
 * reader of lines fills the same record again and again; nothing of it may be kept but text taken out of it.
 */
final class ArincRecord {

    /** Columns of a record (ARINC 424-18, 4.1; paragraph number from memory). */
    static final int COLUMNS = 132;

    private static final byte BLANK = ' ';
    private static final int HUNDREDTHS_PER_DEG = 360_000;

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

    /** How a field is read. */
    interface Field {
        OptionalDouble read() throws BadField;
    }

    /** A field that can be done without: absent where it cannot be read, which is noted. */
    OptionalDouble orAbsent(Problems problems, String label, Field field) {
        try {
            return field.read();
        } catch (BadField e) {
            problems.noted(line, label + ": " + e.what() + "; taken as absent");
            return OptionalDouble.empty();
        }
    }

    /**
     * Latitude (5.36) and longitude (5.37).
     *
     * @throws BadField if either is blank or wrong
     */
    Position position(int latitude, int longitude) throws BadField {
        return new Position(
                angle(latitude, 2, 'N', 'S', 90, "latitude", "N or S, ddmmss and hundredths"),
                angle(longitude, 3, 'E', 'W', 180, "longitude", "E or W, dddmmss and hundredths"));
    }

    private double angle(
            int column, int degreeDigits, char positive, char negative, int limit, String name, String form)
            throws BadField {
        int minutesAt = column + 1 + degreeDigits;
        char sign = at(column);
        int degrees = digits(column + 1, minutesAt - 1);
        int minutes = digits(minutesAt, minutesAt + 1);
        int seconds = digits(minutesAt + 2, minutesAt + 3);
        int hundredths = digits(minutesAt + 4, minutesAt + 5);
        long total = degrees * (long) HUNDREDTHS_PER_DEG + minutes * 6_000L + seconds * 100L + hundredths;
        boolean wrong = (sign != positive && sign != negative)
                || degrees < 0
                || minutes < 0
                || minutes > 59
                || seconds < 0
                || seconds > 59
                || hundredths < 0
                || total > limit * (long) HUNDREDTHS_PER_DEG;
        if (wrong) {
            throw new BadField(
                    name + " \"" + raw(column, minutesAt + 5) + "\" is not " + form + " up to " + limit + " degrees");
        }
        double deg = total / (double) HUNDREDTHS_PER_DEG;
        return sign == positive ? deg : -deg;
    }

    /**
     * Station declination (5.66) in five columns: E or W and tenths of a degree, T for true north; G for grid north has no
     * magnetic meaning and counts as absent.
     *
     * @throws BadField if it is neither
     */
    Optional<Declination> declination(int column) throws BadField {
        if (blank(column, column + 4)) {
            return Optional.empty();
        }
        char sign = at(column);
        int tenths = digits(column + 1, column + 4);
        if (tenths < 0 || tenths > 1_800 || "EWTG".indexOf(sign) < 0) {
            throw new BadField("declination \"" + raw(column, column + 4)
                    + "\" is not E or W and tenths of a degree, or T0000 or G0000");
        }
        return switch (sign) {
            case 'E' -> Optional.of(new Declination(tenths / 10.0));
            case 'W' -> Optional.of(new Declination(0 - tenths / 10.0));
            case 'T' -> Optional.of(Declination.TRUE_NORTH);
            default -> Optional.empty();
        };
    }

    /**
     * Altitude (5.30, 5.127) in five columns: feet, or a flight level. UNKNN, NESTB, UNLTD and blanks are absent.
     *
     * @throws BadField if it is none of these
     */
    OptionalDouble altitudeFt(int column) throws BadField {
        String text = raw(column, column + 4);
        if (text.isBlank() || text.equals("UNKNN") || text.equals("NESTB") || text.equals("UNLTD")) {
            return OptionalDouble.empty();
        }
        if (text.startsWith("FL")) {
            int level = digits(column + 2, column + 4);
            if (level >= 0) {
                return OptionalDouble.of(level * 100.0);
            }
        }
        return OptionalDouble.of(signedFt(column, "altitude", "feet in five digits, FLnnn, UNKNN, NESTB or UNLTD"));
    }

    /**
     * Elevation (5.55, 5.40) in five columns, feet.
     *
     * @throws BadField if it is no number
     */
    OptionalDouble elevationFt(int column) throws BadField {
        return blank(column, column + 4)
                ? OptionalDouble.empty()
                : OptionalDouble.of(signedFt(column, "elevation", "feet in five digits"));
    }

    private double signedFt(int column, String name, String form) throws BadField {
        boolean below = at(column) == '-';
        int feet = digits(below ? column + 1 : column, column + 4);
        if (feet < 0) {
            throw new BadField(name + " \"" + raw(column, column + 4) + "\" is not " + form);
        }
        return below ? 0.0 - feet : feet;
    }

    /**
     * A number in fixed point, as a frequency (5.34) or a distance (5.27).
     *
     * @throws BadField if a column is no digit, unless all are blank
     */
    OptionalDouble fixedPoint(int first, int last, double scale, String name) throws BadField {
        if (blank(first, last)) {
            return OptionalDouble.empty();
        }
        int digits = digits(first, last);
        if (digits < 0) {
            throw new BadField(name + " \"" + raw(first, last) + "\" is not " + (last - first + 1) + " digits");
        }
        return OptionalDouble.of(digits / scale);
    }

    /**
     * Identifier (5.33, 5.13, 5.6).
     *
     * @throws BadField if it is blank or has other than letters and digits
     */
    String ident(int first, int last) throws BadField {
        String ident = text(first, last);
        boolean sound = at(first) != ' ' && !ident.isEmpty();
        for (int i = 0; i < ident.length(); i++) {
            char c = ident.charAt(i);
            sound &= (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
        }
        if (!sound) {
            throw new BadField("identifier \"" + raw(first, last) + "\" is not letters and digits");
        }
        return ident;
    }
}
