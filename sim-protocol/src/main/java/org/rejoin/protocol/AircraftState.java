package org.rejoin.protocol;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * One sample of the aircraft in this project's units, whatever wire format brought it.
 *
 * @param timeS seconds; from a decoder the time of receipt, after the feed has put samples in order the seconds since
 *     the first sample of the flight
 * @param latitudeDeg WGS 84 geodetic latitude, north positive, [-90, 90]
 * @param longitudeDeg WGS 84 longitude, east positive, [-180, 180)
 * @param altitudeMslFt above mean sea level, feet; empty where unsent
 * @param headingTrueDeg where the nose points, clockwise from true north, [0, 360); empty where unsent
 * @param headingMagneticDeg where the nose points, clockwise from magnetic north, [0, 360); empty where unsent
 * @param trackTrueDeg direction of motion over the ground, clockwise from true north, [0, 360); empty where unsent or
 *     standing still
 * @param groundSpeedKt speed over the ground, knots, 0 or more; empty where unsent
 * @param verticalSpeedFpm feet a minute, up positive; empty where unsent
 * @param pitchDeg degrees, nose up positive, [-90, 90]; empty where unsent
 * @param rollDeg degrees, right wing down positive, [-180, 180]; empty where unsent
 * @param indicatedAirspeedKt knots, 0 or more; empty where unsent
 * @param paused whether the sender says the simulation stands still; false where it says nothing
 * @param reckoning how it goes on, as the sender says; empty where it says nothing
 */
public record AircraftState(
        double timeS,
        double latitudeDeg,
        double longitudeDeg,
        OptionalDouble altitudeMslFt,
        OptionalDouble headingTrueDeg,
        OptionalDouble headingMagneticDeg,
        OptionalDouble trackTrueDeg,
        OptionalDouble groundSpeedKt,
        OptionalDouble verticalSpeedFpm,
        OptionalDouble pitchDeg,
        OptionalDouble rollDeg,
        OptionalDouble indicatedAirspeedKt,
        boolean paused,
        Optional<Reckoning> reckoning) {

    /**
     * Checks every component.
     *
     * @throws IllegalArgumentException if a value is not finite or out of range; the message names component, value and
     *     range
     */
    public AircraftState {
        within("timeS", timeS, -Double.MAX_VALUE, Double.MAX_VALUE);
        within("latitudeDeg", latitudeDeg, -90, 90);
        halfOpen("longitudeDeg", longitudeDeg, -180, 180);
        altitudeMslFt.ifPresent(v -> within("altitudeMslFt", v, -10_000, 400_000));
        headingTrueDeg.ifPresent(v -> halfOpen("headingTrueDeg", v, 0, 360));
        headingMagneticDeg.ifPresent(v -> halfOpen("headingMagneticDeg", v, 0, 360));
        trackTrueDeg.ifPresent(v -> halfOpen("trackTrueDeg", v, 0, 360));
        groundSpeedKt.ifPresent(v -> within("groundSpeedKt", v, 0, 50_000));
        verticalSpeedFpm.ifPresent(v -> within("verticalSpeedFpm", v, -1_000_000, 1_000_000));
        pitchDeg.ifPresent(v -> within("pitchDeg", v, -90, 90));
        rollDeg.ifPresent(v -> within("rollDeg", v, -180, 180));
        indicatedAirspeedKt.ifPresent(v -> within("indicatedAirspeedKt", v, 0, 50_000));
    }

    /** A state of which nobody says how it goes on; parameters as above. */
    public AircraftState(
            double timeS,
            double latitudeDeg,
            double longitudeDeg,
            OptionalDouble altitudeMslFt,
            OptionalDouble headingTrueDeg,
            OptionalDouble headingMagneticDeg,
            OptionalDouble trackTrueDeg,
            OptionalDouble groundSpeedKt,
            OptionalDouble verticalSpeedFpm,
            OptionalDouble pitchDeg,
            OptionalDouble rollDeg,
            OptionalDouble indicatedAirspeedKt,
            boolean paused) {
        this(
                timeS,
                latitudeDeg,
                longitudeDeg,
                altitudeMslFt,
                headingTrueDeg,
                headingMagneticDeg,
                trackTrueDeg,
                groundSpeedKt,
                verticalSpeedFpm,
                pitchDeg,
                rollDeg,
                indicatedAirspeedKt,
                paused,
                Optional.empty());
    }

    /**
     * The aircraft some time after this sample, for the picture between samples; see {@link Reckoning}.
     *
     * @param seconds after it
     * @return empty where the sender does not say how it goes on, while it is paused, and after
     *     {@value Reckoning#LONGEST_S} seconds
     */
    public Optional<AircraftState> after(double seconds) {
        return paused || !(seconds >= 0 && seconds <= Reckoning.LONGEST_S)
                ? Optional.empty()
                : reckoning.flatMap(how -> how.after(this, seconds));
    }

    /**
     * A position and nothing else; the start of most states built by hand.
     *
     * @param timeS seconds, see {@link AircraftState}
     * @param latitudeDeg WGS 84, north positive, [-90, 90]
     * @param longitudeDeg WGS 84, east positive, [-180, 180)
     * @return a state with every optional component empty
     */
    public static AircraftState at(double timeS, double latitudeDeg, double longitudeDeg) {
        OptionalDouble none = OptionalDouble.empty();
        return new AircraftState(
                timeS, latitudeDeg, longitudeDeg, none, none, none, none, none, none, none, none, none, false);
    }

    /**
     * The same state at another time.
     *
     * @param newTimeS seconds, see {@link AircraftState}
     * @return a copy that differs in {@code timeS} only
     */
    public AircraftState withTimeS(double newTimeS) {
        return with(newTimeS, paused);
    }

    /**
     * The same state while the simulation stands still.
     *
     * @return a copy with {@code paused} set
     */
    public AircraftState asPaused() {
        return with(timeS, true);
    }

    private AircraftState with(double newTimeS, boolean newPaused) {
        return new AircraftState(
                newTimeS,
                latitudeDeg,
                longitudeDeg,
                altitudeMslFt,
                headingTrueDeg,
                headingMagneticDeg,
                trackTrueDeg,
                groundSpeedKt,
                verticalSpeedFpm,
                pitchDeg,
                rollDeg,
                indicatedAirspeedKt,
                newPaused,
                reckoning);
    }

    private static void within(String name, double value, double low, double high) {
        if (!(value >= low && value <= high)) {
            throw new IllegalArgumentException(name + " " + value + " is not in [" + low + ", " + high + "]");
        }
    }

    private static void halfOpen(String name, double value, double low, double high) {
        if (!(value >= low && value < high)) {
            throw new IllegalArgumentException(name + " " + value + " is not in [" + low + ", " + high + ")");
        }
    }
}
