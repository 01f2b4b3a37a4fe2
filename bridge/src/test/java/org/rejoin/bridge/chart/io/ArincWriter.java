package org.rejoin.bridge.chart.io;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;

import org.rejoin.bridge.geo.Position;

/** Writes ARINC 424 records for tests, each field by its columns (ARINC 424-18, 4.1), apart from the reader's tables. */
final class ArincWriter {

    private final List<String> records = new ArrayList<>();

    /** A record under construction. */
    static final class Line {

        private final char[] columns = new char[132];

        Line(String area, String section) {
            Arrays.fill(columns, ' ');
            put(1, "S").put(2, area).put(5, section);
        }

        Line put(int column, String text) {
            text.getChars(0, text.length(), columns, column - 1);
            return this;
        }

        @Override
        public String toString() {
            return new String(columns);
        }
    }

    ArincWriter add(Line line) {
        line.put(124, String.format(Locale.ROOT, "%05d", records.size() % 100_000 + 1))
                .put(129, "2606");
        records.add(line.toString());
        return this;
    }

    ArincWriter vhf(String ident, String icao, String classes, double mhz, Position at, double declination) {
        boolean vor = classes.startsWith("V");
        Line line = new Line("PAC", "D ")
                .put(14, ident)
                .put(20, icao + "0")
                .put(23, String.format(Locale.ROOT, "%05d", Math.round(mhz * 100)))
                .put(28, classes)
                .put(80, "00120")
                .put(94, ident + " BANK");
        if (vor) {
            line.put(33, latitude(at)).put(42, longitude(at)).put(75, variation(declination));
        }
        if (!classes.startsWith("V ")) {
            line.put(52, ident).put(56, latitude(at)).put(65, longitude(at));
        }
        return add(line);
    }

    ArincWriter ndb(String ident, String icao, double khz, Position at) {
        return add(new Line("PAC", "DB")
                .put(14, ident)
                .put(20, icao + "0")
                .put(23, String.format(Locale.ROOT, "%05d", Math.round(khz * 10)))
                .put(28, "H HW")
                .put(33, latitude(at))
                .put(42, longitude(at))
                .put(75, "E0120")
                .put(94, ident + " BEACON"));
    }

    ArincWriter waypoint(String ident, String icao, Position at) {
        return add(new Line("PAC", "EAENRT")
                .put(14, ident)
                .put(20, icao + "0")
                .put(27, "C   L")
                .put(33, latitude(at))
                .put(42, longitude(at)));
    }

    ArincWriter airport(String ident, String icao, Position at, int elevationFt) {
        return add(new Line("PAC", "P " + ident)
                .put(11, icao + "A")
                .put(22, "0")
                .put(33, latitude(at))
                .put(42, longitude(at))
                .put(57, String.format(Locale.ROOT, "%05d", elevationFt))
                .put(94, ident + " ISLAND"));
    }

    /** One fix of an airway; an empty distance ends the piece. */
    Line fix(String route, int sequence, String ident, String icao, String section, OptionalDouble distanceNm) {
        Line line = new Line("PAC", "ER")
                .put(14, route)
                .put(26, String.format(Locale.ROOT, "%04d", sequence))
                .put(30, ident)
                .put(35, icao + section + "0E")
                .put(41, distanceNm.isEmpty() ? "E" : " ")
                .put(45, "OL");
        distanceNm.ifPresent(nm ->
                line.put(71, "0900").put(75, String.format(Locale.ROOT, "%04d", Math.round(nm * 10))));
        return line;
    }

    List<String> records() {
        return records;
    }

    byte[] octets(String lineEnd) {
        return (String.join(lineEnd, records) + lineEnd).getBytes(StandardCharsets.ISO_8859_1);
    }

    /** Rounded to hundredths of a second first, so that 59.999 seconds do not become 60. */
    static String latitude(Position at) {
        return angle(at.latitudeDeg(), "NS", 2);
    }

    static String longitude(Position at) {
        return angle(at.longitudeDeg(), "EW", 3);
    }

    static String variation(double eastDeg) {
        return String.format(Locale.ROOT, "%s%04d", eastDeg < 0 ? "W" : "E", Math.round(Math.abs(eastDeg) * 10));
    }

    private static String angle(double deg, String signs, int digits) {
        long total = Math.round(Math.abs(deg) * 360_000);
        return signs.charAt(deg < 0 ? 1 : 0)
                + String.format(
                        Locale.ROOT, "%0" + digits + "d%02d%04d", total / 360_000, total / 6_000 % 60, total % 6_000);
    }
}
