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

    private static final int HEADING = 1;
    private static final int ALTITUDE = 2;
    private static final int AIRSPEED = 4;

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
        this.timeS = requireFinite(timeS);
        this.latitudeDeg = StateRange.LATITUDE_DEG.required(latitudeDeg);
        this.longitudeDeg = StateRange.LONGITUDE_DEG.required(longitudeDeg);
        this.altitudeMslFt = StateRange.ALTITUDE_MSL_FT.required(altitudeMslFt);
        this.headingTrueDeg = StateRange.HEADING_TRUE_DEG.required(headingTrueDeg);
        this.headingMagneticDeg = StateRange.HEADING_MAGNETIC_DEG.required(headingMagneticDeg);
        this.trackTrueDeg = StateRange.TRACK_TRUE_DEG.required(trackTrueDeg);
        this.groundSpeedKt = StateRange.GROUND_SPEED_KT.required(groundSpeedKt);
        this.verticalSpeedFpm = StateRange.VERTICAL_SPEED_FPM.required(verticalSpeedFpm);
        this.pitchDeg = StateRange.PITCH_DEG.required(pitchDeg);
        this.rollDeg = StateRange.ROLL_DEG.required(rollDeg);
        this.indicatedAirspeedKt = StateRange.INDICATED_AIRSPEED_KT.required(indicatedAirspeedKt);
        this.paused = paused;
        this.carried = 0;
        this.reckoning = null;
    }

    /** Of what a decoder holds, its values in their ranges. */
    private AircraftState(StateView view, double timeS, @Nullable Reckoning reckoning) {
        this.timeS = requireFinite(timeS);
        this.latitudeDeg = view.latitudeDeg();
        this.longitudeDeg = view.longitudeDeg();
        this.altitudeMslFt = view.altitudeMslFt();
        this.headingTrueDeg = view.headingTrueDeg();
        this.headingMagneticDeg = view.headingMagneticDeg();
        this.trackTrueDeg = view.trackTrueDeg();
        this.groundSpeedKt = view.groundSpeedKt();
        this.verticalSpeedFpm = view.verticalSpeedFpm();
        this.pitchDeg = view.pitchDeg();
        this.rollDeg = view.rollDeg();
        this.indicatedAirspeedKt = view.indicatedAirspeedKt();
        this.paused = view.paused();
        this.carried = 0;
        this.reckoning = reckoning;
    }

    /** The same state but for these. */
    private AircraftState(
            AircraftState same,
            double timeS,
            boolean paused,
            double headingTrueDeg,
            double headingMagneticDeg,
            double altitudeMslFt,
            double indicatedAirspeedKt,
            double trackTrueDeg,
            double groundSpeedKt,
            int carried) {
        this.timeS = timeS;
        this.latitudeDeg = same.latitudeDeg;
        this.longitudeDeg = same.longitudeDeg;
        this.altitudeMslFt = altitudeMslFt;
        this.headingTrueDeg = headingTrueDeg;
        this.headingMagneticDeg = headingMagneticDeg;
        this.trackTrueDeg = trackTrueDeg;
        this.groundSpeedKt = groundSpeedKt;
        this.verticalSpeedFpm = same.verticalSpeedFpm;
        this.pitchDeg = same.pitchDeg;
        this.rollDeg = same.rollDeg;
        this.indicatedAirspeedKt = indicatedAirspeedKt;
        this.paused = paused;
        this.carried = carried;
        this.reckoning = same.reckoning;
    }

    private AircraftState at(double newTimeS, boolean standsStill) {
        return new AircraftState(
                this,
                requireFinite(newTimeS),
                standsStill,
                headingTrueDeg,
                headingMagneticDeg,
                altitudeMslFt,
                indicatedAirspeedKt,
                trackTrueDeg,
                groundSpeedKt,
                carried);
    }

    /** The same state with another heading, altitude and airspeed, which may be carried. */
    private AircraftState with(
            double headingTrue, double headingMagnetic, double altitudeFt, double airspeedKt, int carries) {
        return new AircraftState(
                this,
                timeS,
                paused,
                headingTrue,
                headingMagnetic,
                altitudeFt,
                airspeedKt,
                trackTrueDeg,
                groundSpeedKt,
                carries);
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
        return new AircraftState(view, timeS, reckoning);
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
                : new AircraftState(
                        this,
                        timeS,
                        paused,
                        headingTrueDeg,
                        headingMagneticDeg,
                        altitudeMslFt,
                        indicatedAirspeedKt,
                        track ? Double.NaN : trackTrueDeg,
                        groundSpeed ? Double.NaN : groundSpeedKt,
                        carried);
    }

    /**
     * The same state with what it lacks taken from earlier ones; this state where it takes nothing. A carried value is
     * that of its own time: it is shown, and nothing is measured by it.
     */
    public AircraftState carrying(AircraftState heading, AircraftState altitude, AircraftState airspeed) {
        boolean takesHeading = !hasHeading() && heading.hasHeading();
        boolean takesAltitude = Double.isNaN(altitudeMslFt) && !Double.isNaN(altitude.altitudeMslFt);
        boolean takesAirspeed = Double.isNaN(indicatedAirspeedKt) && !Double.isNaN(airspeed.indicatedAirspeedKt);
        int takes = (takesHeading ? HEADING : 0) | (takesAltitude ? ALTITUDE : 0) | (takesAirspeed ? AIRSPEED : 0);
        if (takes == 0) {
            return this;
        }
        return with(
                takesHeading ? heading.headingTrueDeg : headingTrueDeg,
                takesHeading ? heading.headingMagneticDeg : headingMagneticDeg,
                takesAltitude ? altitude.altitudeMslFt : altitudeMslFt,
                takesAirspeed ? airspeed.indicatedAirspeedKt : indicatedAirspeedKt,
                carried | takes);
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
                carried);
    }

    /** The same state, worked out from two others: what was carried in one of them is carried in it. */
    public AircraftState carriedAs(AircraftState one, AircraftState other) {
        int either = one.carried | other.carried;
        return either == 0
                ? this
                : with(headingTrueDeg, headingMagneticDeg, altitudeMslFt, indicatedAirspeedKt, either);
    }

    /** {@return whether a heading is known, true or magnetic; false where none was sent} */
    public boolean hasHeading() {
        return !Double.isNaN(headingTrueDeg) || !Double.isNaN(headingMagneticDeg);
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
                && carried == that.carried
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
