package org.rejoin.console.speech;

import java.util.Random;

/**
 * What a clearance sounds like through a radio: the band of a voice channel, hiss, and the burst of noise when the squelch
 * closes. The same sound, noise level and seed give the same samples. Band 300 to 3,000 Hz: common practice, no source;
 * voice on VHF AM carries to 4 kHz at most.
 */
public final class RadioSound {

    private static final double LOW_HZ = 300;
    private static final double HIGH_HZ = 3_000;

    /** Of the two halves of a Butterworth filter of the fourth order: 1 / (2 cos 22.5) and 1 / (2 cos 67.5 degrees). */
    private static final double[] QUALITIES = {0.541196, 1.306563};

    /** Squelch tail, seconds, and its loudness against the voice (judgement, by ear). */
    private static final double TAIL_S = 0.18;

    private static final double TAIL = 0.5;

    /** How far the transmitter drives the voice into its limit (judgement, by ear). */
    private static final double DRIVE = 3;

    private RadioSound() {}

    /**
     * Through the radio: band, limit, hiss, squelch tail.
     *
     * @param voiceOverNoiseDb power of the voice over that of the noise, dB, 0 to 60: 20 loud and clear, 10 hard, 5 hardly
     *     read
     * @return a little longer by the squelch tail; its peak is at nine tenths
     */
    public static Sound of(Sound voice, double voiceOverNoiseDb, long seed) {
        float[] clean = voice.samples();
        int tail = (int) (TAIL_S * Sound.RATE_HZ);
        double[] said = new double[clean.length + tail];
        double peak = peak(clean);
        for (int i = 0; i < clean.length; i++) {
            said[i] = clean[i] / peak;
        }
        band(said);
        for (int i = 0; i < clean.length; i++) {
            said[i] = Math.tanh(DRIVE * said[i]);
        }
        band(said);
        double loud = loudness(said, clean.length);
        Random random = new Random(seed);
        double[] hiss = noise(said.length, random);
        band(hiss);
        double scale = loud / Math.pow(10, voiceOverNoiseDb / 20) / Math.max(1e-12, loudness(hiss, hiss.length));
        double[] burst = noise(tail, random);
        band(burst);
        double burstScale = TAIL * loud / Math.max(1e-12, loudness(burst, tail));
        float[] out = new float[said.length];
        for (int i = 0; i < out.length; i++) {
            int j = i - clean.length;
            double heard = j < 0
                    ? said[i] + scale * hiss[i]
                    : burstScale * burst[j] * Math.min(1, (tail - j) / (0.02 * Sound.RATE_HZ));
            out[i] = (float) heard;
        }
        return levelled(out);
    }

    static double loudness(double[] samples, int length) {
        int block = Sound.RATE_HZ / 50;
        double[] powers = new double[Math.max(1, length / block)];
        double most = 0;
        for (int b = 0; b < powers.length; b++) {
            double sum = 0;
            int end = Math.min(length, (b + 1) * block);
            for (int i = b * block; i < end; i++) {
                sum += samples[i] * samples[i];
            }
            powers[b] = sum / block;
            most = Math.max(most, powers[b]);
        }
        double sum = 0;
        int loud = 0;
        for (double power : powers) {
            if (power > most / 1_000) {
                sum += power;
                loud++;
            }
        }
        return loud == 0 ? 0 : Math.sqrt(sum / loud);
    }

    private static double peak(float[] samples) {
        double peak = 1e-9;
        for (float sample : samples) {
            peak = Math.max(peak, Math.abs(sample));
        }
        return peak;
    }

    static Sound levelled(float[] samples) {
        double scale = 0.9 / peak(samples);
        for (int i = 0; i < samples.length; i++) {
            samples[i] *= (float) scale;
        }
        return Sound.of(samples);
    }

    static double[] noise(int length, Random random) {
        double[] noise = new double[length];
        for (int i = 0; i < length; i++) {
            noise[i] = random.nextGaussian();
        }
        return noise;
    }

    private static void band(double[] samples) {
        for (double quality : QUALITIES) {
            filter(samples, LOW_HZ, quality, true);
            filter(samples, HIGH_HZ, quality, false);
        }
    }

    /**
     * One biquad of the second order, as the Audio EQ Cookbook (R. Bristow-Johnson; W3C Working Group Note, 2021) gives its
     * coefficients.
     */
    private static void filter(double[] samples, double hz, double quality, boolean highPass) {
        double w = 2 * Math.PI * hz / Sound.RATE_HZ;
        double cos = Math.cos(w);
        double alpha = Math.sin(w) / (2 * quality);
        double b1 = highPass ? -(1 + cos) : 1 - cos;
        double b0 = Math.abs(b1) / 2;
        double a0 = 1 + alpha;
        double x1 = 0;
        double x2 = 0;
        double y1 = 0;
        double y2 = 0;
        for (int i = 0; i < samples.length; i++) {
            double x = samples[i];
            double y = (b0 * x + b1 * x1 + b0 * x2 + 2 * cos * y1 - (1 - alpha) * y2) / a0;
            x2 = x1;
            x1 = x;
            y2 = y1;
            y1 = y;
            samples[i] = y;
        }
    }
}
