package org.rejoin.console.report;

import java.math.BigDecimal;

import org.rejoin.console.json.JsonNumbers;

/** Numbers as a drawing or a file takes them. The same on every machine. */
final class Figures {

    private Figures() {}

    /** A plain decimal with at most so many digits, without trailing zeros, never "-0". */
    static String plain(double value, int digits) {
        BigDecimal decimal = decimal(value, digits).stripTrailingZeros();
        return decimal.signum() == 0 ? "0" : decimal.toPlainString();
    }

    /** A plain decimal with exactly so many digits. */
    static BigDecimal decimal(double value, int digits) {
        return JsonNumbers.rounded(value, digits);
    }

    /** A coordinate in a drawing. */
    static String xy(double value) {
        return plain(value, 1);
    }
}
