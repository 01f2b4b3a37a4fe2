package org.rejoin.protocol.nmea;

import java.util.regex.Pattern;

import org.rejoin.protocol.PlainText;

/** Fields of NMEA 0183. An empty field means not available; it is never zero. */
final class Fields {

    private static final Pattern DIGITS = Pattern.compile("[0-9]+");

    private static final int MOST_DEGREE_DIGITS = 9;

    private Fields() {}

    /** A plain decimal number, or NaN. */
    static double number(String field) {
        return PlainDecimal.value(field, 0);
    }

    /** A number within bounds, or NaN. */
    static double number(String field, double low, double high) {
        double value = number(field);
        return value >= low && value <= high ? value : Double.NaN;
    }

    /** Milliseconds of the UTC day from hhmmss.sss; -1 if the field is no time of day. */
    static long utcMillis(String field) {
        int point = field.indexOf('.');
        if ((point < 0 ? field.length() : point) != 6 || !PlainDecimal.isUnsigned(field)) {
            return -1;
        }
        int hours = Integer.parseInt(field, 0, 2, 10);
        int minutes = Integer.parseInt(field, 2, 4, 10);
        double seconds = PlainDecimal.value(field, 4);
        if (hours > 23 || minutes > 59 || seconds >= 61) {
            return -1;
        }
        return Math.round((hours * 3600 + minutes * 60 + seconds) * 1000);
    }

    /** Degrees from ddmm.mmmm and N or S; NaN if both fields are empty. */
    static double latitude(String field, String hemisphere) throws FieldFault {
        return coordinate("latitude", field, hemisphere, "NS", 3, 90);
    }

    /** Degrees from dddmm.mmmm and E or W; NaN if both fields are empty. */
    static double longitude(String field, String hemisphere) throws FieldFault {
        return coordinate("longitude", field, hemisphere, "EW", 4, 180);
    }

    private static double coordinate(
            String what, String field, String hemisphere, String letters, int leastDigits, double largest)
            throws FieldFault {
        if (field.isEmpty() && hemisphere.isEmpty()) {
            return Double.NaN;
        }
        int point = field.indexOf('.');
        int digits = point < 0 ? field.length() : point;
        if (digits > MOST_DEGREE_DIGITS || !PlainDecimal.isUnsigned(field)) {
            throw new FieldFault(what + " " + PlainText.of(field, 20), "degrees and minutes");
        }
        if (hemisphere.length() != 1 || letters.indexOf(hemisphere.charAt(0)) < 0) {
            boolean comma = DIGITS.matcher(hemisphere).matches();
            throw new FieldFault(
                    what + " hemisphere " + PlainText.of(hemisphere, 20),
                    letters.charAt(0) + " or " + letters.charAt(1)
                            + (comma ? "; is the sender writing a decimal comma?" : ""));
        }
        if (digits < leastDigits) {
            throw new FieldFault(
                    what + " " + PlainText.of(field, 20),
                    "degrees and two digits of minutes; this looks like decimal degrees");
        }
        double minutes = PlainDecimal.value(field, digits - 2);
        if (minutes >= 60) {
            throw new FieldFault(what + " minutes out of range: " + PlainText.of(field, 20), "minutes below 60");
        }
        double degrees = Integer.parseInt(field, 0, digits - 2, 10) + minutes / 60;
        if (degrees > largest) {
            throw new FieldFault(
                    what + " out of range: " + PlainText.of(field, 20), "at most " + (int) largest + " degrees");
        }
        return hemisphere.charAt(0) == letters.charAt(0) ? degrees : -degrees;
    }

    /** East positive degrees from a magnitude and E or W; NaN if either is missing. */
    static double eastPositive(String field, String letter) {
        double magnitude = number(field, 0, 180);
        if (letter.equals("E")) {
            return magnitude;
        }
        return letter.equals("W") ? -magnitude : Double.NaN;
    }
}
