package org.rejoin.bridge.geo;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;

import org.rejoin.protocol.earth.Normal;

import org.junit.jupiter.api.Test;

/** Against the geodesics of GeographicLib. */
class NormalTest {

    private static final double MILLIMETRE_NM = 0.001 / Geodesics.METRES_PER_NM;

    private final Random random = new Random(21);

    @Test
    void aNormalStandsWhereItsPositionIs() {
        for (int i = 0; i < 10_000; i++) {
            Position point = anywhere();
            assertThat(Position.under(point.normal()).distanceNm(point)).isLessThan(1e-9);
        }
    }

    @Test
    void partOfAMileIsThatPartOfTheGeodesicToAMillimetre() {
        double worstNm = 0;
        for (int i = 0; i < 20_000; i++) {
            Position from = anywhere();
            double distanceNm = random.nextDouble();
            double share = random.nextDouble();
            TrueDirection direction = new TrueDirection(360 * random.nextDouble());
            Position to = from.destination(direction, distanceNm);
            Position there = Position.under(Normal.between(from.normal(), to.normal(), share));
            worstNm = Math.max(worstNm, there.distanceNm(from.destination(direction, distanceNm * share)));
        }
        assertThat(worstNm).isLessThan(MILLIMETRE_NM);
    }

    private Position anywhere() {
        double latitude = Math.toDegrees(Math.asin(2 * random.nextDouble() - 1));
        return new Position(latitude, 360 * random.nextDouble() - 180);
    }
}
