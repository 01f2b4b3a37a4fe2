package org.rejoin.console.table;

import java.io.IOException;
import java.io.Writer;
import java.util.List;
import java.util.function.Function;

import org.rejoin.console.json.Json;

/** The columns of a table from left to right, each said once. */
public record Table<T>(List<Column<T>> columns) {

    /** In CSV a record ends with both (RFC 4180, section 2). */
    private static final String END = "\r\n";

    /** A column; its name has its unit, as {@code altitude_ft}. */
    public record Column<T>(String name, Function<T, Cell> cell) {}

    public Table {
        columns = List.copyOf(columns);
    }

    /** {@return the names of the columns as a line of CSV, without its end} */
    public String csvHead() {
        return String.join(",", columns.stream().map(Column::name).toList());
    }

    /**
     * A row as a line of CSV (RFC 4180), without its end. A text that a spreadsheet would work out as a formula begins
     * with an apostrophe.
     */
    public String csv(T row) {
        return String.join(
                ",",
                columns.stream().map(column -> column.cell().apply(row).csv()).toList());
    }

    /** Writes a whole file of CSV. */
    public void writeCsv(Iterable<T> rows, Writer out) throws IOException {
        out.write(csvHead() + END);
        for (T row : rows) {
            out.write(csv(row) + END);
        }
    }

    /** A row as an object of JSON on one line, without its end. */
    public String json(T row) {
        return Json.object(json -> {
            for (Column<T> column : columns) {
                Json.member(json, column.name(), column.cell().apply(row).value());
            }
        });
    }
}
