package org.rejoin.protocol.json;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.StateRange;
import org.rejoin.protocol.StateSink;
import org.rejoin.protocol.StateView;
import org.rejoin.protocol.Wire;
import org.rejoin.protocol.WireFormat;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Validation: a line that is read without the library is read just as the library reads it, and the library accepts it. */
class PlainLineTest {

    private static final String USUAL = "{\"latitude_deg\":30.5,\"longitude_deg\":-145.25}";

    private final PlainLine plain = new PlainLine();
    private final JsonFactory library = new JsonFactory();

    private static final class Faults implements StateSink {
        private final List<Decoded.Other> found = new ArrayList<>();

        @Override
        public void sample(StateView sample) {}

        @Override
        public void other(Decoded.Other other) {
            found.add(other);
        }
    }

    private boolean isPlain(String line) {
        byte[] octets = line.getBytes(StandardCharsets.UTF_8);
        JsonState state = new JsonState();
        state.clear();
        return plain.read(octets, 0, octets.length, state) == octets.length;
    }

    /** Whether the line is plain; if it is, the library must read the same state of it, and nothing else. */
    private boolean isReadAlike(byte[] octets) {
        JsonState ours = new JsonState();
        ours.clear();
        if (plain.read(octets, 0, octets.length, ours) != octets.length) {
            return false;
        }
        JsonState theirs = new JsonState();
        theirs.clear();
        Faults faults = new Faults();
        String text = new String(octets, StandardCharsets.ISO_8859_1);
        try (JsonParser parser = library.createParser(octets)) {
            assertThat(parser.nextToken()).as(text).isEqualTo(JsonToken.START_OBJECT);
            theirs.read(parser, faults);
            assertThat(parser.nextToken()).as(text).isNull();
        } catch (IOException e) {
            throw new AssertionError(text, e);
        }
        assertThat(faults.found).as(text).isEmpty();
        assertThat(ours.finish(0, 1, true, faults)).as(text).isEqualTo(theirs.finish(0, 1, true, faults));
        StateView one = ours.view();
        StateView other = theirs.view();
        if (!Double.isNaN(one.value(StateRange.LATITUDE_DEG))) {
            AircraftState expected = other.snapshot(1);
            assertThat(one.snapshot(1)).as(text).isEqualTo(expected);
            assertThat(Double.compare(one.sourceS(), other.sourceS())).as(text).isZero();
            assertThat(one.aircraft()).as(text).isEqualTo(other.aircraft());
        }
        return true;
    }

    @Test
    void whatOurEncoderWritesIsPlainButForExponents() {
        WireFormat.Encoder encoder = new JsonFormat().newEncoder();
        for (AircraftState state : Wire.flight(5_000, 20)) {
            byte[] line = encoder.encode(state).get(0);
            String text = new String(line, StandardCharsets.US_ASCII);
            boolean exponent = text.matches("(?s).*[0-9]E.*");
            assertThat(isReadAlike(Arrays.copyOf(line, line.length - 1)))
                    .as(text)
                    .isEqualTo(!exponent);
        }
    }

    @Test
    void whateverElseIsTakenForPlainTheLibraryReadsAlike() {
        SplittableRandom random = new SplittableRandom(8259);
        String[] seeds = {
            "{\"format\":\"rejoin-state\",\"version\":1,\"time_s\":0.5,\"latitude_deg\":30.5,\"longitude_deg\":-145.25,"
                    + "\"paused\":false,\"callsign\":\"OCEAN 12\",\"pitch_deg\":null}",
            "{ \"latitude_deg\" : -0.0 , \"longitude_deg\" : 180 , \"roll_deg\":-20, \"x\":true,\"y\":\"a\",\"z\":12 }",
            "{\"latitude_deg\":30.500123456789012,\"longitude_deg\":-145.2499999999999999,\"altitude_ft\":6e3}",
            "{\"latitude_deg\":89.99999999999999,\"latitude_deg\":1,\"longitude_deg\":12345678901234567.5,\"on_ground\":true}",
        };
        String nasty = "{}[]\":,.-+eE0123456789 \t\\untfalsr\u0001\u00e9";
        int plainLines = 0;
        for (int i = 0; i < 100_000; i++) {
            StringBuilder line = new StringBuilder(seeds[random.nextInt(seeds.length)]);
            for (int change = random.nextInt(4); change > 0; change--) {
                int at = random.nextInt(line.length());
                char c = nasty.charAt(random.nextInt(nasty.length()));
                switch (random.nextInt(3)) {
                    case 0 -> line.setCharAt(at, c);
                    case 1 -> line.insert(at, c);
                    default -> line.deleteCharAt(at);
                }
            }
            plainLines += isReadAlike(line.toString().getBytes(StandardCharsets.UTF_8)) ? 1 : 0;
        }
        assertThat(plainLines).isGreaterThan(20_000);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "{\"latitude_deg\":30.5,\"longitude_deg\":-145.25,\"altitude_ft\":6e3}",
                "{\"latitude_deg\":30.5,\"longitude_deg\":-145.25,\"callsign\":\"A\\u0042\"}",
                "{\"latitude_deg\":30.5,\"longitude_deg\":-145.25,\"callsign\":\"seventeen letters\"}",
                "{\"latitude_deg\":030.5,\"longitude_deg\":-145.25}",
                "{\"latitude_deg\":30.,\"longitude_deg\":-145.25}",
                "{\"latitude_deg\":91,\"longitude_deg\":-145.25}",
                "{\"latitude_deg\":\"30.5\",\"longitude_deg\":-145.25}",
                "{\"latitude_deg\":30.5,\"longitude_deg\":-145.25,\"more\":{}}",
                "{\"latitude_deg\":30.5,\"longitude_deg\":-145.25}{}",
                "{\"latitude_deg\":30.5,\"longitude_deg\":-145.25",
                "{\"latitude_deg\":30.5,\"longitude_deg\":-145.25,}",
                "{}"
            })
    void theRestIsLeftToTheLibrary(String line) {
        assertThat(isPlain(USUAL)).isTrue();
        assertThat(isPlain(line)).isFalse();
    }
}
