package org.rejoin.protocol;

import java.util.Optional;

/**
 * One sample as its decoder puts it together. Directions are reduced to one turn; a value that is not finite or that no
 * aircraft can have is left out, so that nothing a sender sends makes it throw. Used again for each sample, by one thread.
 */
public final class StateDraft implements StateView {

    private double receivedS = Double.NaN;
    private double sourceS = Double.NaN;
    private double sourceWrapS = Double.POSITIVE_INFINITY;
    private String aircraft = "";
    private String marking = "";
    private double latitudeDeg = Double.NaN;
    private double longitudeDeg = Double.NaN;
    private double altitudeMslFt = Double.NaN;
    private double headingTrueDeg = Double.NaN;
    private double headingMagneticDeg = Double.NaN;
    private double variationDeg = Double.NaN;
    private double trackTrueDeg = Double.NaN;
    private double groundSpeedKt = Double.NaN;
    private double verticalSpeedFpm = Double.NaN;
    private double pitchDeg = Double.NaN;
    private double rollDeg = Double.NaN;
    private double indicatedAirspeedKt = Double.NaN;
    private boolean paused;

    /**
     * Forgets everything.
     *
     * @return this draft
     */
    public StateDraft clear() {
        receivedS = Double.NaN;
        sourceS = Double.NaN;
        sourceWrapS = Double.POSITIVE_INFINITY;
        aircraft = "";
        marking = "";
        latitudeDeg = Double.NaN;
        longitudeDeg = Double.NaN;
        altitudeMslFt = Double.NaN;
        headingTrueDeg = Double.NaN;
        headingMagneticDeg = Double.NaN;
        variationDeg = Double.NaN;
        trackTrueDeg = Double.NaN;
        groundSpeedKt = Double.NaN;
        verticalSpeedFpm = Double.NaN;
        pitchDeg = Double.NaN;
        rollDeg = Double.NaN;
        indicatedAirspeedKt = Double.NaN;
        paused = false;
        return this;
    }

    /**
     * When it was received.
     *
     * @param seconds since 1970-01-01 UTC
     * @return this draft
     */
    public StateDraft receivedS(double seconds) {
        receivedS = seconds;
        return this;
    }

    /**
     * What the sender's clock shows.
     *
     * @param seconds NaN where it sends none
     * @param wrapS after how many seconds it starts again at 0; positive infinity where it never does
     * @return this draft
     */
    public StateDraft source(double seconds, double wrapS) {
        sourceS = seconds;
        sourceWrapS = wrapS;
        return this;
    }

    /**
     * Which aircraft it is, and what it calls itself.
     *
     * @param name by which the sender tells its aircraft apart; empty text where it does not
     * @param callsign of printable characters; empty text where unsent
     * @return this draft
     */
    public StateDraft aircraft(String name, String callsign) {
        aircraft = name;
        marking = callsign;
        return this;
    }

    /**
     * The position; both halves or neither.
     *
     * @param latitude WGS 84, degrees, north positive; left out unless within [-90, 90]
     * @param longitude WGS 84, degrees, east positive, any turn; left out unless within [-360, 360]
     * @return this draft
     */
    public StateDraft position(double latitude, double longitude) {
        if (Math.abs(latitude) <= 90 && Math.abs(longitude) <= 360) {
            latitudeDeg = latitude + 0.0;
            longitudeDeg = Angles.longitude(longitude);
        }
        return this;
    }

    /**
     * Altitude above mean sea level.
     *
     * @param feet left out unless {@link StateRange} allows it
     * @return this draft
     */
    public StateDraft altitudeMslFt(double feet) {
        altitudeMslFt = StateRange.ALTITUDE_MSL_FT.kept(feet);
        return this;
    }

    /**
     * Where the nose points, from true north.
     *
     * @param degrees any turn
     * @return this draft
     */
    public StateDraft headingTrueDeg(double degrees) {
        headingTrueDeg = turn(degrees);
        return this;
    }

    /**
     * Where the nose points, from magnetic north.
     *
     * @param degrees any turn
     * @return this draft
     */
    public StateDraft headingMagneticDeg(double degrees) {
        headingMagneticDeg = turn(degrees);
        return this;
    }

    /**
     * The variation that the sender uses; it supplies whichever of the two headings was not sent.
     *
     * @param degrees true minus magnetic, east positive, [-180, 180]
     * @return this draft
     */
    public StateDraft variationDeg(double degrees) {
        variationDeg = Math.abs(degrees) <= 180 ? degrees : Double.NaN;
        return this;
    }

    /**
     * Direction of motion over the ground, from true north.
     *
     * @param degrees any turn
     * @return this draft
     */
    public StateDraft trackTrueDeg(double degrees) {
        trackTrueDeg = turn(degrees);
        return this;
    }

    /**
     * Speed over the ground.
     *
     * @param knots left out unless {@link StateRange} allows it
     * @return this draft
     */
    public StateDraft groundSpeedKt(double knots) {
        groundSpeedKt = StateRange.GROUND_SPEED_KT.kept(knots);
        return this;
    }

    /**
     * Vertical speed.
     *
     * @param feetPerMinute up positive; left out unless {@link StateRange} allows it
     * @return this draft
     */
    public StateDraft verticalSpeedFpm(double feetPerMinute) {
        verticalSpeedFpm = StateRange.VERTICAL_SPEED_FPM.kept(feetPerMinute);
        return this;
    }

    /**
     * Pitch.
     *
     * @param degrees nose up positive; left out unless {@link StateRange} allows it
     * @return this draft
     */
    public StateDraft pitchDeg(double degrees) {
        pitchDeg = StateRange.PITCH_DEG.kept(degrees);
        return this;
    }

    /**
     * Roll.
     *
     * @param degrees right wing down positive; left out unless {@link StateRange} allows it
     * @return this draft
     */
    public StateDraft rollDeg(double degrees) {
        rollDeg = StateRange.ROLL_DEG.kept(degrees);
        return this;
    }

    /**
     * Indicated airspeed.
     *
     * @param knots left out unless {@link StateRange} allows it
     * @return this draft
     */
    public StateDraft indicatedAirspeedKt(double knots) {
        indicatedAirspeedKt = StateRange.INDICATED_AIRSPEED_KT.kept(knots);
        return this;
    }

    /**
     * Whether the sender says that the simulation stands still.
     *
     * @param standsStill as sent
     * @return this draft
     */
    public StateDraft paused(boolean standsStill) {
        paused = standsStill;
        return this;
    }

    /** {@return whether there is a position, without which there is no sample; false until a usable position was given} */
    public boolean hasPosition() {
        return !Double.isNaN(latitudeDeg);
    }

    /**
     * What has been collected, as a state that lasts.
     *
     * @param timeS see {@link AircraftState#timeS()}, finite
     * @return the state, or empty without a position
     */
    public Optional<AircraftState> state(double timeS) {
        return hasPosition() ? Optional.of(snapshot(timeS)) : Optional.empty();
    }

    @Override
    public double receivedS() {
        return receivedS;
    }

    @Override
    public double sourceS() {
        return sourceS;
    }

    @Override
    public double sourceWrapS() {
        return sourceWrapS;
    }

    @Override
    public String aircraft() {
        return aircraft;
    }

    @Override
    public String marking() {
        return marking;
    }

    @Override
    public double normalX() {
        return Math.cos(Math.toRadians(latitudeDeg)) * Math.cos(Math.toRadians(longitudeDeg));
    }

    @Override
    public double normalY() {
        return Math.cos(Math.toRadians(latitudeDeg)) * Math.sin(Math.toRadians(longitudeDeg));
    }

    @Override
    public double normalZ() {
        return Math.sin(Math.toRadians(latitudeDeg));
    }

    @Override
    public double latitudeDeg() {
        return latitudeDeg;
    }

    @Override
    public double longitudeDeg() {
        return longitudeDeg;
    }

    @Override
    public double altitudeMslFt() {
        return altitudeMslFt;
    }

    @Override
    public double headingTrueDeg() {
        return Double.isNaN(headingTrueDeg) ? turn(headingMagneticDeg + variationDeg) : headingTrueDeg;
    }

    @Override
    public double headingMagneticDeg() {
        return Double.isNaN(headingMagneticDeg) ? turn(headingTrueDeg - variationDeg) : headingMagneticDeg;
    }

    @Override
    public double trackTrueDeg() {
        return trackTrueDeg;
    }

    @Override
    public double groundSpeedKt() {
        return groundSpeedKt;
    }

    @Override
    public double verticalSpeedFpm() {
        return verticalSpeedFpm;
    }

    @Override
    public double pitchDeg() {
        return pitchDeg;
    }

    @Override
    public double rollDeg() {
        return rollDeg;
    }

    @Override
    public double indicatedAirspeedKt() {
        return indicatedAirspeedKt;
    }

    @Override
    public boolean paused() {
        return paused;
    }

    private static double turn(double degrees) {
        return Double.isFinite(degrees) ? Angles.direction(degrees) : Double.NaN;
    }
}
