package org.rejoin.bridge.learn;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

import org.rejoin.protocol.profile.NumberType;
import org.rejoin.protocol.profile.Unit;

/** Looks for the fields that are a position, and lets the rest of the record vote on it. */
final class Motions {

    private static final int KEPT = 60;
    private static final double LEAST_SPREAD_DEG = 0.003;
    private static final double MOST_SPREAD_DEG = 8;
    /** A position turned on the globe makes directions of an odd north. */
    private static final double OFF_NORTH_DEG = 4;

    /** Of a position that jitters more than this share of its range the motion is not seen. */
    private static final double ROUGH = 0.02;

    private Motions() {}

    private record Half(Spot spot, Scale scale, Grid.Smooth deg, boolean canBeLatitude) {}

    /**
     * A position and what speaks for it.
     *
     * @param motion the pair
     * @param score votes; above 2 something else in the record agrees
     * @param directions fields that turn with it
     * @param speeds ground speeds that fit
     * @param rolls rolls that fit
     * @param components fields that are its velocity along each axis; empty unless there is one for each
     */
    record Scored(
            Motion motion,
            double score,
            List<Directions.Found> directions,
            List<Rates.Found> speeds,
            List<Rates.Found> rolls,
            List<Rates.Found> components) {}

    /** Pairs that an aircraft can have flown, the best first. */
    static List<Scored> search(Frame frame, Grid grid, Known known) {
        List<Half> halves = halves(frame, grid);
        List<Motion> motions = new ArrayList<>();
        for (Half lat : halves) {
            for (Half lon : halves) {
                if (lat.canBeLatitude && alike(lat, lon)) {
                    Motion motion =
                            Motion.of(new PositionFields(List.of(lat.spot, lon.spot), lat.scale), lat.deg, lon.deg);
                    if (motion.plausible()) {
                        motions.add(motion);
                    }
                }
            }
        }
        motions.addAll(Geocentric.search(frame, grid));
        motions.sort(Comparator.comparingDouble(Motion::jitter));
        if (motions.isEmpty()) {
            return List.of();
        }
        Directions directions = new Directions(frame, grid);
        Rates rates = new Rates(frame, grid);
        List<Scored> scored = new ArrayList<>();
        for (Motion motion : motions.subList(0, Math.min(KEPT, motions.size()))) {
            scored.add(score(motion, directions, rates, grid, known));
        }
        scored.sort(Comparator.comparingDouble(Scored::score).reversed());
        return scored;
    }

    private static List<Half> halves(Frame frame, Grid grid) {
        List<Half> halves = new ArrayList<>();
        for (Column column : frame.own()) {
            for (Scale scale : Scale.positions(column.spot())) {
                double[] deg = new double[column.raw().length];
                double most = 0;
                for (int i = 0; i < deg.length; i++) {
                    double raw = column.raw()[i];
                    deg[i] = scale.unit() == Unit.DEG_MIN ? Unit.DEG_MIN.to(Unit.DEG, raw) : raw * scale.factor();
                    most = Double.isNaN(deg[i]) ? Double.POSITIVE_INFINITY : Math.max(most, Math.abs(deg[i]));
                }
                if (most > 360) {
                    continue;
                }
                Grid.Smooth smooth = grid.smooth(column.timeS(), Column.unwrap(deg, 360));
                double spread = smooth.spread();
                if (spread > LEAST_SPREAD_DEG && spread < MOST_SPREAD_DEG && smooth.roughness() < ROUGH * spread) {
                    halves.add(new Half(column.spot(), scale, smooth, most <= 89));
                }
            }
        }
        return halves;
    }

    private static boolean alike(Half lat, Half lon) {
        boolean letters = lat.spot.hemisphere().isPresent()
                        == lon.spot.hemisphere().isPresent()
                && lat.spot.hemisphere().map(h -> h.negative().contains("S")).orElse(true)
                && lon.spot.hemisphere().map(h -> h.negative().contains("W")).orElse(true);
        return !lat.spot.overlaps(lon.spot)
                && lat.spot.type().equals(lon.spot.type())
                && lat.scale.equals(lon.scale)
                && lat.spot.minutes() == lon.spot.minutes()
                && letters;
    }

    private static Scored score(Motion motion, Directions directions, Rates rates, Grid grid, Known known) {
        List<Directions.Found> turns = directions.of(motion);
        List<Rates.Found> speeds = rates.speeds(motion);
        List<Rates.Found> rolls = rates.rolls(motion, grid);
        List<Rates.Found> components = rates.components(motion);
        double score = motion.place().scale().prior() - 20 * motion.jitter();
        double variation = turns.isEmpty() ? 0 : known.variationDeg(motion);
        score += turns.stream()
                .limit(3)
                .filter(turn -> turn.offNorthDeg(variation) < OFF_NORTH_DEG)
                .mapToDouble(turn -> 2 - turn.rmsDeg())
                .sum();
        if (!speeds.isEmpty()) {
            score += 2.5 - 40 * speeds.get(0).residual() - 40 * speeds.get(0).off();
        }
        if (!components.isEmpty()) {
            score += 3;
            for (Rates.Found component : components) {
                score -= 40 * component.off();
            }
        }
        if (!rolls.isEmpty()) {
            score += 2 * rolls.get(0).r2() - 4 * rolls.get(0).off();
        }
        score += motion.place().order();
        score += motion.place().type().map(Motions::width).orElse(0.0);
        score += motion.place().lettered() || motion.place().geocentric() ? 1 : 0;
        return new Scored(motion, score, turns, speeds, rolls, components);
    }

    private static double width(NumberType type) {
        return type == NumberType.F64 ? 1.2 : type == NumberType.F32 ? 0.8 : type == NumberType.I64 ? -0.5 : 0;
    }
}
