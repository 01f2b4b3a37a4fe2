package org.rejoin.console.speech;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Radio sound is what its numbers say, and the same each time. */
class RadioSoundTest {

    private static Sound tone(double hz, double seconds) {
        float[] samples = new float[(int) (seconds * Sound.RATE_HZ)];
        for (int i = 0; i < samples.length; i++) {
            samples[i] = (float) (0.5 * Math.sin(2 * Math.PI * hz * i / Sound.RATE_HZ));
        }
        return Sound.of(samples);
    }

    /** Amplitude of one frequency in the middle second of a sound (Goertzel's sum). */
    private static double at(Sound sound, double hz) {
        float[] samples = sound.samples();
        double re = 0;
        double im = 0;
        int from = Sound.RATE_HZ / 2;
        for (int i = from; i < from + Sound.RATE_HZ; i++) {
            re += samples[i] * Math.cos(2 * Math.PI * hz * i / Sound.RATE_HZ);
            im += samples[i] * Math.sin(2 * Math.PI * hz * i / Sound.RATE_HZ);
        }
        return 2 * Math.hypot(re, im) / Sound.RATE_HZ;
    }

    @Test
    void theSameSeedGivesTheSameSoundAndAnotherAnother() {
        Sound voice = tone(700, 1);
        assertThat(RadioSound.of(voice, 20, 7).wav())
                .isEqualTo(RadioSound.of(voice, 20, 7).wav());
        assertThat(RadioSound.of(voice, 20, 8).wav())
                .isNotEqualTo(RadioSound.of(voice, 20, 7).wav());
    }

    @ParameterizedTest
    @CsvSource({"20", "10", "5"})
    void theVoiceIsSoMuchOverTheNoise(double db) {
        // A long pause after the tone: there is nothing but hiss, before the squelch tail.
        float[] samples = new float[2 * Sound.RATE_HZ];
        System.arraycopy(tone(1_000, 1).samples(), 0, samples, 0, Sound.RATE_HZ);
        float[] heard = RadioSound.of(Sound.of(samples), db, 1).samples();
        double voice = rms(heard, 4_000, 12_000);
        double hiss = rms(heard, 20_000, 28_000);
        double snr = 10 * Math.log10((voice * voice - hiss * hiss) / (hiss * hiss));
        assertThat(snr).isCloseTo(db, within(1.0));
    }

    private static double rms(float[] samples, int from, int to) {
        double sum = 0;
        for (int i = from; i < to; i++) {
            sum += (double) samples[i] * samples[i];
        }
        return Math.sqrt(sum / (to - from));
    }

    /** Fourth-order Butterworth filters, gone through twice: 6 dB down at either corner (3 dB each), steep beyond. */
    @Test
    void theBandIsThatOfAVoiceChannel() {
        double middle = at(RadioSound.of(tone(1_000, 2), 60, 1), 1_000);
        for (double hz : new double[] {500, 2_000}) {
            assertThat(20 * Math.log10(at(RadioSound.of(tone(hz, 2), 60, 1), hz) / middle))
                    .isCloseTo(0, within(2.0));
        }
        // Each sound is brought to one peak: a low tone is all there is, so a chord tells.
        Sound chord = Sound.of(sum(
                tone(150, 2).samples(), tone(1_000, 2).samples(), tone(5_000, 2).samples()));
        Sound heard = RadioSound.of(chord, 60, 1);
        assertThat(20 * Math.log10(at(heard, 150) / at(heard, 1_000))).isLessThan(-20);
        assertThat(20 * Math.log10(at(heard, 5_000) / at(heard, 1_000))).isLessThan(-12);
    }

    private static float[] sum(float[]... all) {
        float[] sum = new float[all[0].length];
        for (float[] each : all) {
            for (int i = 0; i < sum.length; i++) {
                sum[i] += each[i] / all.length;
            }
        }
        return sum;
    }

    @Test
    void aFileIsReadAsItWasWritten() throws IOException {
        Sound tone = tone(440, 0.5);
        assertThat(Sound.read(tone.wav(), 1).wav()).isEqualTo(tone.wav());
        assertThat(Sound.read(tone.wav(), 1).seconds()).isEqualTo(0.5);
    }

    @Test
    void whatIsNoSoundIsSaidInOneLine() {
        byte[] wav = tone(440, 0.5).wav();
        assertThatThrownBy(() -> Sound.read(wav, 0.4))
                .isInstanceOf(IOException.class)
                .hasMessageContaining("longer");
        assertThatThrownBy(() -> Sound.read(new byte[100], 1)).hasMessageContaining("RIFF");
        byte[] eight = wav.clone();
        eight[34] = 8;
        assertThatThrownBy(() -> Sound.read(eight, 1)).hasMessageContaining("16 bits");
        for (int length = 0; length < 60; length++) {
            byte[] torn = java.util.Arrays.copyOf(wav, length);
            try {
                Sound.read(torn, 1);
            } catch (IOException e) {
                assertThat(e.getMessage()).doesNotContain("\n");
            }
        }
    }
}
