package org.rejoin.protocol.earth;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;

import org.junit.jupiter.api.Test;

/** Earth-centred coordinates to a place: the inverse of a closed form that has no such question, everywhere aircraft fly. */
class GeodeticTest {

    private static void thereAndBack(double latitudeDeg, double longitudeDeg, double heightM) {
        Geodetic there = new Geodetic(latitudeDeg, longitudeDeg, heightM);
        Geodetic back = Geodetic.fromGeocentric(there.toGeocentric());
        String where = there.toString();
        assertThat(back.latitudeDeg()).as(where).isCloseTo(latitudeDeg, within(1e-12));
        assertThat(Math.IEEEremainder(back.longitudeDeg() - longitudeDeg, 360))
                .as(where)
                .isCloseTo(0, within(1e-12));
        assertThat(back.heightM()).as(where).isCloseTo(heightM, within(1e-8));
    }

    @Test
    void anyPlaceComesBack() {
        SplittableRandom random = new SplittableRandom(1976);
        for (int i = 0; i < 100_000; i++) {
            thereAndBack(random.nextDouble(-90, 90), random.nextDouble(-180, 180), random.nextDouble(-400, 20_000));
        }
    }

    @Test
    void polesAndEquatorComeBack() {
        thereAndBack(0, 0, 0);
        thereAndBack(0, -180, 10_000);
        thereAndBack(1e-13, 90, 10_000);
        thereAndBack(89.999999999, 45, 3000);
        for (double pole : new double[] {90, -90}) {
            Geodetic back = Geodetic.fromGeocentric(new Geodetic(pole, 0, 3000).toGeocentric());
            assertThat(back.latitudeDeg()).isCloseTo(pole, within(1e-12));
            assertThat(back.heightM()).isCloseTo(3000, within(4e-9));
        }
        Geodetic exactPole = Geodetic.fromGeocentric(new Vector3(0, 0, 6_356_752.314245179));
        assertThat(exactPole.latitudeDeg()).isEqualTo(90);
        assertThat(exactPole.heightM()).isCloseTo(0, within(4e-9));
    }
}
