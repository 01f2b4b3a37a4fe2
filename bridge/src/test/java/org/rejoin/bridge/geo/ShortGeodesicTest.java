package org.rejoin.bridge.geo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;

import org.junit.jupiter.api.Test;

/** Short geodesics by their chord against GeographicLib (C. F. F. Karney), as {@link Position#to} asks it. */
class ShortGeodesicTest {

    private static final double MILLIMETRE_NM = 1e-3 / 1852;

    @Test
    void a_short_geodesic_is_as_long_as_the_library_says_and_goes_the_same_way() {
        Random random = new Random(11);
        double length = 0;
        double initial = 0;
        double onward = 0;
        int asked = 0;
        for (int i = 0; i < 200_000; i++) {
            Position from = new Position(random.nextDouble() * 178 - 89, random.nextDouble() * 360 - 180);
            double distanceNm = ShortGeodesic.LONGEST_NM * Math.pow(10, -3 * random.nextDouble());
            Position to = from.destination(new TrueDirection(random.nextDouble() * 360), distanceNm);
            if (!ShortGeodesic.reaches(from.normal(), to.normal())) {
                continue;
            }
            Geodesics.Inverse exact = from.to(to);
            ShortGeodesic near = ShortGeodesic.between(from.normal(), to.normal());
            asked++;
            length = Math.max(length, Math.abs(near.distanceNm() - exact.distanceNm()));
            // An azimuth counts as what it moves the far end by.
            initial = Math.max(initial, apart(near.initialDeg(), exact.initial()) * exact.distanceNm());
            onward = Math.max(onward, apart(near.onwardDeg(), exact.onward()) * exact.distanceNm());
        }
        assertThat(asked).isGreaterThan(150_000);
        assertThat(length).isLessThan(MILLIMETRE_NM);
        assertThat(initial).isLessThan(MILLIMETRE_NM);
        assertThat(onward).isLessThan(MILLIMETRE_NM);
    }

    @Test
    void farther_apart_and_at_a_pole_the_library_is_asked() {
        Position from = new Position(38, -50);
        for (Position to : new Position[] {
            from.destination(new TrueDirection(70), ShortGeodesic.LONGEST_NM + 1), new Position(90, 0)
        }) {
            Geodesics.Inverse exact = from.to(to);
            Geodesics.Inverse asked = Geodesics.between(from.normal(), to.normal());
            assertThat(asked.distanceNm()).isCloseTo(exact.distanceNm(), within(MILLIMETRE_NM));
            assertThat(apart(asked.initial().deg(), exact.initial())).isLessThan(1e-9);
        }
    }

    private static double apart(double deg, TrueDirection other) {
        return Math.toRadians(Math.abs(Angles.turn(deg - other.deg())));
    }
}
