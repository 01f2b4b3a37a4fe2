package org.rejoin.protocol;

import java.util.OptionalDouble;

/**
 * What each quantity of an aircraft's state may be. The one place where that is written. The two of the position come last: a
 * state that lasts keeps them apart from the others.
 */
public enum StateRange {
    /** Altitude above mean sea level, feet. */
    ALTITUDE_MSL_FT("altitudeMslFt", -10_000, 400_000, true),
    /** Heading, degrees from true north. */
    HEADING_TRUE_DEG("headingTrueDeg", 0, 360, false),
    /** Heading, degrees from magnetic north. */
    HEADING_MAGNETIC_DEG("headingMagneticDeg", 0, 360, false),
    /** Track over the ground, degrees from true north. */
    TRACK_TRUE_DEG("trackTrueDeg", 0, 360, false),
    /** Ground speed, knots. */
    GROUND_SPEED_KT("groundSpeedKt", 0, 50_000, true),
    /** Vertical speed, feet a minute, up positive. */
    VERTICAL_SPEED_FPM("verticalSpeedFpm", -1_000_000, 1_000_000, true),
    /** Pitch, degrees, nose up positive. */
    PITCH_DEG("pitchDeg", -90, 90, true),
    /** Roll, degrees, right wing down positive. */
    ROLL_DEG("rollDeg", -180, 180, true),
    /** Indicated airspeed, knots. */
    INDICATED_AIRSPEED_KT("indicatedAirspeedKt", 0, 50_000, true),
    /** WGS 84 latitude, degrees, north positive. */
    LATITUDE_DEG("latitudeDeg", -90, 90, true),
    /** Longitude, degrees, east positive. */
    LONGITUDE_DEG("longitudeDeg", -180, 180, false);

    private final String component;
    private final double low;
    private final double high;
    private final boolean highAllowed;

    StateRange(String component, double low, double high, boolean highAllowed) {
        this.component = component;
        this.low = low;
        this.high = high;
        this.highAllowed = highAllowed;
    }

    /** {@return the name of the component of a state} */
    String component() {
        return component;
    }

    /** Where its value stands among those of one sample. */
    @SuppressWarnings("EnumOrdinal") // never written anywhere
    int place() {
        return ordinal();
    }

    /** A share of the way from one value to another, round the circle the short way; the other where the one is not known. */
    double between(double from, double to, double share) {
        if (Double.isNaN(from)) {
            return to;
        }
        double on = from + (this == ROLL_DEG || high == 360 ? Angles.difference(to - from) : to - from) * share;
        return high == 360 ? Angles.direction(on) : this == ROLL_DEG ? Angles.difference(on) : on;
    }

    /** A value as a sender sent it, never minus zero, a direction brought into one turn; NaN if it cannot be. */
    public double kept(double value) {
        if (high == 360) {
            return Double.isFinite(value) ? Angles.direction(value) : Double.NaN;
        }
        return allows(value) ? value + 0.0 : Double.NaN;
    }

    private boolean allows(double value) {
        return value >= low && (highAllowed ? value <= high : value < high);
    }

    double required(double value) {
        if (!allows(value)) {
            throw new IllegalArgumentException(
                    component + " " + value + " is not in [" + low + ", " + high + (highAllowed ? "]" : ")"));
        }
        return value;
    }

    double required(OptionalDouble value) {
        return value.isPresent() ? required(value.getAsDouble()) : Double.NaN;
    }
}
