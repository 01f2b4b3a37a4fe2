package org.rejoin.protocol;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Collects the components of an {@link AircraftState} as a decoder meets them. Directions are reduced to one turn; a
 * value that is not finite or that no aircraft can have is left out, so that {@link #state} never throws on what a
 * sender sent. Used once, by one thread.
 */
public final class StateDraft {

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
    private Optional<Reckoning> reckoning = Optional.empty();

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
     * @param feet kept if within [-10000, 400000]
     * @return this draft
     */
    public StateDraft altitudeMslFt(double feet) {
        altitudeMslFt = within(feet, -10_000, 400_000);
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
        variationDeg = within(degrees, -180, 180);
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
     * @param knots kept if within [0, 50000]
     * @return this draft
     */
    public StateDraft groundSpeedKt(double knots) {
        groundSpeedKt = within(knots, 0, 50_000);
        return this;
    }

    /**
     * Vertical speed.
     *
     * @param feetPerMinute up positive; kept if within [-1000000, 1000000]
     * @return this draft
     */
    public StateDraft verticalSpeedFpm(double feetPerMinute) {
        verticalSpeedFpm = within(feetPerMinute, -1_000_000, 1_000_000);
        return this;
    }

    /**
     * Pitch.
     *
     * @param degrees nose up positive; kept if within [-90, 90]
     * @return this draft
     */
    public StateDraft pitchDeg(double degrees) {
        pitchDeg = within(degrees, -90, 90);
        return this;
    }

    /**
     * Roll.
     *
     * @param degrees right wing down positive; kept if within [-180, 180]
     * @return this draft
     */
    public StateDraft rollDeg(double degrees) {
        rollDeg = within(degrees, -180, 180);
        return this;
    }

    /**
     * Indicated airspeed.
     *
     * @param knots kept if within [0, 50000]
     * @return this draft
     */
    public StateDraft indicatedAirspeedKt(double knots) {
        indicatedAirspeedKt = within(knots, 0, 50_000);
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

    /**
     * How it goes on.
     *
     * @param how the sender says; empty where it does not
     * @return this draft
     */
    public StateDraft reckoning(Optional<Reckoning> how) {
        reckoning = how;
        return this;
    }

    /**
     * What has been collected.
     *
     * @param timeS see {@link AircraftState#timeS()}, finite
     * @return the state, or empty without a position
     */
    public Optional<AircraftState> state(double timeS) {
        if (Double.isNaN(latitudeDeg)) {
            return Optional.empty();
        }
        double magneticByTrue = turn(headingTrueDeg - variationDeg);
        double trueByMagnetic = turn(headingMagneticDeg + variationDeg);
        return Optional.of(new AircraftState(
                timeS,
                latitudeDeg,
                longitudeDeg,
                optional(altitudeMslFt),
                optional(Double.isNaN(headingTrueDeg) ? trueByMagnetic : headingTrueDeg),
                optional(Double.isNaN(headingMagneticDeg) ? magneticByTrue : headingMagneticDeg),
                optional(trackTrueDeg),
                optional(groundSpeedKt),
                optional(verticalSpeedFpm),
                optional(pitchDeg),
                optional(rollDeg),
                optional(indicatedAirspeedKt),
                paused,
                reckoning));
    }

    private static double within(double value, double low, double high) {
        return value >= low && value <= high ? value + 0.0 : Double.NaN;
    }

    private static double turn(double degrees) {
        return Double.isFinite(degrees) ? Angles.direction(degrees) : Double.NaN;
    }

    private static OptionalDouble optional(double value) {
        return Double.isNaN(value) ? OptionalDouble.empty() : OptionalDouble.of(value);
    }
}
