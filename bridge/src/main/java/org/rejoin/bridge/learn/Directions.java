package org.rejoin.bridge.learn;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

import org.rejoin.protocol.profile.NumberType;

import org.jspecify.annotations.Nullable;

/** Finds the fields that turn with the aircraft, and what parts each from the track: wind, variation, or nothing. */
final class Directions {

    private static final double FIRST_LIMIT_DEG = 12;
    private static final double LIMIT_DEG = 2;
    private static final double FASTEST_DEG_S = 20;

    private final List<Turning> turning;

    /** A column read as a direction in one unit. */
    record Turning(Spot spot, Scale scale, double[] deg, double spanDeg) {}

    /**
     * A direction and the motion it fits.
     *
     * @param spot where it stands
     * @param scale its unit
     * @param rmsDeg what the fit leaves
     * @param offsetDeg track through the air less this direction, (-180, 180]
     * @param windMps what has to be taken from the motion to make it fit; 0 for a track
     * @param deg the direction itself, continuous
     */
    record Found(Spot spot, Scale scale, double rmsDeg, double offsetDeg, double windMps, double[] deg) {

        /** How far its north is from true north or magnetic north, whichever is nearer; degrees. */
        double offNorthDeg(double variationDeg) {
            return Math.min(Math.abs(offsetDeg), Math.abs(Math.IEEEremainder(offsetDeg - variationDeg, 360)));
        }
    }

    Directions(Frame frame, Grid grid) {
        turning = new ArrayList<>();
        for (Column column : frame.columns()) {
            if (column.spot().coordinate()) {
                continue;
            }
            for (Scale scale : Scale.angles(column.spot())) {
                read(column, scale, grid);
            }
        }
    }

    private void read(Column column, Scale scale, Grid grid) {
        double low = column.lowest() * scale.factor();
        double high = column.highest() * scale.factor();
        if (low < -180.6 || high > 360.6 || high - low > 360.6 || high - low < 15) {
            return;
        }
        double[] deg = Column.unwrap(column.times(scale.factor()), 360);
        Grid.Smooth smooth = grid.smooth(column.timeS(), deg);
        double fastest = 0;
        for (double slope : smooth.slope()) {
            fastest = Math.max(fastest, Math.abs(slope));
        }
        if (fastest < FASTEST_DEG_S && smooth.roughness() < 3) {
            turning.add(new Turning(column.spot(), scale, smooth.value(), smooth.spread()));
        }
    }

    /** All that fit a motion, the closest reading of each field only, closest first. */
    List<Found> of(Motion motion) {
        List<Found> all = new ArrayList<>();
        for (Turning candidate : turning) {
            Found found = fit(candidate, motion);
            if (found != null) {
                all.add(found);
            }
        }
        all.sort(Comparator.comparingDouble(f -> f.rmsDeg() - f.scale().prior() * 0.2));
        List<Found> best = new ArrayList<>();
        for (Found found : all) {
            if (best.stream().noneMatch(b -> b.spot().overlaps(found.spot()))
                    && !motion.place().overlaps(found.spot())) {
                best.add(narrowed(found, all));
            }
        }
        return best;
    }

    /** A binary angle reads the same with its neighbour's octets behind it: the neighbour must not be swallowed. */
    private static Found narrowed(Found found, List<Found> all) {
        if (!found.spot().isInteger() || found.spot().size() != 4) {
            return found;
        }
        return all.stream()
                .filter(f -> f.spot().size() == 2
                        && f.spot().overlaps(found.spot())
                        && f.rmsDeg() < found.rmsDeg() * 1.1 + 0.02
                        && f.spot().type().orElseThrow() == NumberType.U16)
                .findFirst()
                .orElse(found);
    }

    private static @Nullable Found fit(Turning candidate, Motion motion) {
        double[] track = motion.trackDeg();
        int n = track.length;
        double sum = 0;
        double cos = 0;
        double sin = 0;
        for (int i = 0; i < n; i += 4) {
            double d = Math.toRadians(track[i] - candidate.deg[i]);
            cos += Math.cos(d);
            sin += Math.sin(d);
            sum++;
        }
        if (Math.hypot(cos, sin) / sum < Math.cos(Math.toRadians(3 * FIRST_LIMIT_DEG))) {
            return null;
        }
        double[] fitted = {Math.toDegrees(Math.atan2(sin, cos)), 0, 0};
        boolean turned = candidate.spanDeg > 150;
        for (int round = 0; round < (turned ? 6 : 0); round++) {
            if (!improve(candidate.deg, motion, fitted)) {
                return null;
            }
        }
        double rms = 0;
        for (int i = 0; i < n; i++) {
            double r = residual(candidate.deg[i], motion, i, fitted);
            rms += r * r / n;
        }
        rms = Math.sqrt(rms);
        double wind = Math.hypot(fitted[1], fitted[2]);
        if (!(rms < LIMIT_DEG) || wind > 0.6 * motion.medianMps()) {
            return null;
        }
        return new Found(candidate.spot, candidate.scale, rms, Math.IEEEremainder(fitted[0], 360), wind, candidate.deg);
    }

    private static double residual(double deg, Motion motion, int i, double[] fitted) {
        double e = motion.east()[i] - fitted[1];
        double n = motion.north()[i] - fitted[2];
        return Math.IEEEremainder(Math.toDegrees(Math.atan2(e, n)) - deg - fitted[0], 360);
    }

    /** One step of Gauss and Newton for offset and wind: where the nose points is the motion less the wind. */
    private static boolean improve(double[] deg, Motion motion, double[] fitted) {
        double[][] m = new double[3][4];
        for (int i = 0; i < deg.length; i += 2) {
            double e = motion.east()[i] - fitted[1];
            double n = motion.north()[i] - fitted[2];
            double square = e * e + n * n;
            if (square < 1) {
                continue;
            }
            double r = residual(deg[i], motion, i, fitted);
            double toDeg = 180 / Math.PI / square;
            double[] j = {-1, -n * toDeg, e * toDeg};
            Linear.add(m, j, -r);
        }
        double[] step = Linear.solve(m);
        for (int a = 0; a < 3; a++) {
            fitted[a] += step[a];
        }
        return Double.isFinite(fitted[0]) && Math.hypot(fitted[1], fitted[2]) < 300;
    }
}
