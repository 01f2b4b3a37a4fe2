package org.rejoin.protocol;

import java.util.Arrays;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;

import org.rejoin.protocol.earth.GroundPoint;

import org.jspecify.annotations.Nullable;

/**
 * One sample of the aircraft in this project's units, whatever wire format brought it. Immutable. What the sender did not
 * send is empty, or NaN by the accessors that end in {@code OrNaN}, which make no object.
 */
public final class AircraftState {

    private static final int HEADING = 1;
    private static final int ALTITUDE = 2;
    private static final int AIRSPEED = 4;

    private static final StateRange[] QUANTITIES = StateRange.values();
    private static final int WITHOUT_POSITION = StateRange.LATITUDE_DEG.place();

    private final double timeS;
    private final GroundPoint place;

    /** All but the position; states that differ in something else alone share it, and nobody changes it. */
    private final double[] values;

    private final boolean paused;
    /** Which of heading, altitude and airspeed are those of an earlier sample. */
    private final int carried;

    private final @Nullable Reckoning reckoning;

    /**
     * A state of which nobody says how it goes on.
     *
     * @throws IllegalArgumentException if a value is not finite or out of range; the message names component, value and
     *     range
     */
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
                requireFinite(timeS),
                GroundPoint.at(
                        StateRange.LATITUDE_DEG.required(latitudeDeg), StateRange.LONGITUDE_DEG.required(longitudeDeg)),
                new double[] {
                    StateRange.ALTITUDE_MSL_FT.required(altitudeMslFt),
                    StateRange.HEADING_TRUE_DEG.required(headingTrueDeg),
                    StateRange.HEADING_MAGNETIC_DEG.required(headingMagneticDeg),
                    StateRange.TRACK_TRUE_DEG.required(trackTrueDeg),
                    StateRange.GROUND_SPEED_KT.required(groundSpeedKt),
                    StateRange.VERTICAL_SPEED_FPM.required(verticalSpeedFpm),
                    StateRange.PITCH_DEG.required(pitchDeg),
                    StateRange.ROLL_DEG.required(rollDeg),
                    StateRange.INDICATED_AIRSPEED_KT.required(indicatedAirspeedKt),
                },
                paused,
                0,
                null);
    }

    private AircraftState(
            double timeS,
            GroundPoint place,
            double[] values,
            boolean paused,
            int carried,
            @Nullable Reckoning reckoning) {
        this.timeS = timeS;
        this.place = place;
        this.values = values;
        this.paused = paused;
        this.carried = carried;
        this.reckoning = reckoning;
    }

    private AircraftState with(double[] others, int carries) {
        return new AircraftState(timeS, place, others, paused, carries, reckoning);
    }

    /** A position and nothing else; the start of most states built by hand. */
    public static AircraftState at(double timeS, double latitudeDeg, double longitudeDeg) {
        OptionalDouble none = OptionalDouble.empty();
        return new AircraftState(
                timeS, latitudeDeg, longitudeDeg, none, none, none, none, none, none, none, none, none, false);
    }

    /**
     * What a decoder holds, its values in their ranges, as a state that lasts; {@code reckoning} is null where the
     * sender does not say how it goes on.
     */
    public static AircraftState of(StateView view, double timeS, @Nullable Reckoning reckoning) {
        double[] values = new double[WITHOUT_POSITION];
        for (int i = 0; i < values.length; i++) {
            values[i] = view.value(QUANTITIES[i]);
        }
        return new AircraftState(requireFinite(timeS), view.place(), values, view.paused(), 0, reckoning);
    }

    /**
     * The aircraft between two samples, a share of the way, [0, 1], from one to the other, at the place that is there: every
     * quantity in proportion. What was not sent with the first is that of the second; what was carried in either is carried.
     */
    public static AircraftState between(AircraftState a, AircraftState b, double share, GroundPoint place) {
        double[] values = new double[WITHOUT_POSITION];
        for (int i = 0; i < values.length; i++) {
            values[i] = QUANTITIES[i].between(a.values[i], b.values[i], share);
        }
        double timeS = a.timeS + (b.timeS - a.timeS) * share;
        return new AircraftState(timeS, place, values, b.paused, a.carried | b.carried, null);
    }

    /**
     * Time of the sample: from a decoder the time of receipt, after the feed has put samples in order the time since
     * the first sample of the flight, seconds.
     */
    public double timeS() {
        return timeS;
    }

    /** {@return where the aircraft is, in the way its sender says it} */
    public GroundPoint place() {
        return place;
    }

    /** WGS 84 geodetic latitude, degrees, north positive, [-90, 90]. */
    public double latitudeDeg() {
        return place.latitudeDeg();
    }

    /** WGS 84 longitude, degrees, east positive, [-180, 180). */
    public double longitudeDeg() {
        return place.longitudeDeg();
    }

    /** {@return altitude above mean sea level; feet; empty where unsent} */
    public OptionalDouble altitudeMslFt() {
        return optional(StateRange.ALTITUDE_MSL_FT);
    }

    /** The same as {@link #altitudeMslFt}, without an object, feet; NaN where unsent. */
    public double altitudeMslFtOrNaN() {
        return value(StateRange.ALTITUDE_MSL_FT);
    }

    /** {@return where the nose points, clockwise from true north; degrees, [0, 360); empty where unsent} */
    public OptionalDouble headingTrueDeg() {
        return optional(StateRange.HEADING_TRUE_DEG);
    }

    /** The same as {@link #headingTrueDeg}, without an object, degrees, [0, 360); NaN where unsent. */
    public double headingTrueDegOrNaN() {
        return value(StateRange.HEADING_TRUE_DEG);
    }

    /** {@return where the nose points, clockwise from magnetic north; degrees, [0, 360); empty where unsent} */
    public OptionalDouble headingMagneticDeg() {
        return optional(StateRange.HEADING_MAGNETIC_DEG);
    }

    /**
     * Magnetic variation that the sender reckons with, degrees, east positive; empty unless true and magnetic heading
     * are known.
     */
    public OptionalDouble variationDeg() {
        return has(StateRange.HEADING_TRUE_DEG) && has(StateRange.HEADING_MAGNETIC_DEG)
                ? OptionalDouble.of(
                        Angles.difference(value(StateRange.HEADING_TRUE_DEG) - value(StateRange.HEADING_MAGNETIC_DEG)))
                : OptionalDouble.empty();
    }

    /** The same as {@link #headingMagneticDeg}, without an object, degrees, [0, 360); NaN where unsent. */
    public double headingMagneticDegOrNaN() {
        return value(StateRange.HEADING_MAGNETIC_DEG);
    }

    /**
     * Direction of motion over the ground, clockwise from true north; also empty while standing still, degrees, [0,
     * 360); empty where unsent.
     */
    public OptionalDouble trackTrueDeg() {
        return optional(StateRange.TRACK_TRUE_DEG);
    }

    /** The same as {@link #trackTrueDeg}, without an object, degrees, [0, 360); NaN where unsent. */
    public double trackTrueDegOrNaN() {
        return value(StateRange.TRACK_TRUE_DEG);
    }

    /** Speed over the ground, knots, 0 or more; empty where unsent. */
    public OptionalDouble groundSpeedKt() {
        return optional(StateRange.GROUND_SPEED_KT);
    }

    /** The same as {@link #groundSpeedKt}, without an object, knots, 0 or more; NaN where unsent. */
    public double groundSpeedKtOrNaN() {
        return value(StateRange.GROUND_SPEED_KT);
    }

    /** {@return vertical speed; feet a minute, up positive; empty where unsent} */
    public OptionalDouble verticalSpeedFpm() {
        return optional(StateRange.VERTICAL_SPEED_FPM);
    }

    /** Pitch, degrees, nose up positive, [-90, 90]; empty where unsent. */
    public OptionalDouble pitchDeg() {
        return optional(StateRange.PITCH_DEG);
    }

    /** Roll, degrees, right wing down positive, [-180, 180]; empty where unsent. */
    public OptionalDouble rollDeg() {
        return optional(StateRange.ROLL_DEG);
    }

    /** {@return indicated airspeed; knots, 0 or more; empty where unsent} */
    public OptionalDouble indicatedAirspeedKt() {
        return optional(StateRange.INDICATED_AIRSPEED_KT);
    }

    /** The same as {@link #indicatedAirspeedKt}, without an object, knots, 0 or more; NaN where unsent. */
    public double indicatedAirspeedKtOrNaN() {
        return value(StateRange.INDICATED_AIRSPEED_KT);
    }

    /** {@return whether the sender says that the simulation stands still; false where it says nothing} */
    public boolean paused() {
        return paused;
    }

    /** {@return how the aircraft goes on, as the sender says; empty where it says nothing} */
    public Optional<Reckoning> reckoning() {
        return Optional.ofNullable(reckoning);
    }

    /**
     * The aircraft some time after this sample, for the picture between samples; see {@link Reckoning}; empty where the
     * sender does not say how it goes on, while it is paused, and after {@value Reckoning#LONGEST_S} seconds.
     */
    public Optional<AircraftState> after(double seconds) {
        return paused || reckoning == null || !(seconds >= 0 && seconds <= Reckoning.LONGEST_S)
                ? Optional.empty()
                : reckoning.after(this, seconds);
    }

    /** The same state at another time. */
    public AircraftState withTimeS(double newTimeS) {
        return new AircraftState(requireFinite(newTimeS), place, values, paused, carried, reckoning);
    }

    /** The same state while the simulation stands still. */
    public AircraftState asPaused() {
        return new AircraftState(timeS, place, values, true, carried, reckoning);
    }

    /** The same state without what its sender says of its motion. */
    public AircraftState withoutMotion(boolean track, boolean groundSpeed) {
        boolean losesTrack = track && has(StateRange.TRACK_TRUE_DEG);
        boolean losesSpeed = groundSpeed && has(StateRange.GROUND_SPEED_KT);
        if (!losesTrack && !losesSpeed) {
            return this;
        }
        double[] others = values.clone();
        if (losesTrack) {
            others[StateRange.TRACK_TRUE_DEG.place()] = Double.NaN;
        }
        if (losesSpeed) {
            others[StateRange.GROUND_SPEED_KT.place()] = Double.NaN;
        }
        return with(others, carried);
    }

    /**
     * The same state with what it lacks taken from earlier ones; this state where it takes nothing. A carried value is
     * that of its own time: it is shown, and nothing is measured by it.
     */
    public AircraftState carrying(AircraftState heading, AircraftState altitude, AircraftState airspeed) {
        int takes = (!hasHeading() && heading.hasHeading() ? HEADING : 0)
                | (!has(StateRange.ALTITUDE_MSL_FT) && altitude.has(StateRange.ALTITUDE_MSL_FT) ? ALTITUDE : 0)
                | (!has(StateRange.INDICATED_AIRSPEED_KT) && airspeed.has(StateRange.INDICATED_AIRSPEED_KT)
                        ? AIRSPEED
                        : 0);
        if (takes == 0) {
            return this;
        }
        double[] others = values.clone();
        if ((takes & HEADING) != 0) {
            others[StateRange.HEADING_TRUE_DEG.place()] = heading.value(StateRange.HEADING_TRUE_DEG);
            others[StateRange.HEADING_MAGNETIC_DEG.place()] = heading.value(StateRange.HEADING_MAGNETIC_DEG);
        }
        if ((takes & ALTITUDE) != 0) {
            others[StateRange.ALTITUDE_MSL_FT.place()] = altitude.value(StateRange.ALTITUDE_MSL_FT);
        }
        if ((takes & AIRSPEED) != 0) {
            others[StateRange.INDICATED_AIRSPEED_KT.place()] = airspeed.value(StateRange.INDICATED_AIRSPEED_KT);
        }
        return with(others, carried | takes);
    }

    /**
     * The same state with the heading that it lacks worked out from the other by a variation, degrees, east positive;
     * this state where both headings were sent, or neither.
     */
    public AircraftState withVariation(double eastDeg) {
        double trueDeg = value(StateRange.HEADING_TRUE_DEG);
        double magneticDeg = value(StateRange.HEADING_MAGNETIC_DEG);
        if (Double.isNaN(trueDeg) == Double.isNaN(magneticDeg)) {
            return this;
        }
        double[] others = values.clone();
        if (Double.isNaN(trueDeg)) {
            others[StateRange.HEADING_TRUE_DEG.place()] = Angles.direction(magneticDeg + eastDeg);
        } else {
            others[StateRange.HEADING_MAGNETIC_DEG.place()] = Angles.direction(trueDeg - eastDeg);
        }
        return with(others, carried);
    }

    /** {@return whether a heading is known, true or magnetic; false where none was sent} */
    public boolean hasHeading() {
        return has(StateRange.HEADING_TRUE_DEG) || has(StateRange.HEADING_MAGNETIC_DEG);
    }

    /** {@return whether the headings are those of an earlier sample; false where they were sent with this one} */
    public boolean headingCarried() {
        return (carried & HEADING) != 0;
    }

    /** {@return whether the altitude is that of an earlier sample; false where it was sent with this one} */
    public boolean altitudeCarried() {
        return (carried & ALTITUDE) != 0;
    }

    /** {@return whether the indicated airspeed is that of an earlier sample; false where it was sent with this one} */
    public boolean airspeedCarried() {
        return (carried & AIRSPEED) != 0;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof AircraftState that
                && Double.compare(timeS, that.timeS) == 0
                && place.equals(that.place)
                && Arrays.equals(values, that.values)
                && paused == that.paused
                && carried == that.carried
                && Objects.equals(reckoning, that.reckoning);
    }

    @Override
    public int hashCode() {
        return 31 * (31 * Double.hashCode(timeS) + place.hashCode()) + Arrays.hashCode(values);
    }

    @Override
    public String toString() {
        String others = Arrays.stream(QUANTITIES, 0, values.length)
                .map(what -> ", " + what.component() + "=" + value(what))
                .collect(Collectors.joining());
        return "AircraftState[timeS=" + timeS + ", place=" + place + others + ", paused=" + paused + "]";
    }

    private double value(StateRange what) {
        return values[what.place()];
    }

    private boolean has(StateRange what) {
        return !Double.isNaN(value(what));
    }

    private OptionalDouble optional(StateRange what) {
        return has(what) ? OptionalDouble.of(value(what)) : OptionalDouble.empty();
    }

    private static double requireFinite(double timeS) {
        if (!Double.isFinite(timeS)) {
            throw new IllegalArgumentException("timeS " + timeS + " is not finite");
        }
        return timeS;
    }
}
