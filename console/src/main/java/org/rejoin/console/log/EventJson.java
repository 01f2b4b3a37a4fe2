package org.rejoin.console.log;

import java.io.IOException;
import java.io.UncheckedIOException;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.console.json.Json;
import org.rejoin.console.json.JsonNumbers;

import com.fasterxml.jackson.core.JsonGenerator;

/**
 * An event as one line of {@code log.jsonl}. Numbers are rounded by the unit their name ends in, so that the same flight
 * gives the same bytes on every machine.
 */
public final class EventJson {

    private EventJson() {}

    /** One line, without its end: a JSON object of time_s, event and its fields. */
    public static String line(FlightEvent event) {
        return Json.value(json -> write(event, json));
    }

    /** The same of a flight of several aircraft: a JSON object of seat, time_s, event and its fields. */
    public static String line(String seat, FlightEvent event) {
        return Json.object(json -> {
            json.writeStringField("seat", seat);
            writeMembers(event, json);
        });
    }

    /** Writes the object into a larger document. */
    public static void write(FlightEvent event, JsonGenerator json) throws IOException {
        json.writeStartObject();
        writeMembers(event, json);
        json.writeEndObject();
    }

    private static void writeMembers(FlightEvent event, JsonGenerator json) throws IOException {
        JsonNumbers.write(json, "time_s", event.timeS());
        json.writeStringField("event", event.name());
        event.writeTo(new Fields(json));
    }

    private record Fields(JsonGenerator json) implements FlightEvent.Fields {

        @Override
        public FlightEvent.Fields number(String field, double value) {
            boolean counted = field.equals("crossings") || field.equals("n");
            return put(
                    counted
                            ? out -> out.writeNumberField(field, (int) value)
                            : out -> out.writeNumberField(field, JsonNumbers.rounded(field, value)));
        }

        @Override
        public FlightEvent.Fields text(String field, String value) {
            return put(out -> out.writeStringField(field, value));
        }

        @Override
        public FlightEvent.Fields flag(String field, boolean value) {
            return put(out -> out.writeBooleanField(field, value));
        }

        private FlightEvent.Fields put(Json.Content member) {
            try {
                member.write(json);
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
            return this;
        }
    }
}
