package org.rejoin.console.practice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import java.util.function.ToDoubleFunction;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Gusts against MIL-F-8785C (1980), 3.7: scale lengths and standard deviations by height, and the spectra by their
 * autocorrelations, sigma^2 exp(-r / L) along the path and sigma^2 exp(-r / L) (1 - r / (2 L)) across it and up (Fourier
 * transforms of the specification's spectra, worked out by hand). Formulas read in public descriptions of the specification;
 * the values at 3,750 ft and 7,500 ft are those of its figure 7, from memory.
 */
class DrydenGustsTest {

    private static final double FPS = 1852 / 0.3048 / 3600;

    @ParameterizedTest
    @CsvSource({
        // height, wind at 20 ft, horizontal and vertical scale in feet, horizontal and vertical deviation in knots
        "100, 15, 100 / (0.177 + 0.0823)^1.2, 505.2, 100, 2.574, 1.5",
        "500, 30, 500 / (0.177 + 0.4115)^1.2, 944.7, 500, 3.709, 3.0",
        "1000, 45, 1000 / 1.0^1.2, 1000, 1000, 4.5, 4.5"
    })
    void lowDownScalesAndDeviationsFollowTheHeight(
            double heightFt, double windKt, String how, double lu, double lw, double su, double sw) {
        Turbulence air = Turbulence.at(heightFt, windKt);
        assertThat(air.horizontalScaleFt()).as(how).isCloseTo(lu, within(lu * 0.002));
        assertThat(air.verticalScaleFt()).isCloseTo(lw, within(1e-9));
        assertThat(air.horizontalKt()).isCloseTo(su, within(0.003));
        assertThat(air.verticalKt()).isCloseTo(sw, within(1e-9));
    }

    @ParameterizedTest
    @CsvSource({"3750, 15, 7.4", "3750, 30, 10.6", "3750, 45, 23.0", "7500, 15, 6.7", "7500, 30, 10.1", "15000, 15, 4.6"
    })
    void higherUpTheyAreTheSameInAllDirections(double heightFt, double windKt, double deviationFps) {
        Turbulence air = Turbulence.at(heightFt, windKt);
        assertThat(air.horizontalScaleFt()).isEqualTo(1750);
        assertThat(air.verticalScaleFt()).isEqualTo(1750);
        assertThat(air.horizontalKt() * FPS).isCloseTo(deviationFps, within(1e-9));
        assertThat(air.verticalKt() * FPS).isCloseTo(deviationFps, within(1e-9));
    }

    @Test
    void betweenTheTwoModelsNothingJumps() {
        for (double edge : new double[] {1000, 2000}) {
            Turbulence below = Turbulence.at(edge - 0.01, 22);
            Turbulence above = Turbulence.at(edge + 0.01, 22);
            assertThat(below.horizontalScaleFt()).isCloseTo(above.horizontalScaleFt(), within(0.1));
            assertThat(below.verticalKt()).isCloseTo(above.verticalKt(), within(0.01));
        }
    }

    @ParameterizedTest
    @CsvSource({"5000, 30, 0.05", "5000, 30, 0.5", "500, 15, 0.1"})
    void standardDeviationAndScaleLengthAreThoseAskedFor(double heightFt, double windKt, double stepS) {
        Turbulence air = Turbulence.at(heightFt, windKt);
        check(heightFt, windKt, stepS, DrydenGusts.Gust::alongKt, air.horizontalKt(), air.horizontalScaleFt(), false);
        check(heightFt, windKt, stepS, DrydenGusts.Gust::acrossKt, air.horizontalKt(), air.horizontalScaleFt(), true);
        check(heightFt, windKt, stepS, DrydenGusts.Gust::upKt, air.verticalKt(), air.verticalScaleFt(), true);
    }

    /** Half a million steps or two thousand scale lengths; the estimate of a variance scatters by some four per cent. */
    private static void check(
            double heightFt,
            double windKt,
            double stepS,
            ToDoubleFunction<DrydenGusts.Gust> component,
            double deviationKt,
            double scaleFt,
            boolean second) {
        double speedKt = 150;
        DrydenGusts gusts = new DrydenGusts(new SplittableRandom(7), windKt);
        double stepFt = stepS * speedKt * FPS;
        int n = (int) Math.max(500_000, 2000 * scaleFt / stepFt);
        double[] value = new double[n];
        for (int i = 0; i < n; i++) {
            value[i] = component.applyAsDouble(gusts.next(stepS, speedKt, heightFt));
        }
        assertThat(Math.sqrt(product(value, 0))).isCloseTo(deviationKt, within(deviationKt * 0.05));
        for (double lengths : new double[] {0.25, 0.5, 1, 2}) {
            int lag = (int) Math.round(lengths * scaleFt / stepFt);
            double r = lag * stepFt / scaleFt;
            double expected = Math.exp(-r) * (second ? 1 - r / 2 : 1);
            assertThat(product(value, lag) / product(value, 0)).as("r/L " + r).isCloseTo(expected, within(0.06));
        }
    }

    private static double product(double[] value, int lag) {
        double sum = 0;
        for (int i = lag; i < value.length; i++) {
            sum += value[i] * value[i - lag];
        }
        return sum / (value.length - lag);
    }

    @Test
    void theSameSeedGivesTheSameGustsAndNoWindGivesNone() {
        DrydenGusts one = new DrydenGusts(new SplittableRandom(3), 20);
        DrydenGusts other = new DrydenGusts(new SplittableRandom(3), 20);
        for (int i = 0; i < 100; i++) {
            assertThat(one.next(0.05, 120, 4000)).isEqualTo(other.next(0.05, 120, 4000));
        }
        assertThat(new DrydenGusts(new SplittableRandom(3), 0).next(0.05, 120, 4000))
                .isEqualTo(DrydenGusts.Gust.NONE);
    }
}
