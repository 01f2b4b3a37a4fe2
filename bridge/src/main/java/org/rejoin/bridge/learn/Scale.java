package org.rejoin.bridge.learn;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.protocol.profile.NumberType;
import org.rejoin.protocol.profile.Unit;

/**
 * A unit and how many of it one step of a raw number is.
 *
 * @param unit as in a profile
 * @param scale not 0
 * @param prior how usual this is; 0 usual, below 0 less so
 */
record Scale(Unit unit, double scale, double prior) {

    private static final double[] TENTHS = {1, 0.1, 0.01, 0.001};

    /** Raw to degrees, metres or metres a second. */
    double factor() {
        return scale * unit.factor();
    }

    /** The same unit and size of step, in either direction. */
    boolean measuresAs(Scale other) {
        return unit == other.unit && Math.abs(scale) == Math.abs(other.scale);
    }

    /** Counted the other way. */
    Scale reversed() {
        return new Scale(unit, -scale, prior);
    }

    /** Counted upward for a slope above 0, downward below. */
    Scale along(double slope) {
        return new Scale(unit, Math.copySign(scale, slope), prior);
    }

    String words() {
        return scale == 1 ? unit.text() : unit.text() + " times " + scale;
    }

    /** What a latitude or longitude may be counted in. */
    static List<Scale> positions(Spot spot) {
        if (spot.minutes()) {
            return List.of(new Scale(Unit.DEG, 1, 0));
        }
        if (spot.hemisphere().isPresent()) {
            return List.of(new Scale(Unit.DEG, 1, 0), new Scale(Unit.DEG_MIN, 1, 0));
        }
        if (spot.type().isEmpty()) {
            return List.of(
                    new Scale(Unit.DEG, 1, 0),
                    new Scale(Unit.RAD, 1, 0),
                    new Scale(Unit.DEG_MIN, 1, -0.3),
                    new Scale(Unit.DEG, 1e-7, -0.5),
                    new Scale(Unit.DEG, 1e-6, -0.5));
        }
        return switch (spot.type().get()) {
            case F32, F64 -> List.of(new Scale(Unit.DEG, 1, 0), new Scale(Unit.RAD, 1, 0));
            case I32 ->
                List.of(
                        new Scale(Unit.DEG, 1e-7, 0),
                        new Scale(Unit.BAM32, 1, -0.1),
                        new Scale(Unit.DEG, 1e-6, -0.2),
                        new Scale(Unit.ARCSEC, 1e-3, -0.4),
                        new Scale(Unit.DEG, 1e-5, -0.6));
            case I64 -> List.of(new Scale(Unit.DEG, 1e-7, -0.2), new Scale(Unit.DEG, 1e-9, -0.3));
            default -> List.of();
        };
    }

    /** What an earth-centred coordinate may be counted in. */
    static List<Scale> coordinates(Spot spot) {
        return switch (spot.type().orElse(NumberType.F64)) {
            case F32, F64 -> List.of(new Scale(Unit.M, 1, 0), new Scale(Unit.KM, 1, -0.2));
            case I32 -> List.of(new Scale(Unit.M, 0.01, 0), new Scale(Unit.M, 1, -0.1), new Scale(Unit.M, 0.1, -0.1));
            case I64 -> List.of(new Scale(Unit.M, 0.001, 0), new Scale(Unit.M, 0.01, -0.1));
            default -> List.of();
        };
    }

    /** What a direction or an attitude angle may be counted in. */
    static List<Scale> angles(Spot spot) {
        if (spot.type().isEmpty()) {
            return List.of(
                    new Scale(Unit.DEG, 1, 0),
                    new Scale(Unit.RAD, 1, 0),
                    new Scale(Unit.DEG, 0.1, -0.3),
                    new Scale(Unit.DEG, 0.01, -0.4));
        }
        return switch (spot.type().get()) {
            case F32, F64 -> List.of(new Scale(Unit.DEG, 1, 0), new Scale(Unit.RAD, 1, 0));
            case I16, U16 ->
                List.of(
                        new Scale(Unit.DEG, 0.01, 0),
                        new Scale(Unit.DEG, 0.1, 0),
                        new Scale(Unit.BAM16, 1, 0),
                        new Scale(Unit.DEG, 1, -0.2));
            case I32, U32 ->
                List.of(
                        new Scale(Unit.DEG, 1e-7, -0.2),
                        new Scale(Unit.BAM32, 1, -0.1),
                        new Scale(Unit.DEG, 1e-6, -0.2),
                        new Scale(Unit.DEG, 1e-5, -0.3),
                        new Scale(Unit.DEG, 1e-4, -0.3),
                        new Scale(Unit.DEG, 1e-3, -0.1),
                        new Scale(Unit.DEG, 0.01, 0),
                        new Scale(Unit.DEG, 0.1, -0.1),
                        new Scale(Unit.DEG, 1, -0.2));
            default -> List.of();
        };
    }

    /** What a speed over the ground may be counted in. */
    static List<Scale> speeds(Spot spot) {
        List<Scale> scales = new ArrayList<>();
        for (Unit unit : List.of(Unit.KT, Unit.M_PER_S, Unit.KM_PER_H, Unit.FT_PER_S, Unit.MPH)) {
            add(scales, spot, unit, -0.1, -0.2, -0.4);
            if (spot.type().isEmpty()) {
                scales.add(new Scale(unit, 0.1, -0.4)); // whole numbers of tenths, in text
            }
        }
        return scales;
    }

    /** What a vertical speed may be counted in. */
    static List<Scale> verticalSpeeds(Spot spot) {
        List<Scale> scales = new ArrayList<>();
        add(scales, spot, Unit.FT_PER_MIN, -0.4, -0.8, -1);
        add(scales, spot, Unit.M_PER_S, -0.1, 0, -0.1);
        add(scales, spot, Unit.FT_PER_S, -0.5, -0.5, -0.8);
        return scales;
    }

    /** What an altitude may be counted in. */
    static List<Scale> altitudes(Spot spot) {
        List<Scale> scales = new ArrayList<>();
        add(scales, spot, Unit.FT, -0.5, -1.2, -2);
        add(scales, spot, Unit.M, -0.4, -0.2, 0);
        return scales;
    }

    /** The unit itself and, for whole numbers, its tenths, hundredths and thousandths, which are more or less usual. */
    private static void add(List<Scale> scales, Spot spot, Unit unit, double... priors) {
        scales.add(new Scale(unit, 1, 0));
        if (spot.isInteger()) {
            for (int i = 0; i < priors.length; i++) {
                scales.add(new Scale(unit, TENTHS[i + 1], priors[i]));
            }
        }
    }
}
