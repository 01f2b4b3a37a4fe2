package org.rejoin.console.speech;

import java.util.Arrays;

/**
 * Takes the steady noise of a room out of a sound, so that an s that is hardly louder is still heard. The noise is learnt from
 * the pauses of the whole sound, before and after the speech, too, where the recogniser's own noise removal has heard only what
 * came before. Each frequency is passed on by what of its power is speech (Wiener), which is followed from frame to frame (the
 * decision-directed estimate of Y. Ephraim and D. Malah, 1984, with the gain of P. Scalart and J. Vieira Filho, 1996). Pure.
 */
final class WienerFilter {

    /** A frame, samples: 32 ms, in which speech stays the same. */
    private static final int LENGTH = 512;

    private static final int HOP = LENGTH / 4;

    /** Of all frames the quietest tenth are taken for pauses: a breath before and after, and between clauses (judgement). */
    private static final int PAUSES = 10;

    /** How much of the last frame's speech is expected in the next (0.98 in the paper for a longer hop; 0.96 is the only value tried). */
    private static final double MEMORY = 0.96;

    /** What is left of the noise, as an amplitude: without it speech sounds torn, and the recogniser is misled. */
    private static final double LEAST_GAIN = 0.1;

    /** Power of digital silence: a microphone that was shut. */
    private static final double NOTHING = 1e-9;

    private static final Fourier FOURIER = new Fourier(LENGTH);
    private static final double[] WINDOW = window();

    private WienerFilter() {}

    /** Without the noise, and as long; the same where it has no pause to learn from. */
    static Sound of(Sound noisy) {
        float[] samples = noisy.samples();
        // Each sample lies in four frames, the first and the last, too.
        int frames = (samples.length + LENGTH) / HOP;
        double[][] real = new double[frames][];
        double[][] imaginary = new double[frames][];
        for (int f = 0; f < frames; f++) {
            real[f] = frame(samples, begin(f));
            imaginary[f] = new double[LENGTH];
            FOURIER.forward(real[f], imaginary[f]);
        }
        double[] noise = noise(real, imaginary, samples.length);
        if (noise.length == 0) {
            return noisy;
        }
        double[] filtered = new double[samples.length];
        double[] speech = new double[noise.length];
        for (int f = 0; f < frames; f++) {
            filter(real[f], imaginary[f], noise, speech);
            FOURIER.back(real[f], imaginary[f]);
            for (int i = Math.max(0, -begin(f)); i < LENGTH && begin(f) + i < samples.length; i++) {
                // Four squares of the window one upon another are 2 everywhere.
                filtered[begin(f) + i] += real[f][i] * WINDOW[i] / 2;
            }
        }
        for (int i = 0; i < samples.length; i++) {
            samples[i] = (float) filtered[i];
        }
        return Sound.of(samples);
    }

    /** The square root of Hann's. */
    private static double[] window() {
        double[] window = new double[LENGTH];
        for (int i = 0; i < LENGTH; i++) {
            window[i] = Math.sin(Math.PI * i / LENGTH);
        }
        return window;
    }

    private static int begin(int frame) {
        return (frame + 1) * HOP - LENGTH;
    }

    private static double[] frame(float[] samples, int begin) {
        double[] frame = new double[LENGTH];
        for (int i = Math.max(0, -begin); i < LENGTH && begin + i < samples.length; i++) {
            frame[i] = samples[begin + i] * WINDOW[i];
        }
        return frame;
    }

    /** Mean power of the pauses by frequency; empty where there is too little sound. */
    private static double[] noise(double[][] real, double[][] imaginary, int length) {
        double[] energies = new double[real.length];
        for (int f = 0; f < real.length; f++) {
            boolean whole = begin(f) >= 0 && begin(f) + LENGTH <= length;
            for (int k = 0; k <= LENGTH / 2; k++) {
                energies[f] += power(real[f], imaginary[f], k);
            }
            if (!whole || energies[f] < NOTHING) {
                energies[f] = Double.POSITIVE_INFINITY;
            }
        }
        double[] sorted =
                Arrays.stream(energies).filter(Double::isFinite).sorted().toArray();
        if (sorted.length < PAUSES) {
            return new double[0];
        }
        double quiet = sorted[sorted.length / PAUSES];
        double[] noise = new double[LENGTH / 2 + 1];
        int count = 0;
        for (int f = 0; f < energies.length; f++) {
            if (energies[f] <= quiet) {
                count++;
                for (int k = 0; k < noise.length; k++) {
                    noise[k] += power(real[f], imaginary[f], k);
                }
            }
        }
        for (int k = 0; k < noise.length; k++) {
            noise[k] = noise[k] / count + 1e-12;
        }
        return noise;
    }

    /** One frame, in place; {@code speech} is the power of the last one's speech before and of this one's after. */
    private static void filter(double[] real, double[] imaginary, double[] noise, double[] speech) {
        for (int k = 0; k < noise.length; k++) {
            double power = power(real, imaginary, k);
            double speechOverNoise = MEMORY * speech[k] / noise[k] + (1 - MEMORY) * Math.max(0, power / noise[k] - 1);
            double gain = Math.max(LEAST_GAIN, speechOverNoise / (1 + speechOverNoise));
            speech[k] = gain * gain * power;
            scale(real, imaginary, k, gain);
            if (k > 0 && k < LENGTH / 2) {
                scale(real, imaginary, LENGTH - k, gain);
            }
        }
    }

    private static void scale(double[] real, double[] imaginary, int at, double gain) {
        real[at] *= gain;
        imaginary[at] *= gain;
    }

    private static double power(double[] real, double[] imaginary, int at) {
        return real[at] * real[at] + imaginary[at] * imaginary[at];
    }

    /** The discrete Fourier transform of a power of two samples (J. W. Cooley and J. W. Tukey, 1965). Pure. */
    static final class Fourier {

        private final double[] cos;
        private final double[] sin;

        /** Of so many samples, a power of two. */
        Fourier(int length) {
            this.cos = new double[length / 2];
            this.sin = new double[length / 2];
            for (int i = 0; i < length / 2; i++) {
                cos[i] = Math.cos(2 * Math.PI * i / length);
                sin[i] = Math.sin(2 * Math.PI * i / length);
            }
        }

        /** Samples into their spectrum, in place: the sum of x exp(-2 pi i j k / length). */
        void forward(double[] real, double[] imaginary) {
            transform(real, imaginary, -1);
        }

        /** A spectrum into its samples, in place. */
        void back(double[] real, double[] imaginary) {
            transform(real, imaginary, 1);
            for (int i = 0; i < real.length; i++) {
                real[i] /= real.length;
                imaginary[i] /= real.length;
            }
        }

        private void transform(double[] real, double[] imaginary, int sign) {
            int length = real.length;
            int bits = Integer.numberOfTrailingZeros(length);
            for (int i = 0; i < length; i++) {
                int j = Integer.reverse(i) >>> (Integer.SIZE - bits);
                if (i < j) {
                    swap(real, i, j);
                    swap(imaginary, i, j);
                }
            }
            for (int half = 1; half < length; half *= 2) {
                int turn = length / (2 * half);
                for (int from = 0; from < length; from += 2 * half) {
                    for (int k = 0; k < half; k++) {
                        int one = from + k;
                        int other = one + half;
                        double c = cos[k * turn];
                        double s = sign * sin[k * turn];
                        double x = real[other] * c - imaginary[other] * s;
                        double y = real[other] * s + imaginary[other] * c;
                        real[other] = real[one] - x;
                        imaginary[other] = imaginary[one] - y;
                        real[one] += x;
                        imaginary[one] += y;
                    }
                }
            }
        }

        private static void swap(double[] values, int i, int j) {
            double kept = values[i];
            values[i] = values[j];
            values[j] = kept;
        }
    }
}
