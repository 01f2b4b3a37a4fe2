package org.rejoin.console.report;

import java.io.IOException;
import java.io.Writer;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.geo.Position;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.table.Cell;
import org.rejoin.console.table.Table;

/** The log as a table: one row an event, one column a field that any event of the flight has. */
final class EventsCsv {

    private EventsCsv() {}

    /** An event with what it says and where it was. */
    private record Row(int number, FlightEvent event, Position position, Map<String, Cell> fields) {}

    static void write(DebriefedFlight flight, Writer out) throws IOException {
        FlightRecord track = flight.record();
        List<Row> rows = new ArrayList<>();
        SortedSet<String> names = new TreeSet<>();
        for (FlightEvent event : flight.debrief().events()) {
            Map<String, Cell> fields = fields(event);
            names.addAll(fields.keySet());
            rows.add(new Row(rows.size() + 1, event, track.positionAt(event.timeS()), fields));
        }
        List<Table.Column<Row>> columns = new ArrayList<>(List.of(
                column("number", row -> new Cell.Figure(BigDecimal.valueOf(row.number()))),
                column(
                        "time_s",
                        row -> Cell.number(OptionalDouble.of(row.event().timeS()), 2)),
                text("utc", row -> flight.utc(row.event().timeS())),
                text("event", row -> row.event().name()),
                text("sentence", row -> flight.line(row.event()).split(" {2}", 2)[1]),
                degrees("latitude_deg", row -> row.position().latitudeDeg()),
                degrees("longitude_deg", row -> row.position().longitudeDeg())));
        names.forEach(name -> columns.add(column(name, row -> row.fields().getOrDefault(name, Cell.NONE))));
        new Table<>(columns).writeCsv(rows, out);
    }

    private static Table.Column<Row> column(String name, Function<Row, Cell> cell) {
        return new Table.Column<>(name, cell);
    }

    private static Table.Column<Row> text(String name, Function<Row, String> text) {
        return column(name, row -> new Cell.Text(text.apply(row)));
    }

    private static Table.Column<Row> degrees(String name, ToDoubleFunction<Row> deg) {
        return column(name, row -> Cell.plain(OptionalDouble.of(deg.applyAsDouble(row)), 7));
    }

    private static Map<String, Cell> fields(FlightEvent event) {
        Map<String, Cell> fields = new LinkedHashMap<>();
        event.writeTo(new FlightEvent.Fields() {
            @Override
            public FlightEvent.Fields number(String field, double value) {
                fields.put(field, new Cell.Figure(JsonNumbers.rounded(field, value)));
                return this;
            }

            @Override
            public FlightEvent.Fields text(String field, String value) {
                fields.put(field, new Cell.Text(value));
                return this;
            }

            @Override
            public FlightEvent.Fields flag(String field, boolean value) {
                fields.put(field, new Cell.Flag(value));
                return this;
            }
        });
        return fields;
    }
}
