package org.rejoin.protocol;

import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;

import org.jspecify.annotations.Nullable;

/**
 * One sample of the aircraft in this project's units, whatever wire format brought it. Immutable. What the sender did not
 * send is empty, or NaN by the accessors that end in {@code OrNaN}, which make no object.
 */
public final class AircraftState {

    private final double timeS;
    private final double latitudeDeg;
    private final double longitudeDeg;
    private final double altitudeMslFt;
    private final double headingTrueDeg;
    private final double headingMagneticDeg;
    private final double trackTrueDeg;
    private final double groundSpeedKt;
    private final double verticalSpeedFpm;
    private final double pitchDeg;
    private final double rollDeg;
    private final double indicatedAirspeedKt;
    private final boolean paused;
    private final boolean headingCarried;
    private final boolean altitudeCarried;
    private final boolean airspeedCarried;
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
                StateRange.LATITUDE_DEG.required(latitudeDeg),
                StateRange.LONGITUDE_DEG.required(longitudeDeg),
                StateRange.ALTITUDE_MSL_FT.required(altitudeMslFt),
                StateRange.HEADING_TRUE_DEG.required(headingTrueDeg),
                StateRange.HEADING_MAGNETIC_DEG.required(headingMagneticDeg),
                StateRange.TRACK_TRUE_DEG.required(trackTrueDeg),
                StateRange.GROUND_SPEED_KT.required(groundSpeedKt),
                StateRange.VERTICAL_SPEED_FPM.required(verticalSpeedFpm),
                StateRange.PITCH_DEG.required(pitchDeg),
                StateRange.ROLL_DEG.required(rollDeg),
                StateRange.INDICATED_AIRSPEED_KT.required(indicatedAirspeedKt),
                paused,
                false,
                false,
                false,
                null);
    }

    /** Of values that have been checked. */
    private AircraftState(
            double timeS,
            double latitudeDeg,
            double longitudeDeg,
            double altitudeMslFt,
            double headingTrueDeg,
            double headingMagneticDeg,
            double trackTrueDeg,
            double groundSpeedKt,
            double verticalSpeedFpm,
            double pitchDeg,
            double rollDeg,
            double indicatedAirspeedKt,
            boolean paused,
            boolean headingCarried,
            boolean altitudeCarried,
            boolean airspeedCarried,
            @Nullable Reckoning reckoning) {
        this.timeS = timeS;
        this.latitudeDeg = latitudeDeg;
        this.longitudeDeg = longitudeDeg;
        this.altitudeMslFt = altitudeMslFt;
        this.headingTrueDeg = headingTrueDeg;
        this.headingMagneticDeg = headingMagneticDeg;
        this.trackTrueDeg = trackTrueDeg;
        this.groundSpeedKt = groundSpeedKt;
        this.verticalSpeedFpm = verticalSpeedFpm;
        this.pitchDeg = pitchDeg;
        this.rollDeg = rollDeg;
        this.indicatedAirspeedKt = indicatedAirspeedKt;
        this.paused = paused;
        this.headingCarried = headingCarried;
        this.altitudeCarried = altitudeCarried;
        this.airspeedCarried = airspeedCarried;
        this.reckoning = reckoning;
    }

    private AircraftState at(double newTimeS, boolean standsStill) {
        return new AircraftState(
                requireFinite(newTimeS),
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
                standsStill,
                headingCarried,
                altitudeCarried,
                airspeedCarried,
                reckoning);
    }

    /** The same state with another heading, altitude and airspeed, which may be carried, and another motion. */
    private AircraftState with(
            double headingTrue,
            double headingMagnetic,
            double altitudeFt,
            double airspeedKt,
            double trackDeg,
            double speedKt,
            boolean carriesHeading,
            boolean carriesAltitude,
            boolean carriesAirspeed) {
        return new AircraftState(
                timeS,
                latitudeDeg,
                longitudeDeg,
                altitudeFt,
                headingTrue,
                headingMagnetic,
                trackDeg,
                speedKt,
                verticalSpeedFpm,
                pitchDeg,
                rollDeg,
                airspeedKt,
                paused,
                carriesHeading,
                carriesAltitude,
                carriesAirspeed,
                reckoning);
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
        return new AircraftState(
                requireFinite(timeS),
                view.latitudeDeg(),
                view.longitudeDeg(),
                view.altitudeMslFt(),
                view.headingTrueDeg(),
                view.headingMagneticDeg(),
                view.trackTrueDeg(),
                view.groundSpeedKt(),
                view.verticalSpeedFpm(),
                view.pitchDeg(),
                view.rollDeg(),
                view.indicatedAirspeedKt(),
                view.paused(),
                false,
                false,
                false,
                reckoning);
    }

    /**
     * Time of the sample: from a decoder the time of receipt, after the feed has put samples in order the time since
     * the first sample of the flight, seconds.
     */
    public double timeS() {
        return timeS;
    }

    /** WGS 84 geodetic latitude, degrees, north positive, [-90, 90]. */
    public double latitudeDeg() {
        return latitudeDeg;
    }

    /** WGS 84 longitude, degrees, east positive, [-180, 180). */
    public double longitudeDeg() {
        return longitudeDeg;
    }

    /** {@return altitude above mean sea level; feet; empty where unsent} */
    public OptionalDouble altitudeMslFt() {
        return optional(altitudeMslFt);
    }

    /** The same as {@link #altitudeMslFt}, without an object, feet; NaN where unsent. */
    public double altitudeMslFtOrNaN() {
        return altitudeMslFt;
    }

    /** {@return where the nose points, clockwise from true north; degrees, [0, 360); empty where unsent} */
    public OptionalDouble headingTrueDeg() {
        return optional(headingTrueDeg);
    }

    /** The same as {@link #headingTrueDeg}, without an object, degrees, [0, 360); NaN where unsent. */
    public double headingTrueDegOrNaN() {
        return headingTrueDeg;
    }

    /** {@return where the nose points, clockwise from magnetic north; degrees, [0, 360); empty where unsent} */
    public OptionalDouble headingMagneticDeg() {
        return optional(headingMagneticDeg);
    }

    /**
     * Magnetic variation that the sender reckons with, degrees, east positive; empty unless true and magnetic heading
     * are known.
     */
    public OptionalDouble variationDeg() {
        return Double.isNaN(headingTrueDeg) || Double.isNaN(headingMagneticDeg)
                ? OptionalDouble.empty()
                : OptionalDouble.of(Angles.difference(headingTrueDeg - headingMagneticDeg));
    }

    /** The same as {@link #headingMagneticDeg}, without an object, degrees, [0, 360); NaN where unsent. */
    public double headingMagneticDegOrNaN() {
        return headingMagneticDeg;
    }

    /**
     * Direction of motion over the ground, clockwise from true north; also empty while standing still, degrees, [0,
     * 360); empty where unsent.
     */
    public OptionalDouble trackTrueDeg() {
        return optional(trackTrueDeg);
    }

    /** The same as {@link #trackTrueDeg}, without an object, degrees, [0, 360); NaN where unsent. */
    public double trackTrueDegOrNaN() {
        return trackTrueDeg;
    }

    /** Speed over the ground, knots, 0 or more; empty where unsent. */
    public OptionalDouble groundSpeedKt() {
        return optional(groundSpeedKt);
    }

    /** The same as {@link #groundSpeedKt}, without an object, knots, 0 or more; NaN where unsent. */
    public double groundSpeedKtOrNaN() {
        return groundSpeedKt;
    }

    /** {@return vertical speed; feet a minute, up positive; empty where unsent} */
    public OptionalDouble verticalSpeedFpm() {
        return optional(verticalSpeedFpm);
    }

    /** Pitch, degrees, nose up positive, [-90, 90]; empty where unsent. */
    public OptionalDouble pitchDeg() {
        return optional(pitchDeg);
    }

    /** Roll, degrees, right wing down positive, [-180, 180]; empty where unsent. */
    public OptionalDouble rollDeg() {
        return optional(rollDeg);
    }

    /** {@return indicated airspeed; knots, 0 or more; empty where unsent} */
    public OptionalDouble indicatedAirspeedKt() {
        return optional(indicatedAirspeedKt);
    }

    /** The same as {@link #indicatedAirspeedKt}, without an object, knots, 0 or more; NaN where unsent. */
    public double indicatedAirspeedKtOrNaN() {
        return indicatedAirspeedKt;
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
        return at(newTimeS, paused);
    }

    /** The same state while the simulation stands still. */
    public AircraftState asPaused() {
        return at(timeS, true);
    }

    /** The same state without what its sender says of its motion. */
    public AircraftState withoutMotion(boolean track, boolean groundSpeed) {
        boolean nothing = (!track || Double.isNaN(trackTrueDeg)) && (!groundSpeed || Double.isNaN(groundSpeedKt));
        return nothing
                ? this
                : with(
                        headingTrueDeg,
                        headingMagneticDeg,
                        altitudeMslFt,
                        indicatedAirspeedKt,
                        track ? Double.NaN : trackTrueDeg,
                        groundSpeed ? Double.NaN : groundSpeedKt,
                        headingCarried,
                        altitudeCarried,
                        airspeedCarried);
    }

    /**
     * The same state with what it lacks taken from earlier ones; this state where it takes nothing. A carried value is
     * that of its own time: it is shown, and nothing is measured by it.
     */
    public AircraftState carrying(AircraftState heading, AircraftState altitude, AircraftState airspeed) {
        boolean takesHeading = !hasHeading() && heading.hasHeading();
        boolean takesAltitude = Double.isNaN(altitudeMslFt) && !Double.isNaN(altitude.altitudeMslFt);
        boolean takesAirspeed = Double.isNaN(indicatedAirspeedKt) && !Double.isNaN(airspeed.indicatedAirspeedKt);
        if (!takesHeading && !takesAltitude && !takesAirspeed) {
            return this;
        }
        return with(
                takesHeading ? heading.headingTrueDeg : headingTrueDeg,
                takesHeading ? heading.headingMagneticDeg : headingMagneticDeg,
                takesAltitude ? altitude.altitudeMslFt : altitudeMslFt,
                takesAirspeed ? airspeed.indicatedAirspeedKt : indicatedAirspeedKt,
                trackTrueDeg,
                groundSpeedKt,
                headingCarried || takesHeading,
                altitudeCarried || takesAltitude,
                airspeedCarried || takesAirspeed);
    }

    /**
     * The same state with the heading that it lacks worked out from the other by a variation, degrees, east positive;
     * this state where both headings were sent, or neither.
     */
    public AircraftState withVariation(double eastDeg) {
        if (Double.isNaN(headingTrueDeg) == Double.isNaN(headingMagneticDeg)) {
            return this;
        }
        return with(
                Double.isNaN(headingTrueDeg) ? Angles.direction(headingMagneticDeg + eastDeg) : headingTrueDeg,
                Double.isNaN(headingMagneticDeg) ? Angles.direction(headingTrueDeg - eastDeg) : headingMagneticDeg,
                altitudeMslFt,
                indicatedAirspeedKt,
                trackTrueDeg,
                groundSpeedKt,
                headingCarried,
                altitudeCarried,
                airspeedCarried);
    }

    /** The same state, worked out from two others: what was carried in one of them is carried in it. */
    public AircraftState carriedAs(AircraftState one, AircraftState other) {
        if (!one.carries() && !other.carries()) {
            return this;
        }
        return with(
                headingTrueDeg,
                headingMagneticDeg,
                altitudeMslFt,
                indicatedAirspeedKt,
                trackTrueDeg,
                groundSpeedKt,
                one.headingCarried || other.headingCarried,
                one.altitudeCarried || other.altitudeCarried,
                one.airspeedCarried || other.airspeedCarried);
    }

    private boolean carries() {
        return headingCarried || altitudeCarried || airspeedCarried;
    }

    /** {@return whether a heading is known, true or magnetic; false where none was sent} */
    public boolean hasHeading() {
        return !Double.isNaN(headingTrueDeg) || !Double.isNaN(headingMagneticDeg);
    }

    /** {@return whether the headings are those of an earlier sample; false where they were sent with this one} */
    public boolean headingCarried() {
        return headingCarried;
    }

    /** {@return whether the altitude is that of an earlier sample; false where it was sent with this one} */
    public boolean altitudeCarried() {
        return altitudeCarried;
    }

    /** {@return whether the indicated airspeed is that of an earlier sample; false where it was sent with this one} */
    public boolean airspeedCarried() {
        return airspeedCarried;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof AircraftState that
                && same(timeS, that.timeS)
                && same(latitudeDeg, that.latitudeDeg)
                && same(longitudeDeg, that.longitudeDeg)
                && same(altitudeMslFt, that.altitudeMslFt)
                && same(headingTrueDeg, that.headingTrueDeg)
                && same(headingMagneticDeg, that.headingMagneticDeg)
                && same(trackTrueDeg, that.trackTrueDeg)
                && same(groundSpeedKt, that.groundSpeedKt)
                && same(verticalSpeedFpm, that.verticalSpeedFpm)
                && same(pitchDeg, that.pitchDeg)
                && same(rollDeg, that.rollDeg)
                && same(indicatedAirspeedKt, that.indicatedAirspeedKt)
                && paused == that.paused
                && headingCarried == that.headingCarried
                && altitudeCarried == that.altitudeCarried
                && airspeedCarried == that.airspeedCarried
                && Objects.equals(reckoning, that.reckoning);
    }

    @Override
    public int hashCode() {
        return Objects.hash(
                timeS, latitudeDeg, longitudeDeg, altitudeMslFt, headingTrueDeg, headingMagneticDeg, paused);
    }

    @Override
    public String toString() {
        return "AircraftState[timeS=" + timeS + ", latitudeDeg=" + latitudeDeg + ", longitudeDeg=" + longitudeDeg
                + ", altitudeMslFt=" + altitudeMslFt + ", headingTrueDeg=" + headingTrueDeg + ", headingMagneticDeg="
                + headingMagneticDeg + ", trackTrueDeg=" + trackTrueDeg + ", groundSpeedKt=" + groundSpeedKt
                + ", verticalSpeedFpm=" + verticalSpeedFpm + ", pitchDeg=" + pitchDeg + ", rollDeg=" + rollDeg
                + ", indicatedAirspeedKt=" + indicatedAirspeedKt + ", paused=" + paused + "]";
    }

    private static boolean same(double one, double other) {
        return Double.compare(one, other) == 0;
    }

    private static OptionalDouble optional(double value) {
        return Double.isNaN(value) ? OptionalDouble.empty() : OptionalDouble.of(value);
    }

    private static double requireFinite(double timeS) {
        if (!Double.isFinite(timeS)) {
            throw new IllegalArgumentException("timeS " + timeS + " is not finite");
        }
        return timeS;
    }
}
