package org.rejoin.protocol.profile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.StandardCharsets;
import java.util.SplittableRandom;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Wire;
import org.rejoin.protocol.WireFormat;

import org.junit.jupiter.api.Test;

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
