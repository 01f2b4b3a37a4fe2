package org.rejoin.bridge.geo;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;

/** A table of published values among the test resources: comment lines, a line of column names, rows. */
final class CheckTable {

    private final List<String> columns;
    private final List<Row> rows;

    private CheckTable(List<String> lines) {
        columns = cells(lines.get(0));
        rows = lines.stream().skip(1).map(line -> new Row(cells(line))).toList();
    }

    static CheckTable read(String resource) {
        try (InputStream in = Objects.requireNonNull(CheckTable.class.getResourceAsStream(resource), resource);
                BufferedReader reader = new BufferedReader(new InputStreamReader(in, StandardCharsets.US_ASCII))) {
            return new CheckTable(
                    reader.lines().filter(line -> !line.startsWith("#")).toList());
        } catch (IOException e) {
            throw new UncheckedIOException(resource, e);
        }
    }

    List<Row> rows() {
        return rows;
    }

    private static List<String> cells(String line) {
        return Arrays.asList(line.split(",", -1));
    }

    /** One case; cells are asked for by the name of the column. */
    final class Row {

        private final List<String> cells;

        private Row(List<String> cells) {
            if (cells.size() != columns.size()) {
                throw new IllegalArgumentException(cells + " does not fit " + columns);
            }
            this.cells = cells;
        }

        String text(String column) {
            return cells.get(columns.indexOf(column));
        }

        double number(String column) {
            return Double.parseDouble(text(column));
        }

        TrueDirection direction(String column) {
            return new TrueDirection(number(column));
        }

        boolean isEmpty(String column) {
            return text(column).equals("N/A");
        }

        Position position(String latitude, String longitude) {
            return new Position(degrees(text(latitude)), degrees(text(longitude)));
        }

        /** Decimal degrees, or D:MM:SS.sssss and a hemisphere. */
        private static double degrees(String text) {
            int last = text.length() - 1;
            if ("NSEW".indexOf(text.charAt(last)) < 0) {
                return Double.parseDouble(text);
            }
            String[] parts = text.substring(0, last).split(":", -1);
            double value = Integer.parseInt(parts[0])
                    + Integer.parseInt(parts[1]) / 60.0
                    + Double.parseDouble(parts[2]) / 3600;
            return "SW".indexOf(text.charAt(last)) >= 0 ? -value : value;
        }

        @Override
        public String toString() {
            return String.join(",", cells);
        }
    }
}
