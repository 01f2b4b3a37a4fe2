package org.rejoin.console.practice;

import java.util.random.RandomGenerator;

/**
 * Gusts with the Dryden spectra of MIL-F-8785C (1980), 3.7: white noise through the forming filters sqrt(2 L / V) / (1 + (L
 * / V) s) along the path and sqrt(L / V) (1 + sqrt(3) (L / V) s) / (1 + (L / V) s)^2 across it and up (read in public
 * descriptions of the specification), for a field that stands still while the aircraft flies through it. The filters are
 * advanced by their exact solution over each step, so that the statistics do not depend on the step. The roll is a first-order
 * process of standard deviation 1.9 sigma / sqrt(L b) and length sqrt(L b) / 2.6 (MIL-HDBK-1797; from memory), b the span.
 *
 * <p>The same seed gives the same gusts. Confined to one thread.
 */
public final class DrydenGusts {

    /** Wing span of a light aircraft, feet; common practice, no source. */
    private static final double SPAN_FT = 36;

    private final RandomGenerator random;
    private final double windAt20FtKt;
    private final Filter along = new Filter();
    private final Filter across = new Filter();
    private final Filter up = new Filter();
    private final Filter roll = new Filter();

    /** Gusts of the wind at 20 ft, knots, as in {@link Turbulence#at}. */
    public DrydenGusts(RandomGenerator random, double windAt20FtKt) {
        this.random = random;
        this.windAt20FtKt = windAt20FtKt;
    }

    /**
     * The gust after one more step, seconds, at a true airspeed in knots, both above 0, and a height above the surface
     * in feet.
     */
    public Gust next(double stepS, double trueAirspeedKt, double heightFt) {
        if (windAt20FtKt == 0) {
            return Gust.NONE;
        }
        Turbulence air = Turbulence.at(heightFt, windAt20FtKt);
        double wayFt = stepS * trueAirspeedKt * Turbulence.FPS_PER_KT;
        along.advance(wayFt / air.horizontalScaleFt());
        across.advance(wayFt / air.horizontalScaleFt());
        up.advance(wayFt / air.verticalScaleFt());
        double rollScaleFt = Math.sqrt(air.verticalScaleFt() * SPAN_FT);
        roll.advance(wayFt * 2.6 / rollScaleFt);
        double rollDegPerS =
                Math.toDegrees(1.9 * air.verticalKt() * Turbulence.FPS_PER_KT / rollScaleFt) * roll.firstOrder();
        return new Gust(
                air.horizontalKt() * along.firstOrder(),
                air.horizontalKt() * across.secondOrder(),
                air.verticalKt() * up.secondOrder(),
                rollDegPerS);
    }

    /**
     * A cascade of two equal lags driven by white noise, in units of the scale length: dx = -x ds + dW, dy = (x - y) ds. Both
     * spectra are sums of the two, scaled to a variance of one.
     */
    private final class Filter {

        private double first;
        private double second;
        private boolean begun;

        void advance(double lengths) {
            double fade = begun ? Math.exp(-lengths) : 0;
            double way = begun ? lengths : 0;
            double square = fade * fade;
            // Covariance of what the noise adds on the way; with fade 0 that of the field itself.
            double firstVariance = (1 - square) / 2;
            double shared = (1 - square * (1 + 2 * way)) / 4;
            double secondVariance = (1 - square * (1 + 2 * way + 2 * way * way)) / 4;
            double a = Math.sqrt(firstVariance);
            double b = shared / a;
            double c = Math.sqrt(Math.max(0, secondVariance - b * b));
            double n = random.nextGaussian();
            double m = random.nextGaussian();
            second = fade * (second + way * first) + b * n + c * m;
            first = fade * first + a * n;
            begun = true;
        }

        double firstOrder() {
            return Math.sqrt(2) * first;
        }

        double secondOrder() {
            return Math.sqrt(3) * first + (1 - Math.sqrt(3)) * second;
        }
    }

    /**
     * The air's own motion at one instant, beside the mean wind, in the axes of the path through the air.
     *
     * @param alongKt forward positive, knots
     * @param acrossKt to the right positive, knots
     * @param upKt up positive, knots
     * @param rollDegPerS how fast the air rolls the aircraft, right positive, degrees a second
     */
    public record Gust(double alongKt, double acrossKt, double upKt, double rollDegPerS) {

        /** Smooth air. */
        public static final Gust NONE = new Gust(0, 0, 0, 0);
    }
}
