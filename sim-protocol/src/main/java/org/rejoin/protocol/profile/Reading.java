package org.rejoin.protocol.profile;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;

import org.rejoin.protocol.SourceTime;
import org.rejoin.protocol.StateDraft;
import org.rejoin.protocol.StateRange;
import org.rejoin.protocol.Units;
import org.rejoin.protocol.earth.Geodetic;
import org.rejoin.protocol.earth.LocalAxes;
import org.rejoin.protocol.earth.Vector3;

/** The values of one record, each in the unit of its quantity. */
final class Reading {

    private final Map<Quantity, Double> values = new EnumMap<>(Quantity.class);

    /** Keeps a value; one that is not finite is absent. */
    void put(Quantity quantity, double value) {
        if (Double.isFinite(value)) {
            values.put(quantity, value);
        } else {
            values.remove(quantity);
        }
    }

    Map<Quantity, Double> values() {
        return values;
    }

    private double value(Quantity quantity) {
        return values.getOrDefault(quantity, Double.NaN);
    }

    private double first(double preferred, double otherwise) {
        return Double.isNaN(preferred) ? otherwise : preferred;
    }

    /** Puts the values into a draft, which is clear; false without a position. */
    boolean into(StateDraft draft) {
        Vector3 velocity = velocity();
        double north = velocity.x();
        double east = velocity.y();
        double knots = Math.hypot(north, east) / Units.MPS_PER_KT;
        double track = knots < StateDraft.STANDING_STILL_KT ? Double.NaN : Math.toDegrees(Math.atan2(east, north));
        double variation = value(Quantity.MAGNETIC_VARIATION);
        double climb = -velocity.z() / Units.MPS_PER_FPM;
        geocentric(draft);
        draft.position(value(Quantity.LATITUDE), value(Quantity.LONGITUDE));
        if (values.containsKey(Quantity.ALTITUDE_MSL)) {
            draft.set(StateRange.ALTITUDE_MSL_FT, value(Quantity.ALTITUDE_MSL));
        }
        return draft.set(StateRange.HEADING_TRUE_DEG, value(Quantity.TRUE_HEADING))
                .set(StateRange.HEADING_MAGNETIC_DEG, value(Quantity.MAGNETIC_HEADING))
                .variationDeg(variation)
                .set(
                        StateRange.TRACK_TRUE_DEG,
                        first(first(value(Quantity.TRUE_TRACK), value(Quantity.MAGNETIC_TRACK) + variation), track))
                .set(StateRange.GROUND_SPEED_KT, first(value(Quantity.GROUND_SPEED), knots))
                .set(StateRange.VERTICAL_SPEED_FPM, first(value(Quantity.VERTICAL_SPEED), climb))
                .set(StateRange.PITCH_DEG, value(Quantity.PITCH))
                .set(StateRange.ROLL_DEG, value(Quantity.ROLL))
                .set(StateRange.INDICATED_AIRSPEED_KT, value(Quantity.INDICATED_AIRSPEED))
                .paused(values.getOrDefault(Quantity.PAUSED, 0.0) != 0)
                .hasPosition();
    }

    /** North, east and down, m/s; of each kind that is not sent, not a number. */
    private Vector3 velocity() {
        Vector3 sent = new Vector3(
                value(Quantity.VELOCITY_NORTH), value(Quantity.VELOCITY_EAST), value(Quantity.VELOCITY_DOWN));
        Vector3 ecef = new Vector3(
                value(Quantity.ECEF_VELOCITY_X), value(Quantity.ECEF_VELOCITY_Y), value(Quantity.ECEF_VELOCITY_Z));
        Optional<Geodetic> place = place();
        if (!ecef.isFinite() || place.isEmpty()) {
            return sent;
        }
        LocalAxes local = LocalAxes.at(place.get());
        return new Vector3(
                first(sent.x(), ecef.dot(local.north())),
                first(sent.y(), ecef.dot(local.east())),
                first(sent.z(), ecef.dot(local.down())));
    }

    private Optional<Geodetic> place() {
        double latitude = value(Quantity.LATITUDE);
        double longitude = value(Quantity.LONGITUDE);
        if (Math.abs(latitude) <= 90 && Double.isFinite(longitude)) {
            return Optional.of(new Geodetic(latitude, longitude, 0));
        }
        return geocentric();
    }

    private Optional<Geodetic> geocentric() {
        Vector3 ecef = new Vector3(value(Quantity.ECEF_X), value(Quantity.ECEF_Y), value(Quantity.ECEF_Z));
        return Geodetic.isNearTheSurface(ecef.x(), ecef.y(), ecef.z())
                ? Optional.of(Geodetic.fromGeocentric(ecef))
                : Optional.empty();
    }

    // As in DIS, most home simulators put altitude above mean sea level in as height.
    private void geocentric(StateDraft draft) {
        geocentric().ifPresent(place -> {
            draft.position(place.latitudeDeg(), place.longitudeDeg());
            draft.set(StateRange.ALTITUDE_MSL_FT, place.heightM() / Units.M_PER_FT);
        });
    }

    /** The sender's clock, if the profile has one with a unit; a whole number starts again when it is full. */
    Optional<SourceTime> time(Optional<Value> described) {
        Double seconds = values.get(Quantity.TIME);
        if (seconds == null || described.isEmpty() || described.get().unit() == Unit.NONE) {
            return Optional.empty();
        }
        Value value = described.get();
        if (value.type().isEmpty() || !value.type().get().isInteger()) {
            return Optional.of(SourceTime.monotonic(seconds));
        }
        double steps = Math.pow(2, 8.0 * value.type().get().size());
        return Optional.of(new SourceTime(
                seconds, steps * Math.abs(value.scale()) * value.unit().factor()));
    }
}
