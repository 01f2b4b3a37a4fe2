package org.rejoin.protocol.profile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.rejoin.protocol.profile.ExampleProfiles.format;

import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Decoded.NotAPosition;
import org.rejoin.protocol.Wire;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.yaml.YamlException;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Validation: six invented layouts, decoded by an independent script; tolerances by precision. */
class ProfileExamplesTest {

    static Stream<Arguments> examples() {
        return Stream.of(
                Arguments.of("P1", ExampleProfiles.P1, ExampleProfiles.D1),
                Arguments.of("P2", ExampleProfiles.P2, ExampleProfiles.D2),
                Arguments.of("P3", ExampleProfiles.P3, ExampleProfiles.D3),
                Arguments.of("P4", ExampleProfiles.P4, ExampleProfiles.D4),
                Arguments.of("P5", ExampleProfiles.P5, ExampleProfiles.D5),
                Arguments.of("P6", ExampleProfiles.P6, ExampleProfiles.D6));
    }

    private static List<Decoded> decode(String yaml, byte[] octets) {
        return format(yaml).newDecoder().decode(Wire.datagram(octets));
    }

    private static void assertReference(AircraftState state, boolean magnetic) {
        assertThat(state.latitudeDeg()).isCloseTo(30.5, within(1e-7));
        assertThat(state.longitudeDeg()).isCloseTo(-145.25, within(1e-7));
        assertThat(state.altitudeMslFt().orElseThrow()).isCloseTo(6000, within(1e-6));
        assertThat(state.pitchDeg().orElseThrow()).isCloseTo(3, within(3e-5));
        assertThat(state.rollDeg().orElseThrow()).isCloseTo(-20, within(3e-5));
        assertThat(state.groundSpeedKt().orElseThrow()).isCloseTo(118, within(1e-3));
        assertThat(state.trackTrueDeg().orElseThrow()).isCloseTo(262, within(2e-3));
        assertThat(state.verticalSpeedFpm().orElseThrow()).isCloseTo(-700, within(1e-3));
        assertThat(state.paused()).isFalse();
        if (magnetic) {
            assertThat(state.headingMagneticDeg().orElseThrow()).isCloseTo(256.8, within(1e-9));
            assertThat(state.headingTrueDeg()).isEmpty();
        } else {
            assertThat(state.headingTrueDeg().orElseThrow()).isCloseTo(270, within(2e-5));
            assertThat(state.headingMagneticDeg()).isEmpty();
        }
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("examples")
    void theSampleDatagramIsTheReferenceState(String name, String yaml, byte[] octets) {
        List<Decoded> decoded = decode(yaml, octets);
        assertThat(decoded).hasSize(1);
        assertReference(Wire.state(decoded), name.equals("P1") || name.equals("P6"));
        assertThat(format(yaml).recognises(Wire.datagram(octets))).isTrue();
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("examples")
    void whatThePracticeAircraftSendsIsReadBack(String name, String yaml, byte[] octets) {
        byte[] sent =
                format(yaml).newEncoder().encode(Wire.referenceState(754.5)).get(0);
        List<Decoded> decoded = decode(yaml, sent);
        assertThat(decoded).hasSize(1);
        assertReference(Wire.state(decoded), name.equals("P1") || name.equals("P6"));
        AircraftState bare = AircraftState.at(0, -33.25, 179.5);
        AircraftState back =
                Wire.state(decode(yaml, format(yaml).newEncoder().encode(bare).get(0)));
        assertThat(back.latitudeDeg()).isCloseTo(-33.25, within(1e-7));
        assertThat(back.longitudeDeg()).isCloseTo(179.5, within(1e-7));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("examples")
    void aProfileWrittenAndReadIsTheSame(String name, String yaml, byte[] octets) throws YamlException {
        Profile profile = Profile.parse(yaml);
        assertThat(Profile.parse(profile.toYaml())).as(name).isEqualTo(profile);
        assertThat(octets).isNotEmpty();
    }

    @Test
    void printedDigitsOfTheExamples() {
        assertThat(Wire.state(decode(ExampleProfiles.P2, ExampleProfiles.D2))
                        .groundSpeedKt()
                        .orElseThrow())
                .isCloseTo(117.9991, within(5e-5));
        AircraftState p3 = Wire.state(decode(ExampleProfiles.P3, ExampleProfiles.D3));
        assertThat(p3.headingTrueDeg().orElseThrow()).isCloseTo(270.000001, within(5e-7));
        assertThat(p3.trackTrueDeg().orElseThrow()).isCloseTo(262.000021, within(5e-7));
        assertThat(Wire.state(decode(ExampleProfiles.P5, ExampleProfiles.D5))
                        .trackTrueDeg()
                        .orElseThrow())
                .isCloseTo(262.001953, within(5e-7));
    }

    @Test
    void aClockWithAUnitIsTheSendersTime() {
        Decoded.Sample p4 =
                Wire.samples(decode(ExampleProfiles.P4, ExampleProfiles.D4)).get(0);
        assertThat(p4.source().orElseThrow().seconds()).isCloseTo(754.5, within(1e-9));
        assertThat(p4.source().orElseThrow().wrapS()).isCloseTo(4_294_967.296, within(1e-6));
        assertThat(Wire.samples(decode(ExampleProfiles.P1, ExampleProfiles.D1))
                        .get(0)
                        .source())
                .isEmpty();
    }

    @Test
    void recordsOfTheWrongShapeAreNotOurs() {
        byte[] ten = ExampleProfiles.text("RJA,000754.50,30.5,-145.25,6000.0,256.8,-20.0,3.0,118.0,262.0\r\n");
        assertThat(format(ExampleProfiles.P1).recognises(Wire.datagram(ten))).isFalse();
        assertThat(Wire.samples(decode(ExampleProfiles.P1, ten))).isEmpty();
        byte[] cut = Arrays.copyOf(ExampleProfiles.D4, 55);
        assertThat(format(ExampleProfiles.P4).recognises(Wire.datagram(cut))).isFalse();
        assertThat(Wire.faults(decode(ExampleProfiles.P4, cut))).hasSize(1);
        byte[] lies = ExampleProfiles.D5.clone();
        lies[3] = 27;
        assertThat(format(ExampleProfiles.P5).recognises(Wire.datagram(lies))).isFalse();
        assertThat(Wire.faults(decode(ExampleProfiles.P5, lies))).hasSize(1);
    }

    @Test
    void aPositionThatDoesNotParseIsNoSample() {
        byte[] words = ExampleProfiles.text("RJA,1,abc,-145.25,6000.0,256.8,-20.0,3.0,118.0,262.0,-700\r\n");
        assertThat(Wire.samples(decode(ExampleProfiles.P1, words))).isEmpty();
        assertThat(Wire.faults(decode(ExampleProfiles.P1, words))).isNotEmpty();
        assertThat(Wire.samples(decode(ExampleProfiles.P2, ExampleProfiles.text("lon=-145,25;pitch=3,0\n"))))
                .isEmpty();
    }

    @Test
    void aCountBeyondTheRecordReadsWhatIsThere() {
        byte[] eleven = ExampleProfiles.D6.clone();
        eleven[3] = 11;
        List<Decoded> decoded = decode(ExampleProfiles.P6, eleven);
        assertThat(Wire.faults(decoded)).hasSize(1);
        assertReference(Wire.state(decoded), true);
    }

    @Test
    void theLastOfTwoEqualIndexesWins() {
        byte[] twice = ExampleProfiles.D6.clone();
        System.arraycopy(Wire.hex("01 40 3e 00 00 00 00 00 00"), 0, twice, 85, 9);
        assertThat(Wire.state(decode(ExampleProfiles.P6, twice)).latitudeDeg()).isEqualTo(30);
    }

    @Test
    void recordsInPartsAreMergedForTwoSeconds() {
        WireFormat.Decoder decoder = format(ExampleProfiles.P6).newDecoder();
        byte[] attitude = Wire.hex("a5 5a 31 01 14 c0 34 00 00 00 00 00 00");
        byte[] place = Wire.hex("a5 5a 31 02 01 40 3e 80 00 00 00 00 00 02 c0 62 28 00 00 00 00 00");
        assertThat(decoder.decode(Wire.datagram(Wire.T0, attitude)))
                .containsExactly(new NotAPosition("part of a record"));
        assertThat(Wire.state(decoder.decode(Wire.datagram(Wire.T0 + 2_000_000, place)))
                        .rollDeg())
                .hasValue(-20);
        assertThat(Wire.state(decoder.decode(Wire.datagram(Wire.T0 + 2_000_001, place)))
                        .rollDeg())
                .isEmpty();
        byte[] latitudeOnly = Wire.hex("a5 5a 31 01 01 40 3e 80 00 00 00 00 00");
        assertThat(Wire.samples(decoder.decode(Wire.datagram(Wire.T0 + 2_000_002, latitudeOnly))))
                .isEmpty();
    }

    @Test
    void samplesBeyondTheLimitOfTheProfileAreThinned() {
        WireFormat.Decoder decoder = format("max_hz: 10\n" + ExampleProfiles.P1).newDecoder();
        int samples = 0;
        for (int i = 0; i < 100; i++) {
            samples += Wire.samples(decoder.decode(Wire.datagram(Wire.T0 + i * 20_000L, ExampleProfiles.D1)))
                    .size();
        }
        assertThat(samples).isBetween(18, 22);
    }
}
