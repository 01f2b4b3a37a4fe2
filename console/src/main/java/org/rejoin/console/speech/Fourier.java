package org.rejoin.console.speech;

/** The discrete Fourier transform of a power of two samples (J. W. Cooley and J. W. Tukey, 1965). Pure. */
final class Fourier {

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
