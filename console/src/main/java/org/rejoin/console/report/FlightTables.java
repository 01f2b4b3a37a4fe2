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
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Position;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.table.Cell;
import org.rejoin.console.table.Table;
import org.rejoin.protocol.AircraftState;

/** The flight as tables: its events, and its samples. */
final class FlightTables {

    private FlightTables() {}

    /** An event with what it says and where it was. */
    private record Row(int number, FlightEvent event, Position position, Map<String, Cell> fields) {}

    /** The log: one row an event, one column a field that any event of the flight has. */
    static void events(DebriefedFlight flight, Writer out) throws IOException {
        FlightRecord track = flight.record();
        List<Row> rows = new ArrayList<>();
        SortedSet<String> names = new TreeSet<>();
        for (FlightEvent event : flight.debrief().events()) {
            Map<String, Cell> fields = fields(event);
            names.addAll(fields.keySet());
            rows.add(new Row(rows.size() + 1, event, track.positionAt(event.timeS()), fields));
        }
        List<Table.Column<Row>> columns = new ArrayList<>(List.of(
                column("number", row -> Cell.of(BigDecimal.valueOf(row.number()))),
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

    private static Table.Column<Row> text(String name, Function<Row, String> text) {
        return column(name, row -> Cell.of(text.apply(row)));
    }

    private static Table.Column<Row> degrees(String name, ToDoubleFunction<Row> deg) {
        return column(name, row -> Cell.plain(OptionalDouble.of(deg.applyAsDouble(row)), 7));
    }

    private static Map<String, Cell> fields(FlightEvent event) {
        Map<String, Cell> fields = new LinkedHashMap<>();
        event.writeTo(new FlightEvent.Fields() {
            @Override
            public FlightEvent.Fields number(String field, double value) {
                fields.put(field, Cell.of(JsonNumbers.rounded(field, value)));
                return this;
            }

            @Override
            public FlightEvent.Fields text(String field, String value) {
                fields.put(field, Cell.of(value));
                return this;
            }

            @Override
            public FlightEvent.Fields flag(String field, boolean value) {
                fields.put(field, Cell.of(value));
                return this;
            }
        });
        return fields;
    }

    /**
     * Every sample that was tracked, as it was received, and where it stood in the amendment; a field that was not sent
     * is empty. Samples sent while the simulator was paused are not tracked and have no row: the log says when it stood
     * still, and {@code paused} is false in all rows.
     */
    static void samples(DebriefedFlight flight, Writer out) throws IOException {
        new Table<>(List.of(
                        column("time_s", sample -> Cell.number(OptionalDouble.of(sample.timeS()), 3)),
                        column("utc", sample -> Cell.of(flight.utc(sample.timeS()))),
                        sent("latitude_deg", state -> OptionalDouble.of(state.latitudeDeg()), 9),
                        sent("longitude_deg", state -> OptionalDouble.of(state.longitudeDeg()), 9),
                        sent("altitude_ft", AircraftState::altitudeMslFt, 2),
                        sent("heading_true_deg", AircraftState::headingTrueDeg, 3),
                        given("heading_magnetic_deg", Point::headingMagneticDeg, 3),
                        sent("true_track_deg", AircraftState::trackTrueDeg, 3),
                        sent("ground_speed_kt", AircraftState::groundSpeedKt, 3),
                        sent("vertical_speed_fpm", AircraftState::verticalSpeedFpm, 1),
                        sent("pitch_deg", AircraftState::pitchDeg, 3),
                        sent("roll_deg", AircraftState::rollDeg, 3),
                        sent("indicated_airspeed_kt", AircraftState::indicatedAirspeedKt, 3),
                        column("paused", sample -> Cell.of(sample.state().paused())),
                        column("phase", sample -> Cell.of(sample.phase().words())),
                        given("cross_track_nm", Point::crossTrackNm, 4),
                        given("to_go_nm", Point::toGoNm, 4),
                        given("track_error_deg", Point::trackErrorDeg, 2),
                        given("heading_error_deg", Point::headingErrorDeg, 2),
                        given("altitude_error_ft", Point::altitudeErrorFt, 1),
                        column("established", sample -> Cell.of(sample.established()))))
                .writeCsv(flight.samples(), out);
    }

    /** A field of the feed. */
    private static Table.Column<Point> sent(String name, Function<AircraftState, OptionalDouble> value, int digits) {
        return column(name, sample -> Cell.plain(value.apply(sample.state()), digits));
    }

    /** A figure of the tracker. */
    private static Table.Column<Point> given(String name, ToDoubleFunction<Point> value, int digits) {
        return column(name, sample -> Cell.plain(Point.given(value.applyAsDouble(sample)), digits));
    }

    private static <T> Table.Column<T> column(String name, Function<T, Cell> cell) {
        return new Table.Column<>(name, cell);
    }
}
