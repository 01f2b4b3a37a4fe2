package org.rejoin.bridge.chart.io;

import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.geo.Declination;
import org.rejoin.bridge.geo.Position;

/**
 * The encodings of single fields (ARINC 424-18, chapter 5; paragraph numbers from memory). A blank field is absent, never
 * 0.
 */
final class ArincFields {

    private static final int HUNDREDTHS_PER_DEG = 360_000;

    private ArincFields() {}

    /**
     * Latitude (5.36) and longitude (5.37).
     *
     * @throws BadField if either is blank or wrong
     */
    static Position position(ArincRecord record, int latitude, int longitude) throws BadField {
        return new Position(
                angle(record, latitude, 2, 'N', 'S', 90, "latitude", "N or S, ddmmss and hundredths"),
                angle(record, longitude, 3, 'E', 'W', 180, "longitude", "E or W, dddmmss and hundredths"));
    }

    private static double angle(
            ArincRecord record,
            int column,
            int degreeDigits,
            char positive,
            char negative,
            int limit,
            String name,
            String form)
            throws BadField {
        int minutesAt = column + 1 + degreeDigits;
        char sign = record.at(column);
        int degrees = record.digits(column + 1, minutesAt - 1);
        int minutes = record.digits(minutesAt, minutesAt + 1);
        int seconds = record.digits(minutesAt + 2, minutesAt + 3);
        int hundredths = record.digits(minutesAt + 4, minutesAt + 5);
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
            throw new BadField(name + " \"" + record.raw(column, minutesAt + 5) + "\" is not " + form + " up to "
                    + limit + " degrees");
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
    static Optional<Declination> declination(ArincRecord record, int column) throws BadField {
        if (record.blank(column, column + 4)) {
            return Optional.empty();
        }
        char sign = record.at(column);
        int tenths = record.digits(column + 1, column + 4);
        if (tenths < 0 || tenths > 1_800 || "EWTG".indexOf(sign) < 0) {
            throw new BadField("declination \"" + record.raw(column, column + 4)
                    + "\" is not E or W and tenths of a degree, or T0000 or G0000");
        }
        return switch (sign) {
            case 'E' -> Optional.of(new Declination(tenths / 10.0));
            case 'W' -> Optional.of(new Declination(0 - tenths / 10.0));
            case 'T' -> Optional.of(new Declination(0));
            default -> Optional.empty();
        };
    }

    /**
     * Altitude (5.30, 5.127) in five columns: feet, or a flight level. UNKNN, NESTB, UNLTD and blanks are absent.
     *
     * @throws BadField if it is none of these
     */
    static OptionalDouble altitudeFt(ArincRecord record, int column) throws BadField {
        String text = record.raw(column, column + 4);
        if (text.isBlank() || text.equals("UNKNN") || text.equals("NESTB") || text.equals("UNLTD")) {
            return OptionalDouble.empty();
        }
        if (text.startsWith("FL")) {
            int level = record.digits(column + 2, column + 4);
            if (level >= 0) {
                return OptionalDouble.of(level * 100.0);
            }
        }
        return signedFt(record, column, "altitude", "feet in five digits, FLnnn, UNKNN, NESTB or UNLTD");
    }

    /**
     * Elevation (5.55, 5.40) in five columns, feet; 0 where it is blank.
     *
     * @throws BadField if it is no number
     */
    static double elevationFt(ArincRecord record, int column) throws BadField {
        return record.blank(column, column + 4)
                ? 0
                : signedFt(record, column, "elevation", "feet in five digits").orElse(0);
    }

    private static OptionalDouble signedFt(ArincRecord record, int column, String name, String form) throws BadField {
        boolean below = record.at(column) == '-';
        int feet = record.digits(below ? column + 1 : column, column + 4);
        if (feet < 0) {
            throw new BadField(name + " \"" + record.raw(column, column + 4) + "\" is not " + form);
        }
        return OptionalDouble.of(below ? 0.0 - feet : feet);
    }

    /**
     * A number in fixed point, as a frequency (5.34) or a distance (5.27).
     *
     * @throws BadField if a column is no digit, unless all are blank
     */
    static OptionalDouble fixedPoint(ArincRecord record, int first, int last, double scale, String name)
            throws BadField {
        if (record.blank(first, last)) {
            return OptionalDouble.empty();
        }
        int digits = record.digits(first, last);
        if (digits < 0) {
            throw new BadField(name + " \"" + record.raw(first, last) + "\" is not " + (last - first + 1) + " digits");
        }
        return OptionalDouble.of(digits / scale);
    }

    /**
     * Identifier (5.33, 5.13, 5.6).
     *
     * @throws BadField if it is blank or has other than letters and digits
     */
    static String ident(ArincRecord record, int first, int last) throws BadField {
        String ident = record.text(first, last);
        boolean sound = record.at(first) != ' ' && !ident.isEmpty();
        for (int i = 0; i < ident.length(); i++) {
            char c = ident.charAt(i);
            sound &= (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
        }
        if (!sound) {
            throw new BadField("identifier \"" + record.raw(first, last) + "\" is not letters and digits");
        }
        return ident;
    }
}
