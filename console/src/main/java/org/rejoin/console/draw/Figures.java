package org.rejoin.console.draw;

import java.math.BigDecimal;

import org.rejoin.console.json.JsonNumbers;

/** Numbers as a drawing or a file takes them. The same on every machine. */
public final class Figures {

    private Figures() {}

    /**
     * A plain decimal with at most so many digits, without trailing zeros, never "-0".
     *
     * @param value finite
     * @param digits after the point, at most
     * @return for example "12.5"
     */
    public static String plain(double value, int digits) {
        BigDecimal decimal = decimal(value, digits).stripTrailingZeros();
        return decimal.signum() == 0 ? "0" : decimal.toPlainString();
    }

    /**
     * A plain decimal with exactly so many digits.
     *
     * @param value finite
     * @param digits after the point
     * @return rounded
     */
    public static BigDecimal decimal(double value, int digits) {
        return JsonNumbers.rounded(value, digits);
    }

    /**
     * A coordinate in a drawing.
     *
     * @param value units of the drawing
     * @return to a tenth of a unit
     */
    public static String xy(double value) {
        return plain(value, 1);
    }
}
