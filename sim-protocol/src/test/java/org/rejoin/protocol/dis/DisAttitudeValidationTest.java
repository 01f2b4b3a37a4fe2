package org.rejoin.protocol.dis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.ByteBuffer;
import java.util.OptionalDouble;
import java.util.SplittableRandom;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Units;
import org.rejoin.protocol.Wire;
import org.rejoin.protocol.earth.BodyAxes;
import org.rejoin.protocol.earth.Geodetic;
import org.rejoin.protocol.earth.LocalAxes;
import org.rejoin.protocol.earth.Vector3;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Validation: worked cases A to J, computed by an independent library (Open-DIS) to 1e-9 rad. */
class DisAttitudeValidationTest {

    private static BodyAxes axes(double lat, double lon, double heading, double pitch, double roll) {
        return BodyAxes.of(new BodyAxes.Attitude(heading, pitch, roll), LocalAxes.at(new Geodetic(lat, lon, 0)));
    }

    @ParameterizedTest
    @CsvSource({
        "45, -100, 90, 0, 0, -0.174532925, 0, -2.356194490",
        "45, -100, 0, 0, 0, 1.396263402, -0.785398163, 3.141592654",
        "30.5, -145.25, 270, 3, -20, 2.222423658, -0.026565630, 1.753456369",
        "-33.25, -120.75, 137.5, -4.5, 25, 0.071198554, 0.608522182, -0.323215508",
        "0, 180, 45, 10, 30, -1.815176319, -0.770319033, -0.875263838",
        "-45, 90, 180, 0, 0, -1.570796327, 0.785398163, 0",
        "70, 10, 300, 2.5, -15, -1.879936724, -0.213453341, 2.571874036",
        "89.5, 45, 359.9, 0, 5, -2.354449094, -0.008726633, -3.054341422"
    })
    void eulerAnglesOfTheWorkedCases(
            double lat, double lon, double heading, double pitch, double roll, double psi, double theta, double phi) {
        BodyAxes.Euler euler = axes(lat, lon, heading, pitch, roll).euler();
        assertThat(Math.IEEEremainder(euler.psi() - psi, 2 * Math.PI)).isCloseTo(0, within(1e-9));
        assertThat(euler.theta()).isCloseTo(theta, within(1e-9));
        assertThat(Math.IEEEremainder(euler.phi() - phi, 2 * Math.PI)).isCloseTo(0, within(1e-9));
    }

    @ParameterizedTest
    @CsvSource({"0, -120, 0, 0, 20, -1.745329252, -1.570796327", "0, -120, 180, 0, -15, 1.308996939, 1.570796327"})
    void levelFlightAlongTheMeridianOnTheEquatorKeepsItsRoll(
            double lat, double lon, double heading, double pitch, double roll, double psi, double theta) {
        BodyAxes.Euler euler = axes(lat, lon, heading, pitch, roll).euler();
        assertThat(euler.psi()).isCloseTo(psi, within(1e-9));
        assertThat(euler.theta()).isCloseTo(theta, within(1e-9));
        assertThat(euler.phi()).isZero();
        BodyAxes.Attitude back = BodyAxes.of(euler).attitudeIn(LocalAxes.at(new Geodetic(lat, lon, 0)));
        assertThat(back.headingTrueDeg()).isCloseTo(heading, within(1e-9));
        assertThat(back.rollDeg()).isCloseTo(roll, within(1e-9));
    }

    @ParameterizedTest
    @CsvSource({
        "45, -100, 5000, -784658.5522, -4450019.7815, 4488426.0396",
        "30.5, -145.25, 6000, -4520626.7812, -3136070.3864, 3219182.7318",
        "-33.25, -120.75, 2500, -2730284.7946, -4589196.1412, -3477596.9642",
        "0, 180, 10000, -6381185.0000, 0.0000, 0.0000",
        "-45, 90, 3000, 0.0000, 4518237.4573, -4487994.9873",
        "70, 10, 35000, 2158281.3514, 380563.2342, 5981064.6480",
        "89.5, 45, 1000, 39491.1546, 39491.1546, 6356813.4258"
    })
    void locationsOfTheWorkedCases(double lat, double lon, double feet, double x, double y, double z) {
        Vector3 ecef = new Geodetic(lat, lon, feet * Units.M_PER_FT).toGeocentric();
        assertThat(ecef.x()).isCloseTo(x, within(6e-5));
        assertThat(ecef.y()).isCloseTo(y, within(6e-5));
        assertThat(ecef.z()).isCloseTo(z, within(6e-5));
        Geodetic back = Geodetic.fromGeocentric(ecef);
        assertThat(back.latitudeDeg()).isCloseTo(lat, within(1e-12));
        assertThat(Math.IEEEremainder(back.longitudeDeg() - lon, 360)).isCloseTo(0, within(1e-12));
        assertThat(back.heightM()).isCloseTo(feet * Units.M_PER_FT, within(1e-8));
    }

    @ParameterizedTest
    @CsvSource({
        "45, -100, 90, 120, 0, 60.795465, -10.719881, 0",
        "45, -100, 5, 100, 500, 10.396394, 33.140402, 38.034342",
        "30.5, -145.25, 262, 118, -700, -35.270251, 48.694570, -9.084216",
        "-33.25, -120.75, 150, 95, 250, 32.322727, 6.536853, -36.091798",
        "0, 180, 45, 250, 1200, -6.096000, -90.941789, 90.941789",
        "-45, 90, 182, 140, -1000, 2.513539, -54.488481, -47.304276",
        "70, 10, 310, 450, 0, -106.912277, -198.926552, 50.894421",
        "89.5, 45, 10, 80, 0, -33.711566, -23.604766, 0.353689"
    })
    void velocitiesOfTheWorkedCases(
            double lat, double lon, double track, double knots, double fpm, double vx, double vy, double vz) {
        AircraftState level = AircraftState.at(0, lat, lon >= 180 ? lon - 360 : lon);
        OptionalDouble none = OptionalDouble.empty();
        AircraftState moving = new AircraftState(
                0,
                level.latitudeDeg(),
                level.longitudeDeg(),
                none,
                none,
                none,
                OptionalDouble.of(track),
                OptionalDouble.of(knots),
                OptionalDouble.of(fpm),
                none,
                none,
                none,
                false);
        byte[] pdu = new DisFormat().newEncoder().encode(moving).get(0);
        ByteBuffer octets = ByteBuffer.wrap(pdu);
        // 1e-6 as printed, plus single precision.
        assertThat((double) octets.getFloat(36)).isCloseTo(vx, within(1e-5));
        assertThat((double) octets.getFloat(40)).isCloseTo(vy, within(1e-5));
        assertThat((double) octets.getFloat(44)).isCloseTo(vz, within(1e-5));
        AircraftState back = Wire.state(new DisFormat().newDecoder().decode(Wire.datagram(pdu)));
        assertThat(back.trackTrueDeg().orElseThrow()).isCloseTo(track, within(1e-4));
        assertThat(back.groundSpeedKt().orElseThrow()).isCloseTo(knots, within(1e-4));
        assertThat(back.verticalSpeedFpm().orElseThrow()).isCloseTo(fpm, within(1e-2));
    }

    @Test
    void anyAttitudeAnywhereSurvivesTheWire() {
        SplittableRandom random = new SplittableRandom(424);
        for (int i = 0; i < 5000; i++) {
            double lat = Math.toDegrees(Math.asin(random.nextDouble(-1, 1)));
            double lon = random.nextDouble(-180, 180);
            BodyAxes.Attitude sent = new BodyAxes.Attitude(
                    random.nextDouble(0, 360), random.nextDouble(-80, 80), random.nextDouble(-180, 180));
            LocalAxes local = LocalAxes.at(new Geodetic(lat, lon, 0));
            BodyAxes.Attitude back =
                    BodyAxes.of(BodyAxes.of(sent, local).euler()).attitudeIn(local);
            assertThat(Math.IEEEremainder(back.headingTrueDeg() - sent.headingTrueDeg(), 360))
                    .isCloseTo(0, within(1e-6));
            assertThat(back.pitchDeg()).isCloseTo(sent.pitchDeg(), within(1e-6));
            assertThat(Math.IEEEremainder(back.rollDeg() - sent.rollDeg(), 360)).isCloseTo(0, within(1e-6));
        }
    }

    @Test
    void everyPlaceSurvivesTheWayThroughTheEarthsCentre() {
        SplittableRandom random = new SplittableRandom(1278);
        for (int i = 0; i < 20_000; i++) {
            double lat = i == 0 ? 90 : i == 1 ? -90 : random.nextDouble(-90, 90);
            double height = random.nextDouble(-400, 20_000);
            Vector3 there = new Geodetic(lat, random.nextDouble(-180, 180), height).toGeocentric();
            Vector3 again = Geodetic.fromGeocentric(there).toGeocentric();
            double error = Vector3.combine(1, there, -1, again, 0, again).length();
            // The series of FootPoint ends where 20 km above the ellipsoid leave 7e-8 m, as an independent calculation
            // found.
            assertThat(error).isLessThan(1e-7);
        }
    }
}
