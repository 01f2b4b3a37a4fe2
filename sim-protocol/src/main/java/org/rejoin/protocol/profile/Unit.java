package org.rejoin.protocol.profile;

import java.util.Arrays;
import java.util.Optional;

import org.rejoin.protocol.Units;

/** Units a profile may name, with exact factors. */
public enum Unit {
    /** Degrees of arc. */
    DEG("deg", Kind.ANGLE, 1),
    /** Radians. */
    RAD("rad", Kind.ANGLE, 180 / Math.PI),
    /** Degrees and minutes as ddmm.mmmm. */
    DEG_MIN("deg_min", Kind.ANGLE, 1),
    /** Minutes of arc. */
    ARCMIN("arcmin", Kind.ANGLE, 1 / 60.0),
    /** Seconds of arc. */
    ARCSEC("arcsec", Kind.ANGLE, 1 / 3600.0),
    /** Binary angle, 65536 to a turn. */
    BAM16("bam16", Kind.ANGLE, 360.0 / (1L << 16)),
    /** Binary angle, 2^32 to a turn. */
    BAM32("bam32", Kind.ANGLE, 360.0 / (1L << 32)),
    /** Metres. */
    M("m", Kind.LENGTH, 1),
    /** International feet. */
    FT("ft", Kind.LENGTH, Units.M_PER_FT),
    /** Kilometres. */
    KM("km", Kind.LENGTH, 1000),
    /** International nautical miles. */
    NM("nm", Kind.LENGTH, Units.M_PER_NM),
    /** Millimetres. */
    MM("mm", Kind.LENGTH, 0.001),
    /** Metres per second. */
    M_PER_S("m/s", Kind.SPEED, 1),
    /** Knots. */
    KT("kt", Kind.SPEED, Units.MPS_PER_KT),
    /** Kilometres per hour. */
    KM_PER_H("km/h", Kind.SPEED, 1 / 3.6),
    /** Statute miles per hour. */
    MPH("mph", Kind.SPEED, 0.44704),
    /** Feet per second. */
    FT_PER_S("ft/s", Kind.SPEED, Units.M_PER_FT),
    /** Feet per minute. */
    FT_PER_MIN("ft/min", Kind.SPEED, Units.MPS_PER_FPM),
    /** Seconds. */
    S("s", Kind.TIME, 1),
    /** Milliseconds. */
    MS("ms", Kind.TIME, 0.001),
    /** No unit: flags, and times that are for information only. */
    NONE("none", Kind.NONE, 1);

    /** What a unit measures. */
    public enum Kind {
        /** Base unit degree. */
        ANGLE,
        /** Base unit metre. */
        LENGTH,
        /** Base unit metre per second. */
        SPEED,
        /** Base unit second. */
        TIME,
        /** Pure numbers. */
        NONE
    }

    private static final double MINUTE_STEPS = 1e9;

    private final String text;
    private final Kind kind;
    private final double factor;

    Unit(String text, Kind kind, double factor) {
        this.text = text;
        this.kind = kind;
        this.factor = factor;
    }

    /** {@return name in a profile, for example "ft/min"} */
    public String text() {
        return text;
    }

    /** {@return what it measures} */
    public Kind kind() {
        return kind;
    }

    /** Base units in one of these; 1 for {@link #DEG_MIN}, which is no multiple. */
    public double factor() {
        return factor;
    }

    /** A value in this unit, in another of the same kind but {@link #DEG_MIN}; not a number where minutes reach 60. */
    public double to(Unit other, double value) {
        if (this == other) {
            return value;
        }
        return (this == DEG_MIN ? degrees(value) : value * factor) / other.factor;
    }

    /** A value in another unit of the same kind, not {@link #DEG_MIN}, in this unit. */
    public double from(Unit other, double value) {
        if (this == other) {
            return value;
        }
        return this == DEG_MIN ? degreesAndMinutes(value * other.factor) : value * other.factor / factor;
    }

    /** The unit of a name; empty if there is none. */
    public static Optional<Unit> named(String text) {
        return Arrays.stream(values()).filter(unit -> unit.text.equals(text)).findFirst();
    }

    private static double degrees(double value) {
        double magnitude = Math.abs(value);
        double whole = Math.floor(magnitude / 100);
        double minutes = magnitude - whole * 100;
        return minutes < 60 ? Math.copySign(whole + minutes / 60, value) : Double.NaN;
    }

    private static double degreesAndMinutes(double degrees) {
        // Rounded first, so that 59.9999999999 becomes the next degree and not minute 60.
        double minutes = Math.rint(Math.abs(degrees) * 60 * MINUTE_STEPS) / MINUTE_STEPS;
        double whole = Math.floor(minutes / 60);
        return Math.copySign(whole * 100 + (minutes - whole * 60), degrees);
    }
}
