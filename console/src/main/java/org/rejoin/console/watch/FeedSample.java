package org.rejoin.console.watch;

import java.io.IOException;
import java.util.Locale;
import java.util.OptionalDouble;

import org.rejoin.console.json.Json;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.protocol.AircraftState;

import com.fasterxml.jackson.core.JsonGenerator;

/**
 * One decoded sample as a line.
 *
 * @param timeS seconds since the first sample
 * @param aircraft which of the sender's aircraft; empty text where it sends only one
 */
public record FeedSample(double timeS, String aircraft, AircraftState state) {

    /** Finer than any sender's own steps. */
    private static final int DEGREE_DIGITS = 9;

    private static final int DIGITS = 6;

    public String json() {
        return Json.object(generator -> {
            JsonNumbers.atMost(generator, "time_s", timeS, DIGITS);
            if (!aircraft.isEmpty()) {
                generator.writeStringField("aircraft", aircraft);
            }
            writeState(generator);
        });
    }

    /** The members of the state, into an object that is open. */
    void writeState(JsonGenerator generator) throws IOException {
        JsonNumbers.atMost(generator, "latitude_deg", state.latitudeDeg(), DEGREE_DIGITS);
        JsonNumbers.atMost(generator, "longitude_deg", state.longitudeDeg(), DEGREE_DIGITS);
        number(generator, "altitude_ft", state.altitudeMslFt());
        number(generator, "heading_true_deg", state.headingTrueDeg());
        number(generator, "heading_magnetic_deg", state.headingMagneticDeg());
        number(generator, "true_track_deg", state.trackTrueDeg());
        number(generator, "ground_speed_kt", state.groundSpeedKt());
        number(generator, "vertical_speed_fpm", state.verticalSpeedFpm());
        number(generator, "roll_deg", state.rollDeg());
        number(generator, "pitch_deg", state.pitchDeg());
        number(generator, "indicated_airspeed_kt", state.indicatedAirspeedKt());
        if (state.paused()) {
            generator.writeBooleanField("paused", true);
        }
    }

    public String text() {
        return String.format(Locale.ROOT, "%9.2f s", timeS) + (aircraft.isEmpty() ? "" : "  " + aircraft) + values();
    }

    /** The state in words and units, each part after two blanks. */
    String values() {
        StringBuilder line = new StringBuilder(String.format(
                Locale.ROOT, "  latitude %.6f  longitude %.6f", state.latitudeDeg(), state.longitudeDeg()));
        part(line, "altitude %.0f ft", state.altitudeMslFt());
        part(line, "heading %.1f true", state.headingTrueDeg());
        part(line, "heading %.1f magnetic", state.headingMagneticDeg());
        part(line, "track %.1f true", state.trackTrueDeg());
        part(line, "ground speed %.1f kt", state.groundSpeedKt());
        part(line, "vertical speed %.0f ft/min", state.verticalSpeedFpm());
        part(line, "roll %.1f", state.rollDeg());
        part(line, "pitch %.1f", state.pitchDeg());
        part(line, "indicated airspeed %.1f kt", state.indicatedAirspeedKt());
        return line + (state.paused() ? "  paused" : "");
    }

    private static void part(StringBuilder line, String format, OptionalDouble value) {
        if (value.isPresent()) {
            line.append("  ").append(String.format(Locale.ROOT, format, value.getAsDouble() + 0.0));
        }
    }

    private static void number(JsonGenerator generator, String name, OptionalDouble value) throws IOException {
        if (value.isPresent()) {
            JsonNumbers.atMost(generator, name, value.getAsDouble(), DIGITS);
        }
    }
}
