package org.rejoin.protocol;

import java.util.Arrays;
import java.util.Optional;

import org.rejoin.protocol.earth.GroundPoint;

/**
 * One sample as its decoder puts it together. Directions are reduced to one turn; a value that is not finite or that no
 * aircraft can have is left out, so that nothing a sender sends makes it throw. Used again for each sample, by one thread.
 */
public final class StateDraft implements StateView {

    /** Below this a direction of motion is noise, knots. */
    public static final double STANDING_STILL_KT = 1;

    /** NaN where nothing was sent. */
    private final double[] values = new double[StateRange.values().length];

    private double receivedS;
    private double sourceS;
    private double sourceWrapS;
    private String aircraft = "";
    private String marking = "";
    private double variationDeg;
    private boolean paused;

    /** Nothing yet. */
    public StateDraft() {
        clear();
    }

    /** Forgets everything. */
    public StateDraft clear() {
        Arrays.fill(values, Double.NaN);
        receivedS = Double.NaN;
        sourceS = Double.NaN;
        sourceWrapS = Double.POSITIVE_INFINITY;
        aircraft = "";
        marking = "";
        variationDeg = Double.NaN;
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
            values[StateRange.LATITUDE_DEG.place()] = latitude + 0.0;
            values[StateRange.LONGITUDE_DEG.place()] = Angles.longitude(longitude);
        }
        return this;
    }

    /** Anything but the position, in its unit; a direction in any turn. */
    public StateDraft set(StateRange what, double value) {
        values[what.place()] = what.kept(value);
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

    /** Whether the sender says that the simulation stands still. */
    public StateDraft paused(boolean standsStill) {
        paused = standsStill;
        return this;
    }

    /** {@return whether there is a position, without which there is no sample; false until a usable position was given} */
    public boolean hasPosition() {
        return !Double.isNaN(sent(StateRange.LATITUDE_DEG));
    }

    /** What has been collected, as a state that lasts; empty without a position. */
    public Optional<AircraftState> state(double timeS) {
        return hasPosition() ? Optional.of(snapshot(timeS)) : Optional.empty();
    }

    private double sent(StateRange what) {
        return values[what.place()];
    }

    @Override
    public GroundPoint place() {
        return GroundPoint.at(sent(StateRange.LATITUDE_DEG), sent(StateRange.LONGITUDE_DEG));
    }

    @Override
    public double value(StateRange what) {
        double sent = sent(what);
        if (!Double.isNaN(sent)) {
            return sent;
        }
        return switch (what) {
            case HEADING_TRUE_DEG -> what.kept(sent(StateRange.HEADING_MAGNETIC_DEG) + variationDeg);
            case HEADING_MAGNETIC_DEG -> what.kept(sent(StateRange.HEADING_TRUE_DEG) - variationDeg);
            default -> Double.NaN;
        };
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
    public boolean paused() {
        return paused;
    }
}
