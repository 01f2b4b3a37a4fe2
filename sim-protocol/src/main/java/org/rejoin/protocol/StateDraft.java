package org.rejoin.protocol;

import java.util.Optional;

/**
 * One sample as its decoder puts it together. Directions are reduced to one turn; a value that is not finite or that no
 * aircraft can have is left out, so that nothing a sender sends makes it throw. Used again for each sample, by one thread.
 */
public final class StateDraft implements StateView {

    /** Below this a direction of motion is noise, knots. */
    public static final double STANDING_STILL_KT = 1;

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

    /** Forgets everything. */
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

    /** When it was received, seconds since 1970-01-01 UTC. */
    public StateDraft receivedS(double seconds) {
        receivedS = seconds;
        return this;
    }

    /**
     * What the sender's clock shows, seconds, NaN where it sends none; and after how many it starts again at 0,
     * infinity where it never does.
     */
    public StateDraft source(double seconds, double wrapS) {
        sourceS = seconds;
        sourceWrapS = wrapS;
        return this;
    }

    /**
     * By which name the sender tells its aircraft apart, and what it calls itself in printable characters; empty text
     * where it does not.
     */
    public StateDraft aircraft(String name, String callsign) {
        aircraft = name;
        marking = callsign;
        return this;
    }

    /** The position, WGS 84, degrees, both halves or neither: left out unless within [-90, 90] and [-360, 360]. */
    public StateDraft position(double latitude, double longitude) {
        if (Math.abs(latitude) <= 90 && Math.abs(longitude) <= 360) {
            latitudeDeg = latitude + 0.0;
            longitudeDeg = Angles.longitude(longitude);
        }
        return this;
    }

    /** Altitude above mean sea level, feet. */
    public StateDraft altitudeMslFt(double feet) {
        altitudeMslFt = StateRange.ALTITUDE_MSL_FT.kept(feet);
        return this;
    }

    /** Where the nose points, from true north, any turn. */
    public StateDraft headingTrueDeg(double degrees) {
        headingTrueDeg = turn(degrees);
        return this;
    }

    /** Where the nose points, from magnetic north, any turn. */
    public StateDraft headingMagneticDeg(double degrees) {
        headingMagneticDeg = turn(degrees);
        return this;
    }

    /**
     * The variation that the sender uses, true minus magnetic, east positive, [-180, 180]; it supplies whichever of the
     * two headings was not sent.
     */
    public StateDraft variationDeg(double degrees) {
        variationDeg = Math.abs(degrees) <= 180 ? degrees : Double.NaN;
        return this;
    }

    /** Direction of motion over the ground, from true north, any turn. */
    public StateDraft trackTrueDeg(double degrees) {
        trackTrueDeg = turn(degrees);
        return this;
    }

    /** Speed over the ground, knots. */
    public StateDraft groundSpeedKt(double knots) {
        groundSpeedKt = StateRange.GROUND_SPEED_KT.kept(knots);
        return this;
    }

    /** Vertical speed, feet a minute, up positive. */
    public StateDraft verticalSpeedFpm(double feetPerMinute) {
        verticalSpeedFpm = StateRange.VERTICAL_SPEED_FPM.kept(feetPerMinute);
        return this;
    }

    /** Pitch, nose up positive. */
    public StateDraft pitchDeg(double degrees) {
        pitchDeg = StateRange.PITCH_DEG.kept(degrees);
        return this;
    }

    /** Roll, right wing down positive. */
    public StateDraft rollDeg(double degrees) {
        rollDeg = StateRange.ROLL_DEG.kept(degrees);
        return this;
    }

    /** Indicated airspeed, knots. */
    public StateDraft indicatedAirspeedKt(double knots) {
        indicatedAirspeedKt = StateRange.INDICATED_AIRSPEED_KT.kept(knots);
        return this;
    }

    /** Whether the sender says that the simulation stands still. */
    public StateDraft paused(boolean standsStill) {
        paused = standsStill;
        return this;
    }

    /** {@return whether there is a position, without which there is no sample; false until a usable position was given} */
    public boolean hasPosition() {
        return !Double.isNaN(latitudeDeg);
    }

    /** What has been collected, as a state that lasts; empty without a position. */
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
