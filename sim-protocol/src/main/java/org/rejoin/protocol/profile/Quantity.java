package org.rejoin.protocol.profile;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** What a value of a profile can be; its name in a profile is the lower-case name of the constant. */
public enum Quantity {
    /** WGS 84, north positive. */
    LATITUDE(Unit.DEG),
    /** WGS 84, east positive. */
    LONGITUDE(Unit.DEG),
    /** Above mean sea level. */
    ALTITUDE_MSL(Unit.FT),
    /** Above the ellipsoid; read and checked, not used as altitude. */
    ALTITUDE_ELLIPSOID(Unit.FT),
    /** By the standard atmosphere; read and checked, not used as altitude. */
    ALTITUDE_PRESSURE(Unit.FT),
    /** Above the ground; read and checked, not used as altitude. */
    HEIGHT_ABOVE_GROUND(Unit.FT),
    /** Where the nose points, from true north. */
    TRUE_HEADING(Unit.DEG),
    /** Where the nose points, from magnetic north. */
    MAGNETIC_HEADING(Unit.DEG),
    /** True minus magnetic, east positive. */
    MAGNETIC_VARIATION(Unit.DEG),
    /** Motion over the ground, from true north. */
    TRUE_TRACK(Unit.DEG),
    /** Motion over the ground, from magnetic north. */
    MAGNETIC_TRACK(Unit.DEG),
    /** Over the ground. */
    GROUND_SPEED(Unit.KT),
    /** Through the air; read and checked, not used. */
    TRUE_AIRSPEED(Unit.KT),
    /** As the instrument shows it. */
    INDICATED_AIRSPEED(Unit.KT),
    /** Up positive. */
    VERTICAL_SPEED(Unit.FT_PER_MIN),
    /** Nose up positive. */
    PITCH(Unit.DEG),
    /** Right wing down positive. */
    ROLL(Unit.DEG),
    /** Component of motion over the ground. */
    VELOCITY_NORTH(Unit.M_PER_S),
    /** Component of motion over the ground. */
    VELOCITY_EAST(Unit.M_PER_S),
    /** Component of motion, down positive. */
    VELOCITY_DOWN(Unit.M_PER_S),
    /** Earth-centred, toward 0 N 0 E. */
    ECEF_X(Unit.M),
    /** Earth-centred, toward 0 N 90 E. */
    ECEF_Y(Unit.M),
    /** Earth-centred, toward the North Pole. */
    ECEF_Z(Unit.M),
    /** Motion in earth-centred axes, toward 0 N 0 E. */
    ECEF_VELOCITY_X(Unit.M_PER_S),
    /** Motion in earth-centred axes, toward 0 N 90 E. */
    ECEF_VELOCITY_Y(Unit.M_PER_S),
    /** Motion in earth-centred axes, toward the North Pole. */
    ECEF_VELOCITY_Z(Unit.M_PER_S),
    /** The sender's clock; with unit none for information only. */
    TIME(Unit.S),
    /** Whether the simulation stands still. */
    PAUSED(Unit.NONE),
    /** Whether the wheels are on the ground; read and checked, not used. */
    ON_GROUND(Unit.NONE);

    private final Unit unit;

    Quantity(Unit unit) {
        this.unit = unit;
    }

    /** {@return the unit in which this project holds it, the unit} */
    public Unit unit() {
        return unit;
    }

    /** {@return name in a profile, for example "true_heading"} */
    public String text() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** {@return whether it is true or false rather than a measure; true for a flag} */
    public boolean isFlag() {
        return unit == Unit.NONE;
    }

    /** {@return whether it is part of a position; true for latitude, longitude and the earth-centred coordinates} */
    public boolean isPosition() {
        return switch (this) {
            case LATITUDE, LONGITUDE, ECEF_X, ECEF_Y, ECEF_Z -> true;
            default -> false;
        };
    }

    /** Whether a value of it may be in a unit. */
    public boolean accepts(Unit candidate) {
        return candidate.kind() == unit.kind() || (this == TIME && candidate == Unit.NONE);
    }

    /** The quantity of a name; empty if there is none. */
    public static Optional<Quantity> named(String text) {
        return Arrays.stream(values())
                .filter(quantity -> quantity.text().equals(text))
                .findFirst();
    }
}
