package org.rejoin.protocol.nmea;

/**
 * Decimal numbers as senders write them: a sign perhaps, digits, a point and digits perhaps. Read without a pattern and,
 * up to 15 digits, without the general reader of numbers: both integers of the quotient are then exact in double
 * precision, so that the quotient is the nearest double, as that reader's would be (Clinger, How to Read Floating Point
 * Numbers Accurately, 1990, section 3).
 */
final class PlainDecimal {

    private static final int MOST_WHOLE = 15;
    private static final int MOST_DECIMALS = 15;

    /** Digits of an integer that double precision holds whatever they are. */
    private static final int EXACT_DIGITS = 15;

    private static final double[] POWERS = {
        1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15
    };

    private PlainDecimal() {}

    /** The number from {@code from} to the end of the field; NaN if that is not one number of at most 15 and 15 digits. */
    static double value(String field, int from) {
        int at = from;
        boolean signed = at < field.length() && (field.charAt(at) == '-' || field.charAt(at) == '+');
        boolean negative = signed && field.charAt(at) == '-';
        at += signed ? 1 : 0;
        int point = -1;
        long digits = 0;
        int count = 0;
        int first = at;
        for (; at < field.length(); at++) {
            char c = field.charAt(at);
            if (c == '.' && point < 0 && at > first) {
                point = at;
            } else if (c >= '0' && c <= '9') {
                digits = count < EXACT_DIGITS ? digits * 10 + (c - '0') : digits;
                count++;
            } else {
                return Double.NaN;
            }
        }
        int decimals = point < 0 ? 0 : at - point - 1;
        if (count == 0 || count - decimals > MOST_WHOLE || decimals > MOST_DECIMALS) {
            return Double.NaN;
        }
        if (count > EXACT_DIGITS) {
            return Double.parseDouble(field.substring(from));
        }
        double value = digits / POWERS[decimals];
        return negative ? -value : value;
    }

    /** Whether the whole field is such a number without a sign. */
    static boolean isUnsigned(String field) {
        return !field.isEmpty() && Character.isDigit(field.charAt(0)) && !Double.isNaN(value(field, 0));
    }
}
