package org.rejoin.protocol.json;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.StandardCharsets;
import java.util.List;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Decoded.Sample;
import org.rejoin.protocol.SourceTime;
import org.rejoin.protocol.Wire;
import org.rejoin.protocol.WireFormat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Non-regression: our own format has no outside source; the line is that of docs/wire-formats.md. */
class JsonFormatTest {

    private static final String LINE = """
            {"format":"rejoin-state","version":1,"sequence":15090,"time_s":754.5,"latitude_deg":30.5,\
            "longitude_deg":-145.25,"altitude_ft":6000.0,"true_heading_deg":270.0,"magnetic_variation_deg":13.2,\
            "true_track_deg":262.0,"ground_speed_kt":118.0,"vertical_speed_fpm":-700,"pitch_deg":3.0,\
            "roll_deg":-20.0,"paused":false}""";

    private final WireFormat.Decoder decoder = new JsonFormat().newDecoder();

    private List<Decoded> decode(String text) {
        return decoder.decode(Wire.text(text));
    }

    private static String with(String members) {
        return "{\"latitude_deg\":30.5,\"longitude_deg\":-145.25," + members + "}";
    }

    @Test
    void theDocumentedLineIsTheReferenceState() {
        List<Decoded> decoded = decode(LINE + "\n");
        AircraftState expected = Wire.referenceState(Wire.T0 * 1e-6);
        AircraftState state = Wire.state(decoded);
        assertThat(state.headingMagneticDeg().orElseThrow()).isCloseTo(256.8, within(1e-9));
        assertThat(state)
                .usingRecursiveComparison()
                .ignoringFields("headingMagneticDeg")
                .withEqualsForType((one, other) -> Double.compare(one, other) == 0, Double.class)
                .isEqualTo(expected);
        assertThat(((Sample) decoded.get(0)).source()).contains(SourceTime.monotonic(754.5));
        assertThat(Wire.state(decode("\uFEFF" + LINE))).isEqualTo(state);
    }

    @Test
    void whatIsSentIsReadBack() {
        WireFormat.Encoder encoder = new JsonFormat().newEncoder();
        AircraftState sent = Wire.referenceState(754.5);
        for (int i = 0; i < 2; i++) {
            String text = new String(encoder.encode(sent).get(0), StandardCharsets.UTF_8);
            assertThat(text).contains("\"sequence\":" + i).endsWith("}\n");
            assertThat(Wire.state(decode(text))).isEqualTo(sent.withTimeS(Wire.T0 * 1e-6));
        }
        AircraftState bare = AircraftState.at(0, -1, 2);
        assertThat(Wire.state(decoder.decode(Wire.datagram(encoder.encode(bare).get(0)))))
                .isEqualTo(bare.withTimeS(Wire.T0 * 1e-6));
    }

    @Test
    void severalLinesInADatagramAreSeveralSamples() {
        assertThat(Wire.samples(decode(LINE + "\n" + LINE + "\r\n" + LINE))).hasSize(3);
    }

    @Test
    void halfALineWaitsForTheRest() {
        assertThat(decode(LINE.substring(0, 100))).isEmpty();
        assertThat(Wire.samples(decode(LINE.substring(100) + "\n"))).hasSize(1);
        assertThat(decode(LINE.substring(0, 100))).isEmpty();
        assertThat(Wire.faults(decoder.advanceTo(Wire.T0 + 1_000_001))).hasSize(1);
        assertThat(decode(LINE.substring(0, 100))).isEmpty();
        List<Decoded> whole = decode(LINE);
        assertThat(Wire.samples(whole)).hasSize(1);
        assertThat(Wire.faults(whole)).hasSize(1);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "{\"latitude_deg\":\"30.5\",\"longitude_deg\":-145.25}",
                "{\"latitude_deg\":30.5}",
                "{\"latitude_deg\":1e400,\"longitude_deg\":-145.25}",
                "{\"latitude_deg\":91,\"longitude_deg\":-145.25}",
                "{\"latitude_deg\":NaN,\"longitude_deg\":-145.25}",
                "{\"format\":\"other\",\"latitude_deg\":30.5,\"longitude_deg\":-145.25}",
                "{\"latitude_deg\":null,\"longitude_deg\":-145.25}",
                "[1,2]",
                "17",
                "{\"a\":[[[[1]]]],\"latitude_deg\":30.5,\"longitude_deg\":-145.25}",
                "{}",
                "{\"latitude_deg\":30.5,\"longitude_deg\":-145.25,}",
                "nonsense",
                ""
            })
    void whatCannotBeAStateIsSaidAndIsNoSample(String line) {
        List<Decoded> decoded = decode(line + "\n");
        assertThat(Wire.samples(decoded)).isEmpty();
        if (!line.isEmpty()) {
            assertThat(Wire.faults(decoded)).hasSize(1);
        }
    }

    @Test
    void aLineBeyondTheLimitIsNotRead() {
        List<Decoded> decoded = decode(with("\"note\":\"" + "x".repeat(8200) + "\""));
        assertThat(decoded).hasSize(1);
        assertThat(Wire.faults(decoded)).hasSize(1);
        assertThat(Wire.samples(decode(with("\"note\":\"" + "x".repeat(8000) + "\""))))
                .hasSize(1);
    }

    @Test
    void aMemberOutOfRangeIsDroppedAndCounted() {
        List<Decoded> decoded = decode(with("\"altitude_ft\":200000,\"pitch_deg\":-91,\"roll_deg\":5"));
        assertThat(Wire.faults(decoded)).hasSize(2);
        assertThat(Wire.state(decoded).altitudeMslFt()).isEmpty();
        assertThat(Wire.state(decoded).rollDeg()).hasValue(5);
    }

    @ParameterizedTest
    @CsvSource({"360, 0", "-90, 270", "-180, 180", "0, 0", "-0.0, 0"})
    void headingsAreFoldedIntoOneTurn(double sent, double read) {
        assertThat(Wire.state(decode(with("\"true_heading_deg\":" + sent))).headingTrueDeg())
                .hasValue(read);
    }

    @Test
    void eastLongitudesBeyondOneEightyAreWest() {
        assertThat(Wire.state(decode("{\"latitude_deg\":0,\"longitude_deg\":214.75}"))
                        .longitudeDeg())
                .isEqualTo(-145.25);
        assertThat(Wire.state(decode("{\"latitude_deg\":0,\"longitude_deg\":180}"))
                        .longitudeDeg())
                .isEqualTo(-180);
    }

    @Test
    void theLastOfDuplicateMembersWinsAndUnknownOnesAreIgnored() {
        AircraftState state = Wire.state(
                decode(with("\"altitude_ft\":1,\"altitude_ft\":2,\"x\":{\"latitude_deg\":[1]},\"paused\":true")));
        assertThat(state.altitudeMslFt()).hasValue(2);
        assertThat(state.latitudeDeg()).isEqualTo(30.5);
        assertThat(state.paused()).isTrue();
    }

    @Test
    void belowOneKnotThereIsNoTrack() {
        assertThat(Wire.state(decode(with("\"ground_speed_kt\":0.5,\"true_track_deg\":90")))
                        .trackTrueDeg())
                .isEmpty();
    }

    @Test
    void headingsThatContradictTheirVariationAreReported() {
        List<Decoded> decoded =
                decode(with("\"true_heading_deg\":10,\"magnetic_heading_deg\":355,\"magnetic_variation_deg\":5"));
        assertThat(Wire.samples(decoded)).hasSize(1);
        assertThat(Wire.faults(decoded)).hasSize(1);
        assertThat(decode(with("\"true_heading_deg\":10,\"magnetic_heading_deg\":355,\"magnetic_variation_deg\":15")))
                .hasSize(1);
    }

    @Test
    void theCallsignIsTheMarking() {
        Sample sample =
                Wire.samples(decode(with("\"callsign\":\"REJ\\u00071\""))).get(0);
        assertThat(sample.marking()).isEqualTo("REJ?1");
    }

    /** Two aircraft of one sender: their names may differ in one letter that is not English. */
    @ParameterizedTest
    @CsvSource({"Zoë, Zoé", "Ж1, Ш1", "白, 黒", "A🛩, A🛫"})
    void callsignsInAnyScriptAreToldApart(String one, String other) {
        for (String callsign : List.of(one, other)) {
            Sample sample = Wire.samples(decode(with("\"callsign\":\"" + callsign + '"')))
                    .get(0);
            assertThat(sample.aircraft()).isEqualTo(callsign);
            assertThat(sample.marking()).isEqualTo(callsign);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"\\u202e", "\\u2028", "\\u200b", "\\ud800", "\\ue000", "\\u00a0"})
    void whatIsNotSeenInACallsignIsMarked(String hidden) {
        assertThat(Wire.samples(decode(with("\"callsign\":\"R" + hidden + "J\"")))
                        .get(0)
                        .marking())
                .isEqualTo("R?J");
    }

    @ParameterizedTest
    @CsvSource({"[1], a list", "5, a number", "'\"x\"', a text", "true, true", "null, null"})
    void whatIsNoObjectIsNamedInPlainWords(String sent, String words) {
        assertThat(Wire.faults(decode(sent))).singleElement().asString().contains("not an object: " + words);
    }

    @Test
    void aLineIsRecognisedByItsBrace() {
        JsonFormat format = new JsonFormat();
        assertThat(format.recognises(Wire.text("\uFEFF  {"))).isTrue();
        assertThat(format.recognises(Wire.text("[]"))).isFalse();
        assertThat(format.recognises(Datagram.of(0, Wire.SENDER, new byte[0]))).isFalse();
    }

    /** The rest of a line may come with the next datagram; what is whole is not kept waiting for it, nor lost with it. */
    @Test
    void aWholeObjectBeforeATornOneIsTakenAtOnce() {
        String whole = LINE.strip();
        assertThat(decode(whole + whole.substring(0, 30))).hasSize(1).first().isInstanceOf(Sample.class);
        assertThat(decode(whole.substring(30)))
                .filteredOn(Sample.class::isInstance)
                .hasSize(1);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "\"altitude_ft\":\"6000\" | altitude_ft \"6000\" | a number from -2000 to 100000 without quotes",
                "\"true_heading_deg\":500 | true_heading_deg 500 | a number from -180 to 360",
                "\"ground_speed_kt\":[1] | ground_speed_kt an array or object | a number from 0 to 2000"
            })
    void aValueSentWronglyIsSaidWithWhatWouldBeRight(String member, String found, String expected) {
        List<Decoded> decoded = decode(with(member));
        assertThat(Wire.samples(decoded)).hasSize(1);
        assertThat(Wire.faults(decoded)).hasSize(1);
        assertThat(Wire.faults(decoded).get(0).found()).isEqualTo(found);
        assertThat(Wire.faults(decoded).get(0).expected()).isEqualTo(expected);
    }
}
