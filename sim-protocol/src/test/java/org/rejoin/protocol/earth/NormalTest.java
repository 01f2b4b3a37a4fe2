package org.rejoin.protocol.earth;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;

import org.junit.jupiter.api.Test;

/** Normals against latitude and longitude, of which they are made by a closed form. */
class NormalTest {

    /** From a kilometre below the ellipsoid to the edge of space. */
    private static final double LOWEST_M = -1_000;

    private static final double HIGHEST_M = 100_000;

    private final SplittableRandom random = new SplittableRandom(1985);

    @Test
    void belowAnAircraftItIsRightToAHundredthOfAMillimetre() {
        FootPoint below = new FootPoint();
        double worstM = 0;
        double worstHeightM = 0;
        for (int i = 0; i < 100_000; i++) {
            Geodetic place = new Geodetic(
                    random.nextDouble(-90, 90), random.nextDouble(-180, 180), random.nextDouble(LOWEST_M, HIGHEST_M));
            Vector3 there = place.toGeocentric();
            below.locate(there.x(), there.y(), there.z());
            Normal up = Normal.at(place.latitudeDeg(), place.longitudeDeg());
            worstM = Math.max(worstM, Geodetic.A * below.normal().angleTo(up));
            worstHeightM = Math.max(worstHeightM, Math.abs(below.heightM() - place.heightM()));
        }
        assertThat(worstM).as("metres beside").isLessThan(1e-5);
        assertThat(worstHeightM).as("metres of height").isLessThan(1e-5);
    }

    @Test
    void latitudeAndLongitudeComeBack() {
        for (int i = 0; i < 100_000; i++) {
            double latitudeDeg = random.nextDouble(-90, 90);
            double longitudeDeg = random.nextDouble(-180, 180);
            Normal up = Normal.at(latitudeDeg, longitudeDeg);
            assertThat(up.latitudeDeg()).isCloseTo(latitudeDeg, within(1e-13));
            assertThat(up.longitudeDeg()).isCloseTo(longitudeDeg, within(1e-13));
        }
        assertThat(new Normal(0, 0, 1).latitudeDeg()).isEqualTo(90);
        assertThat(new Normal(0, 0, -1).latitudeDeg()).isEqualTo(-90);
        assertThat(new Normal(-1, 0, 0).longitudeDeg()).isEqualTo(-180);
    }

    /** On a meridian the angle is the difference of the latitudes: from a metre to half a turn, past the end of the series. */
    @Test
    void theAngleBetweenTwoOfAMeridianIsTheDifferenceOfTheirLatitudes() {
        for (double apartDeg : new double[] {0, 1e-5, 0.01, 0.5, 0.57, 0.58, 30, 90, 150, 180}) {
            double angle = Normal.at(-90, 25).angleTo(Normal.at(apartDeg - 90, 25));
            assertThat(angle)
                    .as("%s degrees", apartDeg)
                    .isCloseTo(Math.toRadians(apartDeg), within(1e-9 * apartDeg + 1e-15));
        }
    }
}
