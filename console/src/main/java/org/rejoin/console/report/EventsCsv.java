package org.rejoin.console.report;

import java.io.IOException;
import java.io.Writer;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeSet;

import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.console.json.JsonNumbers;

/** The log as a table: one row an event, one column a field that any event of the flight has. */
final class EventsCsv {

    private static final List<String> ALWAYS =
            List.of("number", "time_s", "utc", "event", "sentence", "latitude_deg", "longitude_deg");

    private EventsCsv() {}

    static void write(DebriefedFlight flight, Writer out) throws IOException {
        SortedSet<String> names = new TreeSet<>();
        flight.debrief().events().forEach(event -> names.addAll(fields(event).keySet()));
        CsvWriter csv = new CsvWriter(out);
        for (String name : ALWAYS) {
            csv.field(name);
        }
        for (String name : names) {
            csv.field(name);
        }
        csv.end();
        FlightRecord track = flight.record();
        int number = 0;
        for (FlightEvent event : flight.debrief().events()) {
            Position position = track.positionAt(event.timeS());
            csv.field(String.valueOf(++number))
                    .field(Figures.decimal(event.timeS(), 2).toPlainString())
                    .field(TrackXml.utc(flight.instant(event.timeS())))
                    .field(event.name())
                    .field(flight.line(event).split(" {2}", 2)[1])
                    .field(Figures.plain(position.latitudeDeg(), 7))
                    .field(Figures.plain(position.longitudeDeg(), 7));
            Map<String, String> fields = fields(event);
            for (String name : names) {
                csv.field(fields.getOrDefault(name, ""));
            }
            csv.end();
        }
    }

    private static Map<String, String> fields(FlightEvent event) {
        Map<String, String> fields = new LinkedHashMap<>();
        event.writeTo(new FlightEvent.Fields() {
            @Override
            public FlightEvent.Fields number(String field, double value) {
                fields.put(field, JsonNumbers.rounded(field, value).toPlainString());
                return this;
            }

            @Override
            public FlightEvent.Fields text(String field, String value) {
                fields.put(field, value);
                return this;
            }

            @Override
            public FlightEvent.Fields flag(String field, boolean value) {
                fields.put(field, String.valueOf(value));
                return this;
            }
        });
        return fields;
    }
}
