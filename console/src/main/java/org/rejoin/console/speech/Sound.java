package org.rejoin.console.speech;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;

/**
 * Sound as it is spoken and heard here: one channel, {@value #RATE_HZ} samples a second. Read from and written as WAV
 * (Multimedia Programming Interface and Data Specifications 1.0, 1991: RIFF, PCM).
 */
public final class Sound {

    /** Samples a second. */
    public static final int RATE_HZ = 16_000;

    private static final int HEAD = 44;
    private static final int PCM = 1;
    private static final int EXTENSIBLE = 0xFFFE;
    private static final double FULL = 32_768;

    /** Reach of the interpolation on either side, in periods of the lower rate (judgement: aliases 70 dB down). */
    private static final int REACH = 16;

    private final float[] samples;

    private Sound(float[] samples) {
        this.samples = samples;
    }

    /** Sound of these samples; 1 is the loudest that a file can hold. */
    public static Sound of(float[] samples) {
        return new Sound(samples.clone());
    }

    /** {@return the samples; a copy; 1 is the loudest that a file can hold} */
    public float[] samples() {
        return samples.clone();
    }

    /** {@return how long it is, seconds} */
    public double seconds() {
        return samples.length / (double) RATE_HZ;
    }

    /** As a WAV file, 16 bits a sample, one channel. */
    public byte[] wav() {
        ByteBuffer out = ByteBuffer.allocate(HEAD + 2 * samples.length).order(ByteOrder.LITTLE_ENDIAN);
        out.put("RIFF".getBytes(StandardCharsets.US_ASCII)).putInt(HEAD - 8 + 2 * samples.length);
        out.put("WAVEfmt ".getBytes(StandardCharsets.US_ASCII)).putInt(16);
        out.putShort((short) PCM).putShort((short) 1).putInt(RATE_HZ).putInt(2 * RATE_HZ);
        out.putShort((short) 2).putShort((short) 16);
        out.put("data".getBytes(StandardCharsets.US_ASCII)).putInt(2 * samples.length);
        for (float sample : samples) {
            long scaled = Math.round(sample * FULL);
            out.putShort((short) Math.max(Short.MIN_VALUE, Math.min(Short.MAX_VALUE, scaled)));
        }
        return out.array();
    }

    /**
     * Reads a file.
     *
     * @param wav PCM of 16 bits, one or two channels (the first is taken), 8,000 to 48,000 samples a second. A length in its
     *     head beyond its end, as of a file that was written to a pipe, means up to the end
     * @param mostS the longest that is taken, seconds
     * @throws IOException if it is no such file, or longer; one line
     */
    public static Sound read(byte[] wav, double mostS) throws IOException {
        if (wav.length < 12 || !text(wav, 0).equals("RIFF") || !text(wav, 8).equals("WAVE")) {
            throw new IOException("no WAV file: it does not begin with RIFF and WAVE");
        }
        ByteBuffer in = ByteBuffer.wrap(wav).order(ByteOrder.LITTLE_ENDIAN);
        int channels = 0;
        int rate = 0;
        long at = 12;
        while (at + 8 <= wav.length) {
            String name = text(wav, (int) at);
            long size = Integer.toUnsignedLong(in.getInt((int) at + 4));
            int from = (int) at + 8;
            if (name.equals("fmt ") && size >= 16 && from + 16 <= wav.length) {
                int kind = Short.toUnsignedInt(in.getShort(from));
                channels = in.getShort(from + 2);
                rate = in.getInt(from + 4);
                int bits = in.getShort(from + 14);
                if ((kind != PCM && kind != EXTENSIBLE) || bits != 16 || channels < 1 || channels > 2) {
                    throw new IOException("WAV of another kind: 16 bits a sample, one or two channels would be right");
                }
                if (rate < 8_000 || rate > 48_000) {
                    throw new IOException("WAV of " + rate + " samples a second: 8,000 to 48,000 would be right");
                }
            } else if (name.equals("data")) {
                if (rate == 0) {
                    throw new IOException("WAV without a format before its sound");
                }
                long octets = Math.min(size, wav.length - from);
                int count = (int) (octets / (2L * channels));
                if (count > mostS * rate) {
                    throw new IOException(
                            "the sound is longer than " + Math.round(mostS) + " s, which is the most that is taken");
                }
                float[] samples = new float[count];
                for (int i = 0; i < count; i++) {
                    samples[i] = (float) (in.getShort(from + 2 * channels * i) / FULL);
                }
                return new Sound(resampled(samples, rate));
            }
            at = from + size + (size & 1);
        }
        throw new IOException("WAV without sound in it");
    }

    private static String text(byte[] wav, int at) {
        return at + 4 > wav.length ? "" : new String(wav, at, 4, StandardCharsets.ISO_8859_1);
    }

    /** Band-limited interpolation: a sinc of the lower of the two rates under a Blackman window. */
    private static float[] resampled(float[] from, int rate) {
        if (rate == RATE_HZ) {
            return from;
        }
        double ratio = rate / (double) RATE_HZ;
        double cut = Math.min(1, 1 / ratio) * 0.95;
        double reach = REACH / cut;
        float[] to = new float[(int) (from.length / ratio)];
        for (int i = 0; i < to.length; i++) {
            double at = i * ratio;
            int first = Math.max(0, (int) Math.ceil(at - reach));
            int last = Math.min(from.length - 1, (int) Math.floor(at + reach));
            double sum = 0;
            for (int j = first; j <= last; j++) {
                double x = at - j;
                double window = 0.42 + 0.5 * Math.cos(Math.PI * x / reach) + 0.08 * Math.cos(2 * Math.PI * x / reach);
                sum += from[j] * window * (x == 0 ? cut : Math.sin(Math.PI * cut * x) / (Math.PI * x));
            }
            to[i] = (float) sum;
        }
        return to;
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Sound sound && Arrays.equals(samples, sound.samples);
    }

    @Override
    public int hashCode() {
        return Arrays.hashCode(samples);
    }
}
