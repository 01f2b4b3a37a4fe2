package org.rejoin.console.speech;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;

import org.junit.jupiter.api.Test;

/** The noise of a room goes and the voice stays; the transform against its definition. */
class WienerFilterTest {

    private static final int SECOND = Sound.RATE_HZ;

    /** Half a second of pause, a second of a tone that swells like a syllable each 200 ms, half a second of pause. */
    private static float[] spoken() {
        float[] samples = new float[2 * SECOND];
        for (int i = 0; i < SECOND; i++) {
            double swell = Math.abs(Math.sin(Math.PI * i / (0.2 * SECOND)));
            samples[SECOND / 2 + i] = (float) (0.5 * swell * Math.sin(2 * Math.PI * 500 * i / SECOND));
        }
        return samples;
    }

    private static double rms(float[] samples, int from, int to) {
        return Microphone.rms(Sound.of(Arrays.copyOfRange(samples, from, to)));
    }

    @Test
    void thePausesGetQuieterAndTheVoiceStays() {
        float[] clean = spoken();
        float[] noisy = clean.clone();
        Random random = new Random(1);
        for (int i = 0; i < noisy.length; i++) {
            noisy[i] += (float) (0.025 * random.nextGaussian());
        }
        float[] filtered = WienerFilter.of(Sound.of(noisy)).samples();
        assertThat(filtered).hasSameSizeAs(noisy);
        double quieterDb = 20 * Math.log10(rms(noisy, 0, SECOND / 3) / rms(filtered, 0, SECOND / 3));
        assertThat(quieterDb).as("noise in a pause, dB").isBetween(12.0, 20.1);
        double off = 0;
        double noise = 0;
        for (int i = SECOND / 2; i < SECOND + SECOND / 2; i++) {
            off += Math.pow(filtered[i] - clean[i], 2);
            noise += Math.pow(noisy[i] - clean[i], 2);
        }
        assertThat(10 * Math.log10(noise / off)).as("nearer to the voice, dB").isGreaterThan(6);
    }

    @Test
    void aSoundWithoutNoiseAndOneTooShortStayAsTheyAre() {
        float[] clean = spoken();
        float[] filtered = WienerFilter.of(Sound.of(clean)).samples();
        assertThat(rms(filtered, 0, 2 * SECOND)).isCloseTo(rms(clean, 0, 2 * SECOND), within(0.01));
        Sound tooShort = Sound.of(new float[700]);
        assertThat(WienerFilter.of(tooShort)).isEqualTo(tooShort);
        assertThat(WienerFilter.of(Sound.of(new float[0])).seconds()).isZero();
    }

    @Test
    void theTransformIsTheSumOfItsDefinitionAndGoesBack() {
        Random random = new Random(2);
        double[] given = random.doubles(16).toArray();
        double[] real = given.clone();
        double[] imaginary = new double[16];
        WienerFilter.Fourier fourier = new WienerFilter.Fourier(16);
        fourier.forward(real, imaginary);
        for (int k = 0; k < 16; k++) {
            double x = 0;
            double y = 0;
            for (int j = 0; j < 16; j++) {
                x += given[j] * Math.cos(2 * Math.PI * j * k / 16);
                y -= given[j] * Math.sin(2 * Math.PI * j * k / 16);
            }
            assertThat(real[k]).isCloseTo(x, within(1e-12));
            assertThat(imaginary[k]).isCloseTo(y, within(1e-12));
        }
        fourier.back(real, imaginary);
        assertThat(real).containsExactly(given, within(1e-12));
    }
}
