package org.rejoin.protocol.dis;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.StateDraft;
import org.rejoin.protocol.StateRange;
import org.rejoin.protocol.StateView;
import org.rejoin.protocol.Units;
import org.rejoin.protocol.earth.BodyAxes;
import org.rejoin.protocol.earth.FootPoint;
import org.rejoin.protocol.earth.GroundPoint;
import org.rejoin.protocol.earth.Vector3;

import org.jspecify.annotations.Nullable;

/**
 * One PDU as a state. The foot of the position is worked out at once; degrees, attitude and dead reckoning when
 * they are asked for. Used again for each PDU.
 */
final class DisState implements StateView {

    /** What single precision may add to a full turn. */
    private static final double LARGEST_ANGLE = 2 * Math.PI + 1e-3;

    private final double geoidHeightM;
    private final EntityState heard;
    private final FootPoint place = new FootPoint();
    private double receivedS;
    private double sourceS;
    private Entities.@Nullable Memory memory;
    private boolean turned;
    private boolean paused;
    private double vx;
    private double vy;
    private double vz;
    private double upMps;
    private double groundSpeedKt;
    private boolean levelled;
    private double headingTrueDeg;
    private double pitchDeg;
    private double rollDeg;

    /** Views of what is read into one EntityState. */
    DisState(double geoidHeightM, EntityState heard) {
        this.geoidHeightM = geoidHeightM;
        this.heard = heard;
    }

    /** Whether Euler angles are within a turn either way; false too for what is no number. */
    static boolean isTurn(double psi, double theta, double phi) {
        return Math.abs(psi) <= LARGEST_ANGLE && Math.abs(theta) <= LARGEST_ANGLE && Math.abs(phi) <= LARGEST_ANGLE;
    }

    /** Takes the PDU that the EntityState is at, with a location near the surface; as yet without motion. */
    void take(Entities.Memory known, double sentS, double atS) {
        place.locate(heard.locationX(), heard.locationY(), heard.locationZ());
        sourceS = sentS;
        receivedS = atS;
        memory = known;
        levelled = false;
        vx = Double.NaN;
        vy = Double.NaN;
        vz = Double.NaN;
        upMps = Double.NaN;
        groundSpeedKt = Double.NaN;
    }

    /** Takes the velocity of the PDU: along the body's axes, or earth-centred. */
    void move(boolean alongBody) {
        turned = alongBody != DeadReckoning.alongBody(algorithm());
        if (alongBody) {
            Vector3 velocity = BodyAxes.of(heard.orientation()).toGeocentric(heard.velocity());
            vx = velocity.x();
            vy = velocity.y();
            vz = velocity.z();
        } else {
            vx = heard.velocityX();
            vy = heard.velocityY();
            vz = heard.velocityZ();
        }
        upMps = place.up(vx, vy, vz);
        double along = Math.max(0, vx * vx + vy * vy + vz * vz - upMps * upMps);
        groundSpeedKt = StateRange.GROUND_SPEED_KT.kept(Math.sqrt(along) / Units.MPS_PER_KT);
    }

    void pause(boolean standsStill) {
        paused = standsStill;
    }

    boolean hasAttitude() {
        return isTurn(heard.psi(), heard.theta(), heard.phi());
    }

    private boolean hasMotion() {
        return !Double.isNaN(vx);
    }

    private int algorithm() {
        return memory == null ? 0 : memory.algorithm;
    }

    /**
     * Works out the attitude relative to the horizon, once. The first two turns of IEEE 1278.1 lead to the nose, the last is
     * about it: so the roll is phi and the angle that the wings, turned as yet by psi and theta alone, have to the horizon.
     */
    private void level() {
        if (levelled) {
            return;
        }
        levelled = true;
        headingTrueDeg = Double.NaN;
        pitchDeg = Double.NaN;
        rollDeg = Double.NaN;
        if (!hasAttitude()) {
            return;
        }
        double sinPsi = Math.sin(heard.psi());
        double cosPsi = Math.cos(heard.psi());
        double sinTheta = Math.sin(heard.theta());
        double cosTheta = Math.cos(heard.theta());
        double x = cosTheta * cosPsi;
        double y = cosTheta * sinPsi;
        headingTrueDeg = place.directionDeg(x, y, -sinTheta);
        pitchDeg = Math.toDegrees(Math.asin(Math.max(-1, Math.min(1, place.up(x, y, -sinTheta)))));
        double rightDown = -place.up(-sinPsi, cosPsi, 0);
        double underDown = -place.up(sinTheta * cosPsi, sinTheta * sinPsi, cosTheta);
        rollDeg = Math.IEEEremainder(Math.toDegrees(heard.phi() + Math.atan2(rightDown, underDown)), 360) + 0.0;
    }

    @Override
    public AircraftState snapshot(double timeS) {
        return AircraftState.of(
                this, timeS, hasMotion() && hasAttitude() ? DeadReckoning.asSent(heard, algorithm(), turned) : null);
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
        return PduHeader.SECONDS_PER_HOUR;
    }

    @Override
    public String aircraft() {
        return memory == null ? "" : memory.name;
    }

    @Override
    public int exercise() {
        return memory == null ? Decoded.NO_EXERCISE : memory.exercise;
    }

    @Override
    public String marking() {
        return memory == null ? "" : memory.marking;
    }

    @Override
    public GroundPoint place() {
        return GroundPoint.under(place.normal());
    }

    @Override
    public double value(StateRange what) {
        return switch (what) {
            case LATITUDE_DEG -> place.latitudeDeg();
            case LONGITUDE_DEG -> place.longitudeDeg();
            case ALTITUDE_MSL_FT -> what.kept((place.heightM() - geoidHeightM) / Units.M_PER_FT);
            case HEADING_TRUE_DEG -> {
                level();
                yield headingTrueDeg;
            }
            case PITCH_DEG -> {
                level();
                yield what.kept(pitchDeg);
            }
            case ROLL_DEG -> {
                level();
                yield what.kept(rollDeg);
            }
            case TRACK_TRUE_DEG ->
                groundSpeedKt >= StateDraft.STANDING_STILL_KT ? place.directionDeg(vx, vy, vz) : Double.NaN;
            case GROUND_SPEED_KT -> groundSpeedKt;
            case VERTICAL_SPEED_FPM -> what.kept(upMps / Units.MPS_PER_FPM);
            case HEADING_MAGNETIC_DEG, INDICATED_AIRSPEED_KT -> Double.NaN;
        };
    }

    @Override
    public boolean paused() {
        return paused;
    }
}
