package org.rejoin.protocol;

import java.nio.charset.StandardCharsets;

/** Decimal numbers read from octets: a sign perhaps, digits, a point and digits perhaps. Makes no object up to 18 digits. */
public final class PlainDecimal {

    private static final int MOST_WHOLE = 15;
    private static final int MOST_DECIMALS = 18;

    /** As many digits as a long holds whatever they are. */
    private static final int LONG_DIGITS = 18;

    /** Exact in double precision, all of them. */
    private static final double[] POWERS = {
        1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18
    };

    private static final long EXACT = 1L << 53;

    private PlainDecimal() {}

    /**
     * The number that fills these octets, the nearest double; NaN if it is not one number of at most 15 digits before
     * and 18 behind the point.
     */
    public static double value(byte[] octets, int from, int to) {
        if (from < to && octets[from] == '-') {
            return -unsigned(octets, from + 1, to);
        }
        return unsigned(octets, from < to && octets[from] == '+' ? from + 1 : from, to);
    }

    /** The same of a number without a sign. */
    public static double unsigned(byte[] octets, int from, int to) {
        int point = to;
        long digits = 0;
        for (int at = from; at < to; at++) {
            int digit = octets[at] - '0';
            if (digit >= 0 && digit <= 9) {
                digits = digits * 10 + digit;
            } else if (digit == '.' - '0' && point == to) {
                point = at;
            } else {
                return Double.NaN;
            }
        }
        int whole = point - from;
        int decimals = Math.max(0, to - point - 1);
        if (whole <= 0 || whole > MOST_WHOLE || decimals > MOST_DECIMALS) {
            return Double.NaN;
        }
        if (whole + decimals > LONG_DIGITS) {
            return Double.parseDouble(new String(octets, from, to - from, StandardCharsets.US_ASCII));
        }
        return digits <= EXACT ? digits / POWERS[decimals] : quotient(digits, POWERS[decimals]);
    }

    /** The nearest double to a quotient whose dividend double precision does not hold: its rest is divided as well. */
    private static double quotient(long digits, double power) {
        double rounded = digits;
        double quotient = rounded / power;
        double rest = Math.fma(-quotient, power, rounded) + (digits - (long) rounded);
        return quotient + rest / power;
    }
}
