package org.rejoin.bridge.learn;

import java.util.List;
import java.util.Locale;

import org.rejoin.bridge.geo.StandardAtmosphere;
import org.rejoin.protocol.profile.Quantity;

/**
 * Finds the indicated airspeed: the speed through the air by the positions and the wind, less by the {@link
 * StandardAtmosphere}. Low down it reads as the true airspeed does, and is then not claimed.
 */
final class Airspeed {

    private static final double RESIDUAL = 0.03;
    private static final double OFF = 0.02;

    /** Above this share of the true airspeed the two cannot be told apart. */
    private static final double APART = 0.965;

    private final double[] indicatedMps;
    private final double[] trueMps;
    private final double share;

    /** Beside a position and an altitude. */
    Airspeed(Grid grid, Motion motion, double[] feet) {
        int n = motion.east().length;
        indicatedMps = new double[n];
        trueMps = motion.airspeedMps(motion.wind(grid));
        double sum = 0;
        for (int i = 0; i < n; i++) {
            double root = StandardAtmosphere.rootOfDensity(feet[i]);
            indicatedMps[i] = trueMps[i] * root;
            sum += root;
        }
        share = sum / Math.max(1, n);
    }

    /** Adds the field that follows it best, if it follows no true airspeed as well. */
    void find(Frame frame, Grid grid, Findings findings) {
        Column best = null;
        Scale unit = null;
        double least = RESIDUAL;
        for (Column column : frame.columns()) {
            if (column.spot().coordinate() || column.lowest() < 0 || findings.isClaimed(column.spot())) {
                continue;
            }
            Grid.Smooth smooth = grid.smooth(column.timeS(), column.raw());
            Fit fit = Fit.ratio(indicatedMps, smooth.value());
            Fit other = Fit.ratio(trueMps, smooth.value());
            double residual = fit.rms() / Math.max(1e-12, Math.abs(fit.slope()) * Motion.median(indicatedMps));
            List<Scale> scales = Scale.speeds(column.spot());
            boolean ambiguous = scales.stream().anyMatch(scale -> Math.abs(other.slope() * scale.factor() - 1) < OFF);
            if (smooth.spread() > 0 && residual < least && !ambiguous) {
                for (Scale scale : scales) {
                    if (Math.abs(fit.slope() * scale.factor() - 1) < OFF) {
                        best = column;
                        unit = scale;
                        least = residual;
                        break;
                    }
                }
            }
        }
        if (best != null && unit != null) {
            boolean sure = share < APART;
            findings.add(
                    Quantity.INDICATED_AIRSPEED,
                    best.spot(),
                    unit,
                    sure,
                    sure ? 0.92 : 0.5,
                    String.format(
                            Locale.ROOT,
                            "follows the speed through the air to %.1f %%, less by the thin air of that height",
                            100 * least));
        }
    }
}
