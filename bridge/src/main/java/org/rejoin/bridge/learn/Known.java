package org.rejoin.bridge.learn;

import java.util.OptionalDouble;

import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;

/**
 * What the pilot told.
 *
 * @param variationDeg east positive, [-180, 180]; empty to take it from the magnetic model
 * @param altimeterFt what the altimeter showed at the end of the flight, feet; empty if not told
 * @param decimalYear date of the flight for the magnetic model, for example 2026.41
 */
public record Known(OptionalDouble variationDeg, OptionalDouble altimeterFt, double decimalYear) {

    /**
     * Checks the ranges.
     *
     * @throws IllegalArgumentException if a value is out of range; the message names value and range
     */
    public Known {
        variationDeg.ifPresent(v -> within("variation", v, -180, 180));
        altimeterFt.ifPresent(v -> within("altimeter", v, -2000, 60_000));
        within("year", decimalYear, 1900, 2100);
    }

    /** The variation where a flight began, east positive, degrees. */
    double variationDeg(Motion motion) {
        if (variationDeg.isPresent()) {
            return variationDeg.getAsDouble();
        }
        double longitude = Math.IEEEremainder(motion.longitudeDeg()[0], 360);
        Position place = new Position(motion.latitudeDeg()[0], longitude >= 180 ? -180 : longitude);
        return MagneticModel.WMM2025.field(place, 0, decimalYear).variation().eastDeg();
    }

    private static void within(String name, double value, double low, double high) {
        if (!(value >= low && value <= high)) {
            throw new IllegalArgumentException(name + " " + value + " is not in " + low + " to " + high);
        }
    }
}
