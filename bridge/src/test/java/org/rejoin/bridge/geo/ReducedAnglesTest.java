package org.rejoin.bridge.geo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ReducedAnglesTest {

    @ParameterizedTest
    @CsvSource({
        "0,0",
        "360,0",
        "-0.0,0",
        "-1e-20,0",
        "359.5,359.5",
        "361,1",
        "-90,270",
        "720,0",
        "-725,355",
        "1e-300,1e-300"
    })
    void directionsRunFromZeroUpTo360(double deg, double expected) {
        assertThat(Angles.circle(deg)).isEqualTo(expected);
        assertThat(new TrueDirection(deg).deg()).isEqualTo(expected);
        assertThat(new MagneticDirection(deg).deg()).isEqualTo(expected);
        assertThat(new Radial(deg).deg()).isEqualTo(expected);
    }

    @ParameterizedTest
    @CsvSource({
        "0,0",
        "180,-180",
        "-180,-180",
        "181,-179",
        "-181,179",
        "540,-180",
        "-0.0,0",
        "-55.1,-55.1",
        "179.9,179.9",
        "725,5"
    })
    void turnsRunFromMinus180UpTo180(double deg, double expected) {
        assertThat(Angles.turn(deg)).isEqualTo(expected);
    }

    @ParameterizedTest
    @ValueSource(doubles = {-55.1, -0.1, -179.99999, 0.1, 12.345678901234567, -180})
    void aLongitudeInRangeIsKeptToTheLastBit(double longitude) {
        assertThat(new Position(10, longitude).longitudeDeg()).isEqualTo(longitude);
    }

    @Test
    void longitudesBeyond180AreFolded() {
        assertThat(new Position(10, 180).longitudeDeg()).isEqualTo(-180);
        assertThat(new Position(10, 359).longitudeDeg()).isEqualTo(-1);
        assertThat(new Position(-0.0, -0.0)).isEqualTo(new Position(0, 0));
    }

    @Test
    void positionsOffTheGlobeAreRefused() {
        for (double latitude : new double[] {91, -90.0001, Double.NaN, Double.POSITIVE_INFINITY}) {
            assertThatThrownBy(() -> new Position(latitude, 0))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessageContaining("latitude " + latitude)
                    .hasMessageContaining("is not in -90 to 90 degrees");
        }
        for (double longitude : new double[] {-180.0001, 540, Double.NaN, Double.NEGATIVE_INFINITY}) {
            assertThatThrownBy(() -> new Position(0, longitude))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessageContaining("longitude " + longitude);
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
    void directionsThatAreNotNumbersAreRefused(double deg) {
        assertThatThrownBy(() -> new TrueDirection(deg)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new MagneticDirection(deg)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Radial(deg)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Variation(deg)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Declination(deg)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void headingsGoByVariationAndRadialsByDeclination() {
        assertThat(new MagneticDirection(110).toTrue(new Variation(-15.2065)).deg())
                .isCloseTo(94.7935, within(1e-9));
        assertThat(new TrueDirection(5).toMagnetic(new Variation(10)).deg()).isCloseTo(355, within(1e-9));
        assertThat(new Radial(253).toTrue(new Declination(-17)).deg()).isCloseTo(236, within(1e-9));
        assertThat(Radial.of(new TrueDirection(60), new Declination(-18)).deg()).isCloseTo(78, within(1e-9));
        assertThat(new Radial(253).reciprocal()).isEqualTo(new Radial(73));
    }

    @Test
    void theShortWayRoundIsRightPositive() {
        assertThat(new TrueDirection(350).turnTo(new TrueDirection(10))).isEqualTo(20);
        assertThat(new TrueDirection(10).turnTo(new TrueDirection(350))).isEqualTo(-20);
        assertThat(new MagneticDirection(0).turnTo(new MagneticDirection(180))).isEqualTo(-180);
    }

    /** One is one degree; what rounds to nothing has no minus. */
    @Test
    void anglesInWordsAndWithTheirSign() {
        assertThat(Angles.degrees(46.4)).isEqualTo("46 degrees");
        assertThat(Angles.degrees(1.49)).isEqualTo("1 degree");
        assertThat(Angles.degrees(0.4)).isEqualTo("0 degrees");
        assertThat(Angles.signed(1.281, 2)).isEqualTo("+1.28");
        assertThat(Angles.signed(-0.5, 1)).isEqualTo("-0.5");
        assertThat(Angles.signed(-0.004, 2)).isEqualTo("+0.00");
        assertThat(Angles.signed(-0.0, 2)).isEqualTo("+0.00");
    }
}
