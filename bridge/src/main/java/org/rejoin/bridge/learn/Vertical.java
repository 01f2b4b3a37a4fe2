package org.rejoin.bridge.learn;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Predicate;

import org.rejoin.protocol.profile.Unit;

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
    /** Three components of one velocity hardly come in two units. */
    private static final double ONE_UNIT = 1.5;

    private static final double SLOPE_OFF = 0.04;

    private final Grid grid;
    private final Motion motion;
    private final OptionalDouble altimeterFt;
    private final Optional<Scale> velocityScale;
    private final List<Column.Smoothed> columns;
    private final double[] airspeedMps;
    private final PitchFit pitches;

    /** Something that speaks for an altitude, and how strongly. */
    record Support(Spot spot, Scale scale, double score, double r2) {}

    /**
     * Looks beside a position.
     *
     * @param velocityScale of its components toward north and east, if both are known and alike: the third is, too
     */
    Vertical(
            Frame frame,
            Grid grid,
            Motion motion,
            Optional<Scale> velocityScale,
            List<Spot> claimed,
            OptionalDouble altimeterFt) {
        this.velocityScale = velocityScale;
        this.grid = grid;
        this.motion = motion;
        this.altimeterFt = altimeterFt;
        columns = frame.smooth(grid, 0.25, spot -> claimed.stream().anyMatch(spot::overlaps));
        double[] speed = motion.speedMps();
        double[] tanBank = motion.tanOfBank(grid);
        airspeedMps = new double[speed.length];
        double[] bankLoad = new double[speed.length];
        double median = motion.medianMps();
        double[] throughAir = motion.airspeedMps(motion.wind(grid));
        for (int i = 0; i < speed.length; i++) {
            double tan = tanBank[i];
            airspeedMps[i] = Math.max(1, throughAir[i]);
            bankLoad[i] = Math.sqrt(1 + tan * tan) * (median * median) / Math.max(1, throughAir[i] * throughAir[i]);
        }
        pitches = new PitchFit(columns, bankLoad);
    }

    /** Altitudes, the best first. */
    List<Altitude> search() {
        List<Altitude> found = new ArrayList<>();
        for (Column.Smoothed candidate : columns) {
            if (candidate.smooth().roughness() > 0.05 * candidate.smooth().spread()
                    || ClockField.runsOn(candidate.column())) {
                continue;
            }
            List<Scale> scales = Scale.altitudes(candidate.spot());
            // Tall enough in one unit it is looked at in each: early in a climb metres alone would be, and seem sure.
            if (scales.stream()
                    .noneMatch(scale -> candidate.smooth().spread() * scale.factor() / FT >= LEAST_SPREAD_FT)) {
                continue;
            }
            for (Scale scale : scales) {
                altitude(candidate, scale).ifPresent(found::add);
            }
        }
        List<Altitude> whole = List.copyOf(found);
        found.replaceAll(f -> whole.stream().anyMatch(f::hasPieceOfPitchOf) ? f.withoutPitch() : f);
        altimeterFt.ifPresent(shown -> found.replaceAll(f ->
                f.told(!f.contradicts(altimeterFt) && whole.stream().noneMatch(other -> f.yieldsTo(other, shown)))));
        found.sort(Comparator.comparingDouble(Altitude::score).reversed());
        return found;
    }

    /** A floating number that reads as an altitude for minutes is no accident; a short whole number may be. */
    private static double width(Spot spot) {
        if (spot.type().isEmpty()) {
            return 1;
        }
        return spot.isInteger() ? spot.size() > 2 ? 0.6 : 0 : spot.size() == 8 ? 1.2 : 1;
    }

    private Optional<Altitude> altitude(Column.Smoothed candidate, Scale scale) {
        double toFt = scale.factor() / FT;
        if (candidate.low() * toFt < LOWEST_FT || candidate.high() * toFt > HIGHEST_FT) {
            return Optional.empty();
        }
        int n = grid.size();
        double[] climbDeg = new double[n];
        double[] feet = new double[n];
        double[] mps = new double[n];
        for (int i = 0; i < n; i++) {
            feet[i] = candidate.smooth().value()[i] * toFt;
            mps[i] = candidate.smooth().slope()[i] * scale.factor();
            climbDeg[i] = Math.toDegrees(Math.atan2(mps[i], airspeedMps[i])); // the nose points through the air
        }
        double steepest = Grid.Smooth.range(climbDeg) / 2;
        double fastestFpm = Grid.Smooth.range(mps) / Unit.FT_PER_MIN.factor();
        if (steepest > STEEPEST_DEG) {
            return Optional.empty();
        }
        double score = scale.prior() - (steepest > STEEP_DEG ? 1 : 0) - (fastestFpm < SLOW_FPM ? 1 : 0);
        score -= 5 * candidate.smooth().roughness() / candidate.smooth().spread();
        score += motion.place().precedes(candidate.spot()) ? 0.4 : 0;
        score += width(candidate.spot());
        List<String> words = new ArrayList<>();
        Optional<Support> rate = rate(mps, candidate.spot()::overlaps);
        if (rate.isPresent()) {
            score += rate.get().score;
            words.add("its slope is the vertical speed in " + rate.get().spot.words());
        }
        Optional<Support> pitch = pitches.best(candidate, rate.map(Support::spot), climbDeg);
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
        return Optional.of(new Altitude(candidate.spot(), scale, score, feet, rate, pitch, String.join("; ", words)));
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

    /** A vertical speed that is the climb of the position itself. */
    Optional<Support> rateOfThePosition() {
        return rate(motion.upMps(), spot -> false);
    }

    /** A vertical speed in a unit that makes it the slope of the altitude. */
    private Optional<Support> rate(double[] mps, Predicate<Spot> taken) {
        Support best = null;
        for (Column.Smoothed candidate : columns) {
            if (taken.test(candidate.spot()) || !isSlope(candidate, mps)) {
                continue;
            }
            Fit fit = Fit.ratio(mps, candidate.smooth().value());
            for (Scale scale : rateScales(candidate.spot())) {
                double off = Math.abs(Math.abs(fit.slope()) * scale.factor() - 1);
                if (off < SLOPE_OFF) {
                    double score = 3 * fit.r2() - 10 * off + scale.prior() - (fit.slope() < 0 ? 0.3 : 0);
                    score += velocityScale.map(scale::measuresAs).orElse(false) ? ONE_UNIT : 0;
                    if (best == null || score > best.score) {
                        best = new Support(candidate.spot(), scale.along(fit.slope()), score, fit.r2());
                    }
                }
            }
        }
        return Optional.ofNullable(best);
    }

    private List<Scale> rateScales(Spot spot) {
        List<Scale> scales = Scale.verticalSpeeds(spot);
        velocityScale
                .filter(v -> spot.isInteger() || v.scale() == 1)
                .filter(v -> scales.stream().noneMatch(v::measuresAs))
                .ifPresent(v -> scales.add(new Scale(v.unit(), v.scale(), -1)));
        return scales;
    }

    static boolean isSlope(Column.Smoothed candidate, double[] mps) {
        if (candidate.low() >= 0) {
            return false;
        }
        Fit line = Fit.line(mps, candidate.smooth().value());
        return line.r2() > SLOPE_R2
                && Math.abs(line.offset()) < 0.08 * candidate.smooth().spread();
    }
}
