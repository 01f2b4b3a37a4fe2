package org.rejoin.protocol.profile;

import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Angles;
import org.rejoin.protocol.Units;
import org.rejoin.protocol.earth.Geodetic;
import org.rejoin.protocol.earth.LocalAxes;
import org.rejoin.protocol.earth.Vector3;

/** The quantities of a profile, taken from a state. */
final class StateValues {

    private StateValues() {}

    /** A quantity in its unit; empty where the state does not know it. */
    static OptionalDouble of(Quantity quantity, AircraftState state) {
        return switch (quantity) {
            case LATITUDE -> OptionalDouble.of(state.latitudeDeg());
            case LONGITUDE -> OptionalDouble.of(state.longitudeDeg());
            case ALTITUDE_MSL -> state.altitudeMslFt();
            case TRUE_HEADING -> state.headingTrueDeg();
            case MAGNETIC_HEADING -> state.headingMagneticDeg();
            case MAGNETIC_VARIATION -> state.variationDeg();
            case TRUE_TRACK -> state.trackTrueDeg();
            case MAGNETIC_TRACK -> magneticTrack(state);
            case GROUND_SPEED -> state.groundSpeedKt();
            case INDICATED_AIRSPEED -> state.indicatedAirspeedKt();
            case VERTICAL_SPEED -> state.verticalSpeedFpm();
            case PITCH -> state.pitchDeg();
            case ROLL -> state.rollDeg();
            case VELOCITY_NORTH -> velocity(state, 90);
            case VELOCITY_EAST -> velocity(state, 0);
            case VELOCITY_DOWN ->
                state.verticalSpeedFpm().isEmpty()
                        ? OptionalDouble.empty()
                        : OptionalDouble.of(-state.verticalSpeedFpm().getAsDouble() * Units.MPS_PER_FPM);
            case ECEF_X -> OptionalDouble.of(ecef(state).x());
            case ECEF_Y -> OptionalDouble.of(ecef(state).y());
            case ECEF_Z -> OptionalDouble.of(ecef(state).z());
            case ECEF_VELOCITY_X -> ecefVelocity(state, Vector3::x);
            case ECEF_VELOCITY_Y -> ecefVelocity(state, Vector3::y);
            case ECEF_VELOCITY_Z -> ecefVelocity(state, Vector3::z);
            case TIME -> OptionalDouble.of(state.timeS());
            case PAUSED -> OptionalDouble.of(state.paused() ? 1 : 0);
            case ALTITUDE_ELLIPSOID, ALTITUDE_PRESSURE, HEIGHT_ABOVE_GROUND, TRUE_AIRSPEED, ON_GROUND ->
                OptionalDouble.empty();
        };
    }

    private static OptionalDouble magneticTrack(AircraftState state) {
        OptionalDouble variation = state.variationDeg();
        return variation.isEmpty() || state.trackTrueDeg().isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(Angles.direction(state.trackTrueDeg().getAsDouble() - variation.getAsDouble()));
    }

    private static OptionalDouble velocity(AircraftState state, double phaseDeg) {
        if (state.groundSpeedKt().isEmpty() || state.trackTrueDeg().isEmpty()) {
            return OptionalDouble.empty();
        }
        double angle = Math.toRadians(state.trackTrueDeg().getAsDouble() + phaseDeg);
        return OptionalDouble.of(state.groundSpeedKt().getAsDouble() * Units.MPS_PER_KT * Math.sin(angle));
    }

    private static OptionalDouble ecefVelocity(AircraftState state, ToDoubleFunction<Vector3> axis) {
        OptionalDouble north = velocity(state, 90);
        OptionalDouble east = velocity(state, 0);
        if (north.isEmpty() || east.isEmpty()) {
            return OptionalDouble.empty();
        }
        double down = -state.verticalSpeedFpm().orElse(0) * Units.MPS_PER_FPM;
        LocalAxes local = LocalAxes.at(new Geodetic(state.latitudeDeg(), state.longitudeDeg(), 0));
        return OptionalDouble.of(axis.applyAsDouble(local.toGeocentric(north.getAsDouble(), east.getAsDouble(), down)));
    }

    private static Vector3 ecef(AircraftState state) {
        double heightM = state.altitudeMslFt().orElse(0) * Units.M_PER_FT;
        return new Geodetic(state.latitudeDeg(), state.longitudeDeg(), heightM).toGeocentric();
    }
}
