package org.rejoin.console.brief;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import org.rejoin.bridge.geo.Position;

/** Numbers and lines as a pilot reads them. */
final class Words {

    private static final int WIDTH = 100;
    private static final String[] COMPASS = {
        "north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"
    };

    private Words() {}

    static String format(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }

    /** A direction to set: three digits, north is 360; tenths only where it has them. */
    static String degrees(double deg) {
        double tenths = Math.round(deg * 10) / 10.0 % 360;
        double named = tenths == 0 ? 360 : tenths;
        return Math.abs(named - Math.rint(named)) < 0.05 ? format("%03.0f", named) : format("%05.1f", named);
    }

    static String degreesTenths(double deg) {
        double tenths = Math.round(deg * 10) / 10.0 % 360;
        return format("%05.1f", tenths == 0 ? 360 : tenths);
    }

    static String eastWest(double eastDeg) {
        return format("%.1f %s", Math.abs(eastDeg), eastDeg < 0 ? "west" : "east");
    }

    static String minutes(double minutes) {
        long seconds = Math.round(minutes * 60);
        return format("%d min %02d s", seconds / 60, seconds % 60);
    }

    /** Degrees and minutes to a thousandth, as a navigator takes them. */
    static String place(Position position) {
        return angle(position.latitudeDeg(), "%02d", position.latitudeDeg() < 0 ? "S" : "N") + " "
                + angle(position.longitudeDeg(), "%03d", position.longitudeDeg() < 0 ? "W" : "E");
    }

    private static String angle(double deg, String whole, String hemisphere) {
        long thousandths = Math.round(Math.abs(deg) * 60_000);
        return hemisphere
                + format(whole, thousandths / 60_000)
                + format("\u00b0%06.3f'", thousandths % 60_000 / 1000.0);
    }

    static String decimal(Position position) {
        return format("%.6f, %.6f degrees", position.latitudeDeg(), position.longitudeDeg());
    }

    static String compass(double trueDeg) {
        return COMPASS[(int) Math.round(trueDeg / 45) % 8];
    }

    static List<String> wrapped(String indent, String text) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder(indent);
        boolean empty = true;
        for (String word : text.trim().split("\\s+", -1)) {
            if (!empty && line.length() + 1 + word.length() > WIDTH) {
                lines.add(line.toString());
                line = new StringBuilder(" ".repeat(indent.length()));
                empty = true;
            }
            line.append(empty ? "" : " ").append(word);
            empty = false;
        }
        lines.add(line.toString());
        return lines;
    }
}
