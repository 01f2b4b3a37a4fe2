package org.rejoin.console.table;

import java.io.IOException;
import java.io.Writer;
import java.util.List;
import java.util.function.Function;

import org.rejoin.console.json.Json;

/**
 * The columns of a table, each said once.
 *
 * @param columns from left to right
 * @param <T> what a row is made from
 */
public record Table<T>(List<Column<T>> columns) {

    /** In CSV a record ends with both (RFC 4180, section 2). */
    private static final String END = "\r\n";

    /**
     * A column.
     *
     * @param name with its unit, as {@code altitude_ft}
     * @param cell of a row
     * @param <T> what a row is made from
     */
    public record Column<T>(String name, Function<T, Cell> cell) {}

    /**
     * A table.
     *
     * @param columns from left to right
     */
    public Table {
        columns = List.copyOf(columns);
    }

    /** {@return the names of the columns as a line of CSV, without its end} */
    public String csvHead() {
        return String.join(",", columns.stream().map(Column::name).toList());
    }

    /**
     * A row as a line of CSV (RFC 4180). A text that a spreadsheet would work out as a formula begins with an apostrophe.
     *
     * @param row to write
     * @return without its end
     */
    public String csv(T row) {
        return String.join(
                ",",
                columns.stream().map(column -> column.cell().apply(row).csv()).toList());
    }

    /**
     * Writes a whole file of CSV.
     *
     * @param rows in their order
     * @param out takes it
     * @throws IOException if it cannot be written
     */
    public void writeCsv(Iterable<T> rows, Writer out) throws IOException {
        out.write(csvHead() + END);
        for (T row : rows) {
            out.write(csv(row) + END);
        }
    }

    /**
     * A row as an object of JSON.
     *
     * @param row to write
     * @return on one line, without its end
     */
    public String json(T row) {
        return Json.object(json -> {
            for (Column<T> column : columns) {
                column.cell().apply(row).write(json, column.name());
            }
        });
    }
}
