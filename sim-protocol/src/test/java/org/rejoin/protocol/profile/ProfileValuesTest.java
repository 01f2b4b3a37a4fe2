package org.rejoin.protocol.profile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.SplittableRandom;
import java.util.stream.Collectors;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Wire;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.yaml.YamlException;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Non-regression: units, signs and quantities that the six examples do not show. */
class ProfileValuesTest {

    private static final String HEMISPHERES = """
            name: degrees and minutes
            text: {separator: ","}
            values:
              - {is: latitude, at: 0, unit: deg_min, hemisphere: {at: 1, negative: [S]}}
              - {is: longitude, at: 2, unit: deg_min, hemisphere: {at: 3, negative: [W]}}
              - {is: paused, at: 4}
              - {is: altitude_msl, at: 5, unit: ft, missing: -9999}
            """;

    private static AircraftState read(String yaml, String line) {
        return Wire.state(ExampleProfiles.format(yaml).newDecoder().decode(Wire.text(line)));
    }

    @Test
    void lettersCarryTheSign() {
        AircraftState state = read(HEMISPHERES, "3315.1234,S,14515.0,W,true,-9999");
        assertThat(state.latitudeDeg()).isCloseTo(-(33 + 15.1234 / 60), within(1e-12));
        assertThat(state.longitudeDeg()).isCloseTo(-145.25, within(1e-12));
        assertThat(state.paused()).isTrue();
        assertThat(state.altitudeMslFt()).isEmpty();
        assertThat(Wire.samples(
                        ExampleProfiles.format(HEMISPHERES).newDecoder().decode(Wire.text("3360.0,N,14515.0,W,0,1"))))
                .isEmpty();
    }

    @Test
    void anyPlaceSurvivesDegreesAndMinutes() {
        WireFormat format = ExampleProfiles.format(HEMISPHERES);
        SplittableRandom random = new SplittableRandom(5);
        for (int i = 0; i < 2000; i++) {
            double lat = i == 0 ? 59.9999999999999 : random.nextDouble(-90, 90);
            double lon = random.nextDouble(-180, 180);
            byte[] line =
                    format.newEncoder().encode(AircraftState.at(0, lat, lon)).get(0);
            AircraftState back = read(HEMISPHERES, new String(line, StandardCharsets.UTF_8));
            assertThat(back.latitudeDeg()).isCloseTo(lat, within(1e-10));
            assertThat(Math.IEEEremainder(back.longitudeDeg() - lon, 360)).isCloseTo(0, within(1e-10));
        }
    }

    private static final String IN_ORDER = """
            name: numbers in their order
            text: {separator: numbers, fields: 4}
            values:
              - {is: latitude, at: 0, unit: deg}
              - {is: longitude, at: 1, unit: deg}
              - {is: altitude_msl, at: 2, unit: ft}
              - {is: true_heading, at: 3, unit: deg}
            """;

    @ParameterizedTest
    @ValueSource(
            strings = {
                "<state><pos lat=\"30.5\" lon=\"-145.25\" alt=\"6000\"/><att hdg=\"270.0\"/></state>",
                "LAT 30.5deg LON -145.25deg ALT6000ft HDG270",
                "lat: 30.5\r\nlon: -145.25\r\nalt: 6000\r\nheading: 270\r\n",
                "(pos +3.05e1 -145.25) (alt 6000.) (hdg .27e3)",
                "30.5/-145.25/6000/270",
            })
    void theNumbersOfADatagramAreItsFields(String text) {
        AircraftState state = read(IN_ORDER, text);
        assertThat(state.latitudeDeg()).isCloseTo(30.5, within(1e-12));
        assertThat(state.longitudeDeg()).isCloseTo(-145.25, within(1e-12));
        assertThat(state.altitudeMslFt()).hasValueCloseTo(6000.0, within(1e-9));
        assertThat(state.headingTrueDeg()).hasValueCloseTo(270.0, within(1e-9));
    }

    /** A date has three numbers and no signs; "nan" holds the place of a number; half of a number is none. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "2026-11-30 | 2026 11 30",
                "17:05:03.2Z | 17 05 03.2",
                "a NaN b nano | NaN",
                "v1.2.3 | 1.2",
                "N38 12.5 W049 55 | N 38 12.5 W 049 55",
                "12.5N,110.5 E, WIND E5 | 12.5 N 110.5 E E 5",
                "x=-3 y-4 | -3 -4",
                "alt -1.#IND lat.38.25 v=-1.#QNAN | -1.#IND 38.25 -1.#QNAN",
                "Infinity null None infinite | Infinity null None",
                "a=.5 -.5 b.5 | .5 -.5 5",
            })
    void whatIsANumberInText(String text, String fields) {
        Layout.Text layout = new Layout.Text("", Layout.Text.NUMBERS, "", '.', OptionalInt.empty());
        assertThat(TextField.of(text, layout).stream().map(TextField::text).collect(Collectors.joining(" ")))
                .isEqualTo(fields);
    }

    @Test
    void aNumberTooFewIsAFaultAndNoSample() {
        var decoded = ExampleProfiles.format(IN_ORDER).newDecoder().decode(Wire.text("lat 30.5 lon -145.25 alt 6000"));
        assertThat(Wire.samples(decoded)).isEmpty();
        assertThat(decoded.toString()).contains("3 fields", "4 fields");
    }

    private static final String DEGREES_WITH_MINUTES = """
            name: degrees and their minutes
            text: {starts_with: POS, separator: numbers, fields: 6}
            values:
              - {is: latitude, at: 1, unit: deg, minutes: 2, hemisphere: {at: 0, negative: [S]}}
              - {is: longitude, at: 4, unit: deg, minutes: 5, hemisphere: {at: 3, negative: [W]}}
            """;

    @Test
    void wholeDegreesHaveTheirMinutesInAnotherField() {
        AircraftState state = read(DEGREES_WITH_MINUTES, "POS S33 15.1234 W145 15.0");
        assertThat(state.latitudeDeg()).isCloseTo(-(33 + 15.1234 / 60), within(1e-12));
        assertThat(state.longitudeDeg()).isCloseTo(-145.25, within(1e-12));
        var decoded =
                ExampleProfiles.format(DEGREES_WITH_MINUTES).newDecoder().decode(Wire.text("POS S33 60.0 W145 15.0"));
        assertThat(Wire.samples(decoded)).isEmpty();
        assertThat(decoded.toString()).contains("latitude 33", "minutes below 60 in field 2");
        assertThat(Wire.samples(ExampleProfiles.format(DEGREES_WITH_MINUTES)
                        .newDecoder()
                        .decode(Wire.text("POS S33.5 30.0 W145 15.0"))))
                .isEmpty();
        String signed = DEGREES_WITH_MINUTES.replaceAll(", hemisphere: \\{[^}]*}", "");
        AircraftState south = read(signed, "POS N -0 30.0 W -145 15.0");
        assertThat(south.latitudeDeg()).isCloseTo(-0.5, within(1e-12));
        assertThat(south.longitudeDeg()).isCloseTo(-145.25, within(1e-12));
    }

    @Test
    void whatThePracticeAircraftSendsInWholeDegreesAndMinutesIsReadBack() {
        SplittableRandom random = new SplittableRandom(6);
        WireFormat format = ExampleProfiles.format(DEGREES_WITH_MINUTES);
        for (int i = 0; i < 500; i++) {
            double lat = i == 0 ? -0.25 : random.nextDouble(-90, 90);
            double lon = random.nextDouble(-180, 180);
            byte[] line =
                    format.newEncoder().encode(AircraftState.at(0, lat, lon)).get(0);
            AircraftState back = read(DEGREES_WITH_MINUTES, new String(line, StandardCharsets.UTF_8));
            assertThat(back.latitudeDeg()).isCloseTo(lat, within(1e-8));
            assertThat(Math.IEEEremainder(back.longitudeDeg() - lon, 360)).isCloseTo(0, within(1e-8));
        }
    }

    private static final String APART = """
            profile: 1
            name: "attitude apart"
            kind: text

            text:
              starts_with: "POS"
              separator: ","
              decimal: "."
              fields: 4

            values:
              - {is: latitude, at: 1, unit: deg}
              - {is: longitude, at: 2, unit: deg}
              - {is: altitude_msl, at: 3, unit: ft}

            also:
              - text:
                  starts_with: "ATT"
                  separator: ","
                  decimal: "."
                  fields: 3
                values:
                  - {is: true_heading, at: 1, unit: deg}
                  - {is: roll, at: 2, unit: deg}
              - binary:
                  byte_order: big
                  magic: "53 50"
                  length: 6
                values:
                  - {is: ground_speed, at: 2, type: f32, unit: kt}
            """;

    private static Datagram after(double seconds, byte[] octets) {
        Datagram first = Wire.datagram(octets);
        return Datagram.of(first.receivedMicros() + Math.round(seconds * 1e6), first.sender(), octets);
    }

    @Test
    void aHeadingThatIsSentApartIsHeldBesideThePositionForTwoSeconds() {
        WireFormat.Decoder decoder = ExampleProfiles.format(APART).newDecoder();
        byte[] position = "POS,30.5,-145.25,6000".getBytes(StandardCharsets.UTF_8);
        assertThat(Wire.samples(decoder.decode(after(0, "ATT,270,-20".getBytes(StandardCharsets.UTF_8)))))
                .isEmpty();
        assertThat(Wire.samples(decoder.decode(after(0.1, new byte[] {0x53, 0x50, 0x42, (byte) 0xEC, 0, 0}))))
                .isEmpty();
        AircraftState fresh = Wire.state(decoder.decode(after(0.2, position)));
        assertThat(fresh.headingTrueDeg()).hasValueCloseTo(270.0, within(1e-9));
        assertThat(fresh.rollDeg()).hasValueCloseTo(-20.0, within(1e-9));
        assertThat(fresh.groundSpeedKt()).hasValueCloseTo(118.0, within(1e-6));
        AircraftState later = Wire.state(decoder.decode(after(2.3, position)));
        assertThat(later.headingTrueDeg()).isEmpty();
        assertThat(later.groundSpeedKt()).isEmpty();
        assertThat(decoder.decode(after(2.4, "RPM,2300".getBytes(StandardCharsets.UTF_8)))
                        .toString())
                .contains("a line that starts with");
    }

    /** Three kinds of object in turn, and lines of several kinds in one datagram: each is read as what it is. */
    @Test
    void eachKindIsKnownByWhatIsInIt() {
        String json = """
                name: three kinds
                text: {key_value: json}
                values:
                  - {is: latitude, at: la, unit: deg}
                  - {is: longitude, at: lo, unit: deg}
                also:
                  - text: {key_value: json}
                    values: [{is: true_heading, at: h, unit: deg}]
                  - text: {key_value: json}
                    values: [{is: altitude_msl, at: al, unit: ft}]
                """;
        WireFormat.Decoder decoder = ExampleProfiles.format(json).newDecoder();
        decoder.decode(Wire.text("{\"h\":270,\"g\":118}"));
        decoder.decode(Wire.text("{\"al\":6000}"));
        AircraftState state = Wire.state(decoder.decode(Wire.text("{\"la\":30.5,\"lo\":-145.25}")));
        assertThat(state.headingTrueDeg()).hasValueCloseTo(270.0, within(1e-9));
        assertThat(state.altitudeMslFt()).hasValueCloseTo(6000.0, within(1e-9));

        WireFormat.Decoder lines = ExampleProfiles.format(APART).newDecoder();
        AircraftState together = Wire.state(lines.decode(Wire.text("ATT,270,-20\nPOS,30.5,-145.25,6000\n")));
        assertThat(together.headingTrueDeg()).hasValueCloseTo(270.0, within(1e-9));
        AircraftState behind = Wire.state(
                ExampleProfiles.format(APART).newDecoder().decode(Wire.text("POS,30.5,-145.25,6000\nATT,270,-20\n")));
        assertThat(behind.latitudeDeg()).isCloseTo(30.5, within(1e-9));
    }

    @Test
    void aBeginningWithANumberInItIsSentAsItIsRead() {
        String yaml = """
                text: {separator: numbers, starts_with: "AC1 N POS", fields: 4}
                values:
                  - {is: latitude, at: 2, unit: deg}
                  - {is: longitude, at: 3, unit: deg}
                """;
        AircraftState back = read(
                yaml,
                new String(
                        ExampleProfiles.format(yaml)
                                .newEncoder()
                                .encode(AircraftState.at(0, 38.25, -49.5))
                                .get(0),
                        StandardCharsets.UTF_8));
        assertThat(back.latitudeDeg()).isCloseTo(38.25, within(1e-9));
    }

    @ParameterizedTest
    @ValueSource(strings = {"{is: time, at: 0, unit: s}", "{is: ecef_x, at: 0, unit: m}"})
    void positionAndTimeBelongToTheFirstMessage(String value) {
        assertThatThrownBy(() -> Profile.parse("""
                        text: {separator: ","}
                        values:
                          - {is: latitude, at: 0, unit: deg}
                          - {is: longitude, at: 1, unit: deg}
                        also:
                          - text: {separator: ";"}
                            values: [%s]
                        """.formatted(value)))
                .isInstanceOf(YamlException.class)
                .hasMessageContaining("position and time belong to the first message")
                .hasMessageStartingWith("line 6");
    }

    @Test
    void aProfileOfSeveralMessagesIsWrittenAndSentAsItIsRead() throws YamlException {
        Profile profile = Profile.parse(APART);
        assertThat(profile.toYaml()).isEqualTo(APART);
        assertThat(Profile.parse(profile.toYaml())).isEqualTo(profile);
        WireFormat.Decoder decoder = profile.newDecoder();
        List<AircraftState> states = new ArrayList<>();
        for (int round = 0; round < 2; round++) {
            for (byte[] octets : profile.newEncoder().encode(Wire.referenceState(0))) {
                Wire.samples(decoder.decode(Wire.datagram(octets))).forEach(sample -> states.add(sample.state()));
            }
        }
        assertThat(states).hasSize(2);
        AircraftState back = states.get(1);
        assertThat(back.headingTrueDeg()).hasValueCloseTo(270.0, within(1e-9));
        assertThat(back.groundSpeedKt()).hasValueCloseTo(118.0, within(1e-4));
    }

    @Test
    void earthCentredPositionsAndVelocitiesAreTurnedIntoOurs() {
        String yaml = """
                name: earth-centred
                text: {separator: blank}
                values:
                  - {is: ecef_x, at: 0, unit: m}
                  - {is: ecef_y, at: 1, unit: m}
                  - {is: ecef_z, at: 2, unit: m}
                  - {is: velocity_north, at: 3, unit: m/s}
                  - {is: velocity_east, at: 4, unit: m/s}
                  - {is: velocity_down, at: 5, unit: m/s}
                  - {is: magnetic_heading, at: 6, unit: deg}
                  - {is: magnetic_variation, at: 7, unit: deg}
                """;
        byte[] line = ExampleProfiles.format(yaml)
                .newEncoder()
                .encode(Wire.referenceState(0))
                .get(0);
        AircraftState state = read(yaml, new String(line, StandardCharsets.UTF_8));
        assertThat(state.latitudeDeg()).isCloseTo(30.5, within(1e-9));
        assertThat(state.altitudeMslFt().orElseThrow()).isCloseTo(6000, within(1e-5));
        assertThat(state.groundSpeedKt().orElseThrow()).isCloseTo(118, within(1e-6));
        assertThat(state.trackTrueDeg().orElseThrow()).isCloseTo(262, within(1e-6));
        assertThat(state.verticalSpeedFpm().orElseThrow()).isCloseTo(-700, within(1e-6));
        assertThat(state.headingTrueDeg().orElseThrow()).isCloseTo(270, within(1e-9));
    }

    @Test
    void everyUnitConvertsThereAndBack() {
        for (Unit unit : Unit.values()) {
            for (Quantity quantity : Quantity.values()) {
                if (quantity.accepts(unit) && unit != Unit.NONE) {
                    assertThat(unit.to(quantity.unit(), unit.from(quantity.unit(), -12.345)))
                            .as("%s in %s", quantity, unit)
                            .isCloseTo(-12.345, within(1e-9));
                }
            }
        }
    }

    @Test
    void clocksThatAreFullStartAgain() {
        String yaml = """
                binary: {length: 18}
                values:
                  - {is: time, at: 0, type: u16, unit: ms}
                  - {is: latitude, at: 2, type: f64, unit: deg}
                  - {is: longitude, at: 10, type: f64, unit: deg}
                """;
        WireFormat format = ExampleProfiles.format(yaml);
        byte[] sent = format.newEncoder().encode(AircraftState.at(100, 1, 2)).get(0);
        var source = Wire.samples(format.newDecoder().decode(Wire.datagram(sent)))
                .get(0)
                .source();
        assertThat(source.orElseThrow().wrapS()).isCloseTo(65.536, within(1e-9));
        assertThat(source.orElseThrow().seconds()).isCloseTo(100 - 65.536, within(1e-3));
    }
}
