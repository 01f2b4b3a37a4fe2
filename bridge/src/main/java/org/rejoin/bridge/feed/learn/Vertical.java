package org.rejoin.bridge.feed.learn;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.protocol.profile.Unit;

import org.jspecify.annotations.Nullable;

/**
 * Finds altitude, vertical speed and pitch. Altitude and vertical speed alone fit in feet as well as in metres; only
 * pitch, which ties the climb to the motion over the ground, or the altimeter settles that.
 */
final class Vertical {

    private static final double LOWEST_FT = -1500;
    private static final double HIGHEST_FT = 60_000;
    private static final double HIGHEST_GEOID_FT = 400;
    private static final double LEAST_SPREAD_FT = 150;
    private static final double STEEPEST_DEG = 20;
    private static final double STEEP_DEG = 13;
    private static final double SLOW_FPM = 120;
    private static final double FT = Unit.FT.factor();
    private static final double SLOPE_R2 = 0.93;
    private static final double SLOPE_OFF = 0.04;
    private static final double PITCH_R2 = 0.6;

    private final Grid grid;
    private final Motion motion;
    private final OptionalDouble altimeterFt;
    private final List<Smoothed> columns = new ArrayList<>();
    private final double[] airspeedMps;
    private final double[] bankLoad;

    private record Smoothed(Spot spot, Grid.Smooth smooth, Column column) {}

    /** Something that speaks for an altitude, and how strongly. */
    private record Support(Spot spot, Scale scale, double score, double off, double r2) {}

    /**
     * An altitude in one unit.
     *
     * @param spot where it stands
     * @param scale its unit
     * @param score votes
     * @param feet at the points of the grid
     * @param rateSpot vertical speed that is its slope
     * @param rateScale unit of that
     * @param pitchSpot pitch that is its climb angle
     * @param pitchScale unit of that
     * @param pitchScore its share of the votes
     * @param pitchR2 how well it follows
     * @param words the evidence
     */
    record Found(
            Spot spot,
            Scale scale,
            double score,
            double[] feet,
            Optional<Spot> rateSpot,
            Optional<Scale> rateScale,
            Optional<Spot> pitchSpot,
            Optional<Scale> pitchScale,
            double pitchScore,
            double pitchR2,
            String words) {

        /** Whether its pitch is only a piece of the octets that make a better pitch for the other. */
        boolean hasPieceOfPitchOf(Found other) {
            if (pitchSpot.isEmpty() || other.pitchSpot.isEmpty()) {
                return false;
            }
            Spot mine = pitchSpot.get();
            Spot better = other.pitchSpot.get();
            boolean differs = mine.at() != better.at() || !mine.type().equals(better.type());
            boolean less = mine.size() < better.size()
                    || (mine.isInteger() && !better.isInteger())
                    || pitchR2 < other.pitchR2 - 0.02;
            return differs && less && mine.overlaps(better) && other.pitchR2 > pitchR2 - 0.1;
        }

        Found withoutPitch() {
            return new Found(
                    spot,
                    scale,
                    score - pitchScore - (rateSpot.isEmpty() ? 2 : 0),
                    feet,
                    rateSpot,
                    rateScale,
                    Optional.empty(),
                    Optional.empty(),
                    0,
                    0,
                    words.replaceFirst("(; )?its climb angle is the pitch in [^;]*", ""));
        }

        double spreadFt() {
            return Grid.Smooth.range(feet);
        }

        /** Whether this is only a piece of the other's octets, which moves like the whole as long as no octet carries. */
        boolean isPieceOf(Found other) {
            boolean differs = spot.at() != other.spot.at() || !spot.type().equals(other.spot.type());
            boolean less = spot.size() < other.spot.size() || (spot.isInteger() && !other.spot.isInteger());
            return differs && less && spot.overlaps(other.spot);
        }

        /** Whether both say the same altitude, within a few feet. */
        boolean sameAs(Found other) {
            for (int i = 0; i < feet.length; i += 4) {
                if (Math.abs(feet[i] - other.feet[i]) > 40) {
                    return false;
                }
            }
            return true;
        }
    }

    Vertical(Frame frame, Grid grid, Motion motion, List<Spot> claimed, OptionalDouble altimeterFt) {
        this.grid = grid;
        this.motion = motion;
        this.altimeterFt = altimeterFt;
        for (Column column : frame.columns()) {
            if (column.spot().hemisphere().isEmpty() && claimed.stream().noneMatch(column.spot()::overlaps)) {
                Grid.Smooth smooth = grid.smooth(column.timeS(), column.raw());
                if (smooth.spread() > 0 && smooth.roughness() < 0.25 * smooth.spread()) {
                    columns.add(new Smoothed(column.spot(), smooth, column));
                }
            }
        }
        double[] speed = motion.speedMps();
        double[] rate = motion.turnRateDegS(grid);
        airspeedMps = new double[speed.length];
        bankLoad = new double[speed.length];
        double median = motion.medianMps();
        double[] wind = Hodograph.wind(motion, grid);
        for (int i = 0; i < speed.length; i++) {
            double tan = speed[i] * Math.toRadians(rate[i]) / 9.80665;
            double airspeed = Math.hypot(motion.east()[i] - wind[0], motion.north()[i] - wind[1]);
            airspeedMps[i] = Math.max(1, airspeed);
            bankLoad[i] = Math.sqrt(1 + tan * tan) * (median * median) / Math.max(1, airspeed * airspeed);
        }
    }

    /** Altitudes, the best first. */
    List<Found> search() {
        List<Found> found = new ArrayList<>();
        for (Smoothed candidate : columns) {
            if (candidate.smooth.roughness() > 0.05 * candidate.smooth.spread()) {
                continue;
            }
            for (Scale scale : Scale.altitudes(candidate.spot)) {
                altitude(candidate, scale).ifPresent(found::add);
            }
        }
        List<Found> whole = List.copyOf(found);
        found.replaceAll(f -> whole.stream().anyMatch(f::hasPieceOfPitchOf) ? f.withoutPitch() : f);
        found.sort(Comparator.comparingDouble(Found::score).reversed());
        return found;
    }

    /** A floating number that reads as an altitude for minutes is no accident; a short whole number may be. */
    private static double width(Spot spot) {
        if (spot.type().isEmpty()) {
            return 1;
        }
        return spot.isInteger() ? spot.size() > 2 ? 0.6 : 0 : spot.size() == 8 ? 1.2 : 1;
    }

    private Optional<Found> altitude(Smoothed candidate, Scale scale) {
        double toFt = scale.factor() / FT;
        if (candidate.column.lowest() * toFt < LOWEST_FT
                || candidate.column.highest() * toFt > HIGHEST_FT
                || candidate.smooth.spread() * toFt < LEAST_SPREAD_FT) {
            return Optional.empty();
        }
        int n = grid.size();
        double[] climbDeg = new double[n];
        double[] feet = new double[n];
        double[] mps = new double[n];
        for (int i = 0; i < n; i++) {
            feet[i] = candidate.smooth.value()[i] * toFt;
            mps[i] = candidate.smooth.slope()[i] * scale.factor();
            climbDeg[i] = Math.toDegrees(Math.atan2(mps[i], airspeedMps[i])); // the nose points through the air
        }
        double steepest = Grid.Smooth.range(climbDeg) / 2;
        double fastestFpm = Grid.Smooth.range(mps) / Unit.FT_PER_MIN.factor();
        if (steepest > STEEPEST_DEG) {
            return Optional.empty();
        }
        double score = scale.prior() - (steepest > STEEP_DEG ? 1 : 0) - (fastestFpm < SLOW_FPM ? 1 : 0);
        score -= 5 * candidate.smooth.roughness() / candidate.smooth.spread();
        score += motion.place().precedes(candidate.spot) ? 0.4 : 0;
        score += width(candidate.spot);
        List<String> words = new ArrayList<>();
        Optional<Support> rate = rate(candidate, mps);
        if (rate.isPresent()) {
            score += rate.get().score;
            words.add("its slope is the vertical speed in " + rate.get().spot.words());
        }
        Optional<Support> pitch = pitch(candidate, rate.map(Support::spot), climbDeg);
        if (pitch.isPresent()) {
            score += pitch.get().score;
            words.add("its climb angle is the pitch in " + pitch.get().spot.words());
        }
        if (rate.isEmpty() && pitch.isEmpty()) {
            score -= 2;
            words.add("it is smooth, and nothing else speaks for it");
        }
        if (motion.heightM().length > 0) {
            boolean fits = isHeight(feet);
            score += fits ? 3 : -5;
            words.add(fits ? "it is the height of the position" : "it is not the height of the position");
        }
        if (altimeterFt.isPresent()) {
            double off = Math.abs(feet[n - 1] - altimeterFt.getAsDouble());
            boolean fits = off < 200 + 0.02 * Math.abs(altimeterFt.getAsDouble());
            score += fits ? 3 : -5;
            words.add(fits ? "it ends at what the altimeter shows" : "the altimeter shows something else");
        }
        return Optional.of(new Found(
                candidate.spot,
                scale,
                score,
                feet,
                rate.map(Support::spot),
                rate.map(Support::scale),
                pitch.map(Support::spot),
                pitch.map(Support::scale),
                pitch.map(Support::score).orElse(0.0),
                pitch.map(Support::r2).orElse(0.0),
                String.join("; ", words)));
    }

    /** The height of an earth-centred position, or above the sea where the sender knows the geoid. */
    private boolean isHeight(double[] feet) {
        double least = Double.POSITIVE_INFINITY;
        double most = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < feet.length; i++) {
            double off = feet[i] - motion.heightM()[i] / FT;
            least = Math.min(least, off);
            most = Math.max(most, off);
        }
        return most - least < 100 && Math.max(Math.abs(least), Math.abs(most)) < HIGHEST_GEOID_FT;
    }

    /** A vertical speed in a unit that makes it the slope of the altitude. */
    private Optional<Support> rate(Smoothed altitude, double[] mps) {
        Support best = null;
        for (Smoothed candidate : columns) {
            if (candidate.spot.overlaps(altitude.spot) || !isSlope(candidate, mps)) {
                continue;
            }
            Fit fit = Fit.ratio(mps, candidate.smooth.value());
            for (Scale scale : Scale.verticalSpeeds(candidate.spot)) {
                double off = Math.abs(Math.abs(fit.slope()) * scale.factor() - 1);
                if (off < SLOPE_OFF) {
                    double score = 3 * fit.r2() - 10 * off + scale.prior() - (fit.slope() < 0 ? 0.3 : 0);
                    if (best == null || score > best.score) {
                        Scale signed =
                                new Scale(scale.unit(), Math.copySign(scale.scale(), fit.slope()), scale.prior());
                        best = new Support(candidate.spot, signed, score, off, fit.r2());
                    }
                }
            }
        }
        return Optional.ofNullable(best);
    }

    private static boolean isSlope(Smoothed candidate, double[] mps) {
        if (candidate.column.lowest() >= 0) {
            return false;
        }
        Fit line = Fit.line(mps, candidate.smooth.value());
        return line.r2() > SLOPE_R2 && Math.abs(line.offset()) < 0.08 * candidate.smooth.spread();
    }

    /** A pitch: climb angle, plus the angle of attack that load and speed ask for. */
    private Optional<Support> pitch(Smoothed altitude, Optional<Spot> rate, double[] climbDeg) {
        Support best = null;
        for (Smoothed candidate : columns) {
            // The upper half of a vertical speed, read as a number of its own, looks much like a pitch.
            if (candidate.spot.overlaps(altitude.spot)
                    || rate.map(candidate.spot::overlaps).orElse(false)
                    || candidate.spot.unsigned()) {
                continue;
            }
            for (Scale scale : Scale.angles(candidate.spot)) {
                double size = Math.max(Math.abs(candidate.column.lowest()), Math.abs(candidate.column.highest()))
                        * scale.factor();
                double spread = candidate.smooth.spread() * scale.factor();
                if (size > 40 || spread < 0.8 || scale.prior() < -0.15) {
                    continue;
                }
                Support support = pitch(candidate, scale, climbDeg);
                if (support != null && (best == null || support.score > best.score)) {
                    best = support;
                }
            }
        }
        return Optional.ofNullable(best);
    }

    private @Nullable Support pitch(Smoothed candidate, Scale scale, double[] climbDeg) {
        int n = climbDeg.length;
        double[][] m = new double[3][4];
        for (int i = 0; i < n; i++) {
            double y = candidate.smooth.value()[i] * scale.factor();
            double[] x = {climbDeg[i], bankLoad[i], 1};
            for (int a = 0; a < 3; a++) {
                for (int b = 0; b < 3; b++) {
                    m[a][b] += x[a] * x[b];
                }
                m[a][3] += x[a] * y;
            }
        }
        double[][] without = {{m[1][1], m[1][2], m[1][3]}, {m[2][1], m[2][2], m[2][3]}};
        double[] fitted = Linear.solve(m);
        double[] attack = Linear.solve(without);
        double left = 0;
        double all = 0;
        for (int i = 0; i < n; i++) {
            double y = candidate.smooth.value()[i] * scale.factor();
            double r = y - fitted[0] * climbDeg[i] - fitted[1] * bankLoad[i] - fitted[2];
            double r0 = y - attack[0] * bankLoad[i] - attack[1];
            left += r * r;
            all += r0 * r0;
        }
        double r2 = 1 - left / Math.max(1e-12, all); // of what the angle of attack leaves to the climb
        double off = Math.abs(Math.abs(fitted[0]) - 1);
        if (!(r2 > PITCH_R2) || !(off < 0.4) || isSlope(candidate, climbDeg)) {
            return null;
        }
        Scale signed = new Scale(scale.unit(), Math.copySign(scale.scale(), fitted[0]), scale.prior());
        double wide = candidate.spot.isInteger() && candidate.spot.size() > 2 ? 0.3 : 0;
        return new Support(
                candidate.spot,
                signed,
                Math.min(3.5, -0.75 * Math.log(1 - r2)) - wide - 10 * Math.max(0, off - 0.05) + scale.prior() - (fitted[0] < 0 ? 0.5 : 0),
                off,
                r2);
    }
}
