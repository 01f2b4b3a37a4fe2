package org.rejoin.console.speech;

import java.util.Random;

/** Sounds as a microphone takes them, for the tests of the hearing. */
public final class Microphone {

    private Microphone() {}

    /**
     * A microphone in a room with noise in it, as of fans and engines: pink, so that each octave has as much of it. No radio.
     *
     * @param voiceOverNoiseDb power of the voice over that of the noise, dB
     */
    public static Sound noisy(Sound voice, double voiceOverNoiseDb, long seed) {
        float[] clean = voice.samples();
        double[] noise = pink(clean.length, new Random(seed));
        double scale = spokenRms(clean)
                / Math.pow(10, voiceOverNoiseDb / 20)
                / Math.max(1e-12, RadioSound.loudness(noise, noise.length));
        float[] out = new float[clean.length];
        for (int i = 0; i < out.length; i++) {
            out[i] = (float) (clean[i] + scale * noise[i]);
        }
        return RadioSound.levelled(out);
    }

    /** Loudness while something is said: what is 30 dB below the peak is a pause. */
    private static double spokenRms(float[] samples) {
        double[] same = new double[samples.length];
        for (int i = 0; i < same.length; i++) {
            same[i] = samples[i];
        }
        return RadioSound.loudness(same, same.length);
    }

    /** White noise through three poles that fall by 3 dB an octave together (coefficients of P. Kellet, from memory). */
    private static double[] pink(int length, Random random) {
        double[] noise = RadioSound.noise(length, random);
        double low = 0;
        double middle = 0;
        double high = 0;
        for (int i = 0; i < length; i++) {
            double white = noise[i];
            low = 0.99765 * low + 0.0990460 * white;
            middle = 0.96300 * middle + 0.2965164 * white;
            high = 0.57000 * high + 1.0526913 * white;
            noise[i] = low + middle + high + 0.1848 * white;
        }
        return noise;
    }

    /** How loud it is on average: root of the mean square, 0 to 1; 0 where there is nothing. */
    public static double rms(Sound sound) {
        double sum = 0;
        for (float sample : sound.samples()) {
            sum += (double) sample * sample;
        }
        return sound.samples().length == 0 ? 0 : Math.sqrt(sum / sound.samples().length);
    }

    /** The same with so many seconds of silence at either end. */
    static Sound padded(Sound sound, double seconds) {
        float[] samples = sound.samples();
        int pad = (int) Math.round(seconds * Sound.RATE_HZ);
        float[] longer = new float[samples.length + 2 * pad];
        System.arraycopy(samples, 0, longer, pad, samples.length);
        return Sound.of(longer);
    }
}
