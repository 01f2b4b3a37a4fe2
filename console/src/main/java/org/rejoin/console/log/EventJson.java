package org.rejoin.console.log;

import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.RoundingMode;

import org.rejoin.bridge.flight.FlightEvent;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;

/**
 * An event as one line of {@code log.jsonl}. Numbers are rounded by the unit their name ends in, so that the same flight
 * gives the same bytes on every machine.
 */
public final class EventJson {

    private static final JsonFactory JSON = new JsonFactory();

    private EventJson() {}

    /**
     * One line, without its end.
     *
     * @param event any
     * @return a JSON object: time_s, event, then its fields
     */
    public static String line(FlightEvent event) {
        StringWriter text = new StringWriter();
        try (JsonGenerator json = JSON.createGenerator(text)) {
            write(event, json);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return text.toString();
    }

    /**
     * One line of a flight of several aircraft, without its end.
     *
     * @param seat whose event
     * @param event any
     * @return a JSON object: seat, time_s, event, then its fields
     */
    public static String line(String seat, FlightEvent event) {
        StringWriter text = new StringWriter();
        try (JsonGenerator json = JSON.createGenerator(text)) {
            json.writeStartObject();
            json.writeStringField("seat", seat);
            writeMembers(event, json);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return text.toString();
    }

    /**
     * Writes the object into a larger document.
     *
     * @param event any
     * @param json where to
     * @throws IOException if the generator's target fails
     */
    public static void write(FlightEvent event, JsonGenerator json) throws IOException {
        json.writeStartObject();
        writeMembers(event, json);
    }

    private static void writeMembers(FlightEvent event, JsonGenerator json) throws IOException {
        json.writeNumberField("time_s", rounded("time_s", event.timeS()));
        json.writeStringField("event", event.name());
        event.writeTo(new Fields(json));
        json.writeEndObject();
    }

    /**
     * A number as it stands in our JSON.
     *
     * @param name of the member; its ending tells the unit and so the digits
     * @param value finite
     * @return rounded half even: seconds and degrees to 0.01, miles to 0.0001, feet to 0.1
     */
    public static BigDecimal rounded(String name, double value) {
        int digits = name.endsWith("latitude_deg") || name.endsWith("longitude_deg")
                ? 9
                : name.endsWith("_nm") ? 4 : name.endsWith("_ft") ? 1 : 2;
        return rounded(value, digits);
    }

    /**
     * A number with so many digits, for every text of ours that must come out the same each time.
     *
     * @param value finite
     * @param digits after the point, 0 or more
     * @return rounded half even; never -0
     */
    public static BigDecimal rounded(double value, int digits) {
        BigDecimal decimal = BigDecimal.valueOf(value).setScale(digits, RoundingMode.HALF_EVEN);
        return decimal.signum() == 0 ? BigDecimal.ZERO.setScale(digits) : decimal;
    }

    private static final class Fields implements FlightEvent.Fields {
        private final JsonGenerator json;

        Fields(JsonGenerator json) {
            this.json = json;
        }

        @Override
        public FlightEvent.Fields number(String field, double value) {
            try {
                if (field.equals("crossings") || field.equals("n")) {
                    json.writeNumberField(field, (int) value);
                } else {
                    json.writeNumberField(field, rounded(field, value));
                }
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
            return this;
        }

        @Override
        public FlightEvent.Fields text(String field, String value) {
            try {
                json.writeStringField(field, value);
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
            return this;
        }

        @Override
        public FlightEvent.Fields flag(String field, boolean value) {
            try {
                json.writeBooleanField(field, value);
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
            return this;
        }
    }
}
