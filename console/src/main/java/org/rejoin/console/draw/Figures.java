package org.rejoin.console.draw;

import java.math.BigDecimal;

import org.rejoin.console.json.JsonNumbers;

/** Numbers as a drawing or a file takes them. The same on every machine. */
public final class Figures {

    private Figures() {}

    /** A plain decimal with at most so many digits after the point, without trailing zeros, never "-0": "12.5". */
    public static String plain(double value, int digits) {
        BigDecimal decimal = JsonNumbers.rounded(value, digits).stripTrailingZeros();
        return decimal.signum() == 0 ? "0" : decimal.toPlainString();
    }

    /** A coordinate in a drawing, to a tenth of a unit. */
    public static String xy(double value) {
        return plain(value, 1);
    }
}
