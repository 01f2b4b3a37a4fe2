package org.rejoin.console.practice;

/**
 * How strong and how long the gusts of a height are, by the model of MIL-F-8785C (1980), 3.7.
 *
 * <p>Below 1,000 ft, h in feet (read in public descriptions of the specification): the vertical scale length is h, the
 * horizontal one h / (0.177 + 0.000823 h)^1.2; the vertical standard deviation is a tenth of the wind at 20 ft, the
 * horizontal one that over (0.177 + 0.000823 h)^0.4. From 2,000 ft up all scale lengths are 1,750 ft and all standard
 * deviations are one, read off the specification's figure 7 (values from memory). Between the two: straight lines.
 *
 * @param horizontalScaleFt scale length along the path and across it, feet
 * @param verticalScaleFt scale length of the vertical gusts, feet
 * @param horizontalKt standard deviation along the path and across it, knots
 * @param verticalKt standard deviation of the vertical gusts, knots
 */
public record Turbulence(double horizontalScaleFt, double verticalScaleFt, double horizontalKt, double verticalKt) {

    /** The wind at 20 ft that goes with light turbulence, knots (MIL-F-8785C); 30 is moderate, 45 severe. */
    public static final double LIGHT_KT = 15;

    /** Strongest wind at 20 ft that is taken, knots. */
    public static final double STRONGEST_KT = 60;

    /** Feet a second in a knot. */
    static final double FPS_PER_KT = 1852 / 0.3048 / 3600;

    private static final double LOW_FT = 1000;
    private static final double MEDIUM_FT = 2000;
    private static final double MEDIUM_SCALE_FT = 1750;

    /** Lowest height of the low-altitude model, feet (MIL-F-8785C: 10 ft). */
    private static final double LOWEST_FT = 10;

    /** Heights of the columns of figure 7, feet. */
    private static final double[] HEIGHT_FT = {1750, 3750, 7500, 15_000, 25_000, 35_000, 45_000, 55_000, 65_000};

    /** Standard deviations, feet a second, exceeded with probability 0.01, 0.001 and 0.00001: light, moderate, severe. */
    private static final double[][] DEVIATION_FPS = {
        {6.9, 7.4, 6.7, 4.6, 2.7, 0.4, 0, 0, 0},
        {9.6, 10.6, 10.1, 8.0, 6.6, 5.0, 4.2, 2.7, 0},
        {17.6, 23.0, 23.6, 22.1, 20.0, 16.0, 15.1, 12.1, 7.9}
    };

    /**
     * The turbulence of a height.
     *
     * @param heightFt above the surface, feet; below 10 ft as at 10 ft
     * @param windAt20FtKt knots, [0, 60]: 15 light, 30 moderate, 45 severe; between them in proportion
     * @throws IllegalArgumentException if the wind is out of range
     */
    public static Turbulence at(double heightFt, double windAt20FtKt) {
        if (!(windAt20FtKt >= 0 && windAt20FtKt <= STRONGEST_KT)) {
            throw new IllegalArgumentException("wind at 20 ft " + windAt20FtKt + " is not in 0 to 60 knots");
        }
        if (heightFt >= MEDIUM_FT) {
            double deviation = mediumKt(heightFt, windAt20FtKt);
            return new Turbulence(MEDIUM_SCALE_FT, MEDIUM_SCALE_FT, deviation, deviation);
        }
        if (heightFt <= LOW_FT) {
            return low(Math.max(LOWEST_FT, heightFt), windAt20FtKt);
        }
        double share = (heightFt - LOW_FT) / (MEDIUM_FT - LOW_FT);
        return low(LOW_FT, windAt20FtKt).towards(at(MEDIUM_FT, windAt20FtKt), share);
    }

    private static Turbulence low(double heightFt, double windAt20FtKt) {
        double form = 0.177 + 0.000823 * heightFt;
        double vertical = windAt20FtKt / 10;
        return new Turbulence(heightFt / Math.pow(form, 1.2), heightFt, vertical / Math.pow(form, 0.4), vertical);
    }

    private static double mediumKt(double heightFt, double windAt20FtKt) {
        double row = windAt20FtKt / LIGHT_KT;
        double fps;
        if (row <= 1) {
            fps = row * deviationFps(0, heightFt);
        } else {
            int below = row < 2 ? 0 : 1;
            double light = deviationFps(below, heightFt);
            fps = light + (row - 1 - below) * (deviationFps(below + 1, heightFt) - light);
        }
        return fps / FPS_PER_KT;
    }

    private static double deviationFps(int row, double heightFt) {
        double[] values = DEVIATION_FPS[row];
        int last = HEIGHT_FT.length - 1;
        if (heightFt >= HEIGHT_FT[last]) {
            return values[last];
        }
        int i = 0;
        while (heightFt >= HEIGHT_FT[i + 1]) {
            i++;
        }
        double share = (heightFt - HEIGHT_FT[i]) / (HEIGHT_FT[i + 1] - HEIGHT_FT[i]);
        return values[i] + share * (values[i + 1] - values[i]);
    }

    private Turbulence towards(Turbulence other, double share) {
        return new Turbulence(
                between(horizontalScaleFt, other.horizontalScaleFt, share),
                between(verticalScaleFt, other.verticalScaleFt, share),
                between(horizontalKt, other.horizontalKt, share),
                between(verticalKt, other.verticalKt, share));
    }

    private static double between(double from, double to, double share) {
        return from + share * (to - from);
    }
}
