package org.rejoin.console.watch;

import java.io.IOException;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.function.DoubleFunction;
import java.util.function.Function;

import org.rejoin.console.json.Json;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.words.Words;
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

    /** What a sample may have beside its position. */
    private static final List<Value> VALUES = List.of(
            new Value("altitude_ft", "altitude %s ft", FeedSample::whole, AircraftState::altitudeMslFt),
            new Value("heading_true_deg", "heading %s true", Words::tenths, AircraftState::headingTrueDeg),
            new Value("heading_magnetic_deg", "heading %s magnetic", Words::tenths, AircraftState::headingMagneticDeg),
            new Value("true_track_deg", "track %s true", Words::tenths, AircraftState::trackTrueDeg),
            new Value("ground_speed_kt", "ground speed %s kt", FeedSample::tenths, AircraftState::groundSpeedKt),
            new Value(
                    "vertical_speed_fpm",
                    "vertical speed %s ft/min",
                    FeedSample::whole,
                    AircraftState::verticalSpeedFpm),
            new Value("roll_deg", "roll %s", FeedSample::tenths, AircraftState::rollDeg),
            new Value("pitch_deg", "pitch %s", FeedSample::tenths, AircraftState::pitchDeg),
            new Value(
                    "indicated_airspeed_kt",
                    "indicated airspeed %s kt",
                    FeedSample::tenths,
                    AircraftState::indicatedAirspeedKt));

    private record Value(
            String member, String words, DoubleFunction<String> figures, Function<AircraftState, OptionalDouble> of) {}

    /** To a tenth; what is less than half of one, either way, is "0.0" and not "-0.0". */
    private static String tenths(double value) {
        return String.format(Locale.ROOT, "%.1f", Math.rint(value * 10) / 10 + 0.0);
    }

    private static String whole(double value) {
        return String.format(Locale.ROOT, "%.0f", Math.rint(value) + 0.0);
    }

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
        for (Value value : VALUES) {
            OptionalDouble sent = value.of().apply(state);
            if (sent.isPresent()) {
                JsonNumbers.atMost(generator, value.member(), sent.getAsDouble(), DIGITS);
            }
        }
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
        for (Value value : VALUES) {
            value.of()
                    .apply(state)
                    .ifPresent(sent -> line.append("  ")
                            .append(value.words().formatted(value.figures().apply(sent))));
        }
        return line + (state.paused() ? "  paused" : "");
    }
}
