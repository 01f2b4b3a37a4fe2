package org.rejoin.bridge.learn;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

import org.rejoin.protocol.profile.Quantity;

/** Finds the fields that follow the motion in size: ground speed, its components, and roll. */
final class Rates {

    /** Off from a whole unit of speed, as a share of it. */
    private static final double SPEED_STEPS = 0.012;

    /** Left over after the fit, as a share of the speed. */
    private static final double SPEED_RESIDUAL = 0.03;

    private static final double COMPONENT_R2 = 0.98;
    private static final double ROLL_R2 = 0.85;
    private static final double ROLL_SLOPE = 0.1;

    private final List<Column.Smoothed> columns;

    /**
     * A field and what it follows.
     *
     * @param is what it is
     * @param spot where it stands
     * @param scale its unit; the scale negative where the field counts the other way
     * @param residual what is left, as a share
     * @param r2 square of the correlation
     * @param off how far its scale is from the exact one, as a share
     */
    record Found(Quantity is, Spot spot, Scale scale, double residual, double r2, double off) {}

    Rates(Frame frame, Grid grid) {
        columns = frame.smooth(grid, 0.2, spot -> false);
    }

    /** Those that are no part of the position, and go below 0 or not. */
    private List<Column.Smoothed> beside(Motion motion, boolean belowZero) {
        return columns.stream()
                .filter(column ->
                        column.low() < 0 == belowZero && !motion.place().overlaps(column.spot()))
                .toList();
    }

    /** Ground speeds, the best first. */
    List<Found> speeds(Motion motion) {
        double[] speed = motion.speedMps();
        List<Found> found = new ArrayList<>();
        for (Column.Smoothed column : beside(motion, false)) {
            Fit fit = Fit.ratio(speed, column.smooth().value());
            double residual = residual(fit, motion);
            if (fit.slope() > 0 && residual < SPEED_RESIDUAL) {
                closest(Quantity.GROUND_SPEED, column.spot(), fit, residual, Scale.speeds(column.spot()), found);
            }
        }
        return best(found);
    }

    /** The velocity along each axis of one split of it, the best of each; empty unless there is one for each. */
    List<Found> components(Motion motion) {
        return motion.velocities().stream()
                .map(axes -> components(motion, axes))
                .filter(found -> !found.isEmpty())
                .findFirst()
                .orElse(List.of());
    }

    private List<Found> components(Motion motion, List<Motion.Axis> axes) {
        List<Found> components = new ArrayList<>();
        for (Motion.Axis axis : axes) {
            List<Found> along = along(motion, axis.is(), axis.mps());
            along.removeIf(found -> components.stream().anyMatch(c -> c.spot().overlaps(found.spot())));
            if (along.isEmpty()) {
                return List.of();
            }
            components.add(along.get(0));
        }
        return components;
    }

    private List<Found> along(Motion motion, Quantity is, double[] component) {
        List<Found> found = new ArrayList<>();
        for (Column.Smoothed column : beside(motion, true)) {
            Fit fit = Fit.ratio(component, column.smooth().value());
            double residual = residual(fit, motion);
            if (residual < SPEED_RESIDUAL && fit.r2() > COMPONENT_R2) {
                closest(is, column.spot(), fit, residual, Scale.speeds(column.spot()), found);
            }
        }
        return best(found);
    }

    /** What a fit leaves of a speed, as a share of it. */
    private static double residual(Fit fit, Motion motion) {
        return fit.rms() / Math.max(1e-12, Math.abs(fit.slope() * motion.medianMps()));
    }

    /** Rolls, the best first: in a turn without slip the bank follows from speed and rate of turn. */
    List<Found> rolls(Motion motion, Grid grid) {
        double[] bank = motion.tanOfBank(grid);
        for (int i = 0; i < bank.length; i++) {
            bank[i] = Math.toDegrees(Math.atan(bank[i]));
        }
        List<Found> found = new ArrayList<>();
        for (Column.Smoothed column : beside(motion, true)) {
            Fit fit = Fit.line(bank, column.smooth().value());
            if (fit.r2() > ROLL_R2) {
                roll(column, fit, found);
            }
        }
        return best(found);
    }

    private static void roll(Column.Smoothed column, Fit fit, List<Found> found) {
        for (Scale scale : Scale.angles(column.spot())) {
            double slope = fit.slope() * scale.factor();
            double off = Math.abs(Math.abs(slope) - 1);
            boolean inRange = column.largest() * scale.factor() <= 90;
            if (off < ROLL_SLOPE && inRange && Math.abs(fit.offset() * scale.factor()) < 4) {
                found.add(new Found(Quantity.ROLL, column.spot(), scale.along(slope), 1 - fit.r2(), fit.r2(), off));
            }
        }
    }

    private static void closest(
            Quantity is, Spot spot, Fit fit, double residual, List<Scale> scales, List<Found> found) {
        scales.stream()
                .min(Comparator.comparingDouble(
                        s -> Math.abs(Math.abs(fit.slope()) * s.factor() - 1) - s.prior() * 1e-3))
                .ifPresent(scale -> {
                    double off = Math.abs(Math.abs(fit.slope()) * scale.factor() - 1);
                    if (off < SPEED_STEPS) {
                        found.add(new Found(is, spot, scale.along(fit.slope()), residual, fit.r2(), off));
                    }
                });
    }

    /** One reading of each field. */
    private static List<Found> best(List<Found> found) {
        found.sort(Comparator.comparingDouble(
                f -> f.residual() + 0.3 * f.off() - 0.01 * f.scale().prior()));
        List<Found> best = new ArrayList<>();
        for (Found one : found) {
            if (best.stream().noneMatch(b -> b.spot().overlaps(one.spot()))) {
                best.add(one);
            }
        }
        return best;
    }
}
