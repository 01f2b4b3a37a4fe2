package org.rejoin.bridge.learn;

import java.util.List;
import java.util.Optional;

import org.jspecify.annotations.Nullable;

/**
 * Finds the pitch of a climb: the angle of the climb, plus the angle of attack that load and speed ask for.
 *
 * @param columns to choose from
 * @param load at the points of the grid: what the angle of attack goes with
 */
record PitchFit(List<Column.Smoothed> columns, double[] load) {

    private static final double PITCH_R2 = 0.6;

    /** The field that is best explained as a pitch of this altitude's climb. */
    Optional<Vertical.Support> best(Column.Smoothed altitude, Optional<Spot> rate, double[] climbDeg) {
        Vertical.Support best = null;
        for (Column.Smoothed candidate : columns) {
            // The upper half of a vertical speed, read as a number of its own, looks much like a pitch.
            if (candidate.spot().overlaps(altitude.spot())
                    || rate.map(candidate.spot()::overlaps).orElse(false)
                    || candidate.spot().unsigned()) {
                continue;
            }
            for (Scale scale : Scale.angles(candidate.spot())) {
                double size = candidate.largest() * scale.factor();
                double spread = candidate.smooth().spread() * scale.factor();
                if (size > 40 || spread < 0.8 || scale.prior() < -0.15) {
                    continue;
                }
                Vertical.Support support = fit(candidate, scale, climbDeg);
                if (support != null && (best == null || support.score() > best.score())) {
                    best = support;
                }
            }
        }
        return Optional.ofNullable(best);
    }

    private Vertical.@Nullable Support fit(Column.Smoothed candidate, Scale scale, double[] climbDeg) {
        int n = climbDeg.length;
        double[][] m = new double[3][4];
        for (int i = 0; i < n; i++) {
            double y = candidate.smooth().value()[i] * scale.factor();
            double[] x = {climbDeg[i], load[i], 1};
            Linear.add(m, x, y);
        }
        double[][] without = {{m[1][1], m[1][2], m[1][3]}, {m[2][1], m[2][2], m[2][3]}};
        double[] fitted = Linear.solve(m);
        double[] attack = Linear.solve(without);
        double left = 0;
        double all = 0;
        for (int i = 0; i < n; i++) {
            double y = candidate.smooth().value()[i] * scale.factor();
            double r = y - fitted[0] * climbDeg[i] - fitted[1] * load[i] - fitted[2];
            double r0 = y - attack[0] * load[i] - attack[1];
            left += r * r;
            all += r0 * r0;
        }
        double r2 = 1 - left / Math.max(1e-12, all); // of what the angle of attack leaves to the climb
        double off = Math.abs(Math.abs(fitted[0]) - 1);
        if (!(r2 > PITCH_R2) || !(off < 0.4) || Vertical.isSlope(candidate, climbDeg)) {
            return null;
        }
        double wide = candidate.spot().isInteger() && candidate.spot().size() > 2 ? 0.3 : 0;
        return new Vertical.Support(
                candidate.spot(),
                scale.along(fitted[0]),
                Math.min(3.5, -0.75 * Math.log(1 - r2))
                        - wide
                        - 10 * Math.max(0, off - 0.05)
                        + scale.prior()
                        - (fitted[0] < 0 ? 0.5 : 0),
                r2);
    }
}
