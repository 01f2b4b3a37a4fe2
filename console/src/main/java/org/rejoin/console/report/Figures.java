package org.rejoin.console.report;

import java.math.BigDecimal;
import java.util.Locale;

import org.rejoin.bridge.geo.Position;
import org.rejoin.console.log.EventJson;

/** Numbers as a pilot reads them, and as a drawing takes them. The same on every machine. */
final class Figures {

    private Figures() {}

    static String say(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }

    /** A direction in tenths, as radials and courses of computed fixes need them. */
    static String tenths(double deg) {
        double tenths = Math.rint(deg * 10) / 10 % 360;
        return say("%05.1f", tenths == 0 ? 360 : tenths);
    }

    static String side(double rightPositive) {
        return rightPositive < 0 ? "left" : "right";
    }

    static String minutes(double minutes) {
        long seconds = Math.round(minutes * 60);
        return say("%d min %02d s", seconds / 60, seconds % 60);
    }

    /** Degrees, minutes and thousandths, as a navigator takes them. */
    static String place(Position position) {
        return angle(position.latitudeDeg(), "%02d", position.latitudeDeg() < 0 ? "S" : "N") + " "
                + angle(position.longitudeDeg(), "%03d", position.longitudeDeg() < 0 ? "W" : "E");
    }

    private static String angle(double deg, String whole, String hemisphere) {
        long thousandths = Math.round(Math.abs(deg) * 60_000);
        return hemisphere + say(whole, thousandths / 60_000) + say("\u00b0%06.3f\u2032", thousandths % 60_000 / 1000.0);
    }

    /** A plain decimal with at most so many digits, without trailing zeros, never "-0". */
    static String plain(double value, int digits) {
        BigDecimal decimal = decimal(value, digits).stripTrailingZeros();
        return decimal.signum() == 0 ? "0" : decimal.toPlainString();
    }

    /** A plain decimal with exactly so many digits. */
    static BigDecimal decimal(double value, int digits) {
        return EventJson.rounded(value, digits);
    }

    /** A coordinate in a drawing. */
    static String xy(double value) {
        return plain(value, 1);
    }
}
