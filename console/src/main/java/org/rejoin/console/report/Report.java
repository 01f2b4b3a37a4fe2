package org.rejoin.console.report;

import java.io.IOException;
import java.io.Writer;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
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
import org.rejoin.console.flight.Debrief;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.table.Cell;
import org.rejoin.console.table.Table;
import org.rejoin.protocol.AircraftState;

/** The debrief of a flight: a page for people, and the flight in open formats for other programs. */
public final class Report {

    static final String NOT_LOGGED =
            "A home simulator counts for nothing in a logbook: no instrument time, no recency, no check, unless that very"
                    + " device is approved for it. This page is a training record.";

    private final DebriefedFlight flight;
    private final ReportHeading heading;

    private Report(DebriefedFlight flight, ReportHeading heading) {
        this.flight = flight;
        this.heading = heading;
    }

    /**
     * A report.
     *
     * @param lesson flown
     * @param debrief of the recording
     * @param capture file the debrief was made from, to name it by its SHA-256
     * @param version name and version of the program
     * @param arguments that repeat the debrief, with RECORDING and DIR in place of paths
     * @return the report
     * @throws IOException if the capture cannot be read
     */
    public static Report of(Lesson lesson, Debrief debrief, Path capture, String version, String arguments)
            throws IOException {
        return of(lesson, debrief, capture, version, arguments, ReportHeading.NONE);
    }

    /**
     * A report with a name on it.
     *
     * @param lesson flown
     * @param debrief of the recording
     * @param capture file the debrief was made from
     * @param version name and version of the program
     * @param arguments that repeat the debrief
     * @param heading whose report it is, and who vouches for it
     * @return the report
     * @throws IOException if the capture cannot be read
     */
    public static Report of(
            Lesson lesson, Debrief debrief, Path capture, String version, String arguments, ReportHeading heading)
            throws IOException {
        DebriefedFlight.Origin origin = new DebriefedFlight.Origin(
                Sha256.hex(capture),
                Sha256.hex(lesson.files().lessonYaml().getBytes(StandardCharsets.UTF_8)),
                chartHash(lesson.files().chart()),
                version,
                arguments);
        return new Report(new DebriefedFlight(lesson, debrief, origin), heading);
    }

    private static String chartHash(Lesson.KeptChart chart) throws IOException {
        return chart instanceof Lesson.KeptChart.Octets kept
                ? Sha256.hex(kept.octets())
                : Sha256.hex(((Lesson.KeptChart.Copy) chart).file());
    }

    /**
     * The page for people.
     *
     * @return HTML that needs nothing but itself
     * @throws IOException if style or script are missing from the program
     */
    public String page() throws IOException {
        return new ReportPage(flight, heading).html();
    }

    /** What a file of the report holds. */
    public interface Content {

        /**
         * Writes it.
         *
         * @param out takes the text
         * @throws IOException if it cannot be written
         */
        void write(Writer out) throws IOException;
    }

    /**
     * The page and the exports: {@code report.html}, {@code track.geojson}, {@code track.gpx}, {@code track.kml},
     * {@code events.csv} and {@code samples.csv}, to be written in UTF-8.
     *
     * @return by file name, in this order
     */
    public Map<String, Content> files() {
        Map<String, Content> files = new LinkedHashMap<>();
        files.put("report.html", out -> out.write(page()));
        files.put("track.geojson", out -> TrackGeoJson.write(flight, out));
        files.put("track.gpx", out -> TrackGpx.write(flight, out));
        files.put("track.kml", out -> TrackKml.write(flight, out));
        files.put("events.csv", out -> EventsCsv.write(flight, out));
        files.put("samples.csv", out -> SamplesCsv.write(flight, out));
        return files;
    }

    /**
     * Every sample that was tracked, as it was received, and where it stood in the amendment; a field that was not sent is
     * empty. Samples sent while the simulator was paused are not tracked and have no row: the log says when it stood still,
     * and {@code paused} is false in all rows.
     */
    static final class SamplesCsv {

        private SamplesCsv() {}

        static void write(DebriefedFlight flight, Writer out) throws IOException {
            new Table<>(List.of(
                            column("time_s", sample -> Cell.number(OptionalDouble.of(sample.timeS()), 3)),
                            column("utc", sample -> new Cell.Text(TrackXml.utc(flight.instant(sample.timeS())))),
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
                            column(
                                    "paused",
                                    sample -> new Cell.Flag(sample.state().paused())),
                            column(
                                    "phase",
                                    sample -> new Cell.Text(sample.phase().words())),
                            given("cross_track_nm", Point::crossTrackNm, 4),
                            given("to_go_nm", Point::toGoNm, 4),
                            given("track_error_deg", Point::trackErrorDeg, 2),
                            given("heading_error_deg", Point::headingErrorDeg, 2),
                            given("altitude_error_ft", Point::altitudeErrorFt, 1),
                            column("established", sample -> new Cell.Flag(sample.established()))))
                    .writeCsv(flight.samples(), out);
        }

        private static Table.Column<Point> column(String name, Function<Point, Cell> cell) {
            return new Table.Column<>(name, cell);
        }

        /** A field of the feed. */
        private static Table.Column<Point> sent(
                String name, Function<AircraftState, OptionalDouble> value, int digits) {
            return column(name, sample -> Cell.plain(value.apply(sample.state()), digits));
        }

        /** A figure of the tracker. */
        private static Table.Column<Point> given(String name, ToDoubleFunction<Point> value, int digits) {
            return column(name, sample -> Cell.plain(Point.given(value.applyAsDouble(sample)), digits));
        }
    }

    /** The log as a table: one row an event, one column a field that any event of the flight has. */
    static final class EventsCsv {

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
            List<Table.Column<Row>> columns = new ArrayList<>();
            columns.add(column("number", row -> new Cell.Figure(BigDecimal.valueOf(row.number()))));
            columns.add(column(
                    "time_s", row -> Cell.number(OptionalDouble.of(row.event().timeS()), 2)));
            columns.add(column(
                    "utc",
                    row -> new Cell.Text(TrackXml.utc(flight.instant(row.event().timeS())))));
            columns.add(column("event", row -> new Cell.Text(row.event().name())));
            columns.add(column(
                    "sentence", row -> new Cell.Text(flight.line(row.event()).split(" {2}", 2)[1])));
            columns.add(column(
                    "latitude_deg",
                    row -> Cell.plain(OptionalDouble.of(row.position().latitudeDeg()), 7)));
            columns.add(column(
                    "longitude_deg",
                    row -> Cell.plain(OptionalDouble.of(row.position().longitudeDeg()), 7)));
            names.forEach(name -> columns.add(column(name, row -> row.fields().getOrDefault(name, Cell.NONE))));
            new Table<>(columns).writeCsv(rows, out);
        }

        private static Table.Column<Row> column(String name, Function<Row, Cell> cell) {
            return new Table.Column<>(name, cell);
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
}
