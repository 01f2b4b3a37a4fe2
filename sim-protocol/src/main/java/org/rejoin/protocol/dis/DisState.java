package org.rejoin.protocol.dis;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Angles;
import org.rejoin.protocol.StateRange;
import org.rejoin.protocol.StateView;
import org.rejoin.protocol.Units;
import org.rejoin.protocol.earth.BodyAxes;
import org.rejoin.protocol.earth.FootPoint;
import org.rejoin.protocol.earth.Geodetic;
import org.rejoin.protocol.earth.LocalAxes;
import org.rejoin.protocol.earth.Vector3;

import org.jspecify.annotations.Nullable;

/**
 * One PDU as a state. The position is worked out at once, as normal and height; degrees, attitude and dead reckoning when
 * they are asked for. Used again for each PDU.
 */
final class DisState implements StateView {

    /** Below this a direction of motion is noise. Knots. */
    private static final double STANDING_STILL_KT = 1;

    /** What single precision may add to a full turn. */
    private static final double LARGEST_ANGLE = 2 * Math.PI + 1e-3;

    // Nobody flies outside this shell; all zeros are common before a flight is loaded. Metres from the Earth's centre.
    private static final double SHELL_INSIDE_M = 6_300_000;
    private static final double SHELL_OUTSIDE_M = 6_500_000;

    private final double geoidHeightM;
    private final EntityState heard;
    private final FootPoint place = new FootPoint();
    private double receivedS;
    private double sourceS;
    private String aircraft = "";
    private String marking = "";
    private int algorithm;
    private boolean turned;
    private boolean paused;
    private double north;
    private double east;
    private double up;
    private BodyAxes.@Nullable Attitude attitude;

    /** Views of what is read into one EntityState. */
    DisState(double geoidHeightM, EntityState heard) {
        this.geoidHeightM = geoidHeightM;
        this.heard = heard;
    }

    /** False too for what is no number. */
    static boolean isNearTheSurface(double x, double y, double z) {
        double squared = x * x + y * y + z * z;
        return squared >= SHELL_INSIDE_M * SHELL_INSIDE_M && squared <= SHELL_OUTSIDE_M * SHELL_OUTSIDE_M;
    }

    /** Whether Euler angles are within a turn either way; false too for what is no number. */
    static boolean isTurn(double psi, double theta, double phi) {
        return Math.abs(psi) <= LARGEST_ANGLE && Math.abs(theta) <= LARGEST_ANGLE && Math.abs(phi) <= LARGEST_ANGLE;
    }

    static double groundSpeedKt(double northMps, double eastMps) {
        return Math.sqrt(northMps * northMps + eastMps * eastMps) / Units.MPS_PER_KT;
    }

    /** NaN while standing still. */
    static double trackTrueDeg(double northMps, double eastMps) {
        return groundSpeedKt(northMps, eastMps) >= STANDING_STILL_KT
                ? Angles.direction(Math.toDegrees(Math.atan2(eastMps, northMps)))
                : Double.NaN;
    }

    /** Takes the PDU that the EntityState is at, with a location near the surface; as yet without motion. */
    void take(Entities.Memory memory, double sentS, double atS) {
        place.locate(heard.locationX(), heard.locationY(), heard.locationZ());
        sourceS = sentS;
        receivedS = atS;
        aircraft = memory.name();
        marking = memory.marking();
        algorithm = memory.algorithm();
        attitude = null;
        north = Double.NaN;
        east = Double.NaN;
        up = Double.NaN;
    }

    /** Takes the velocity of the PDU: along the body's axes, or earth-centred. */
    void move(boolean alongBody) {
        turned = alongBody != DeadReckoning.alongBody(algorithm);
        if (alongBody) {
            Vector3 velocity = BodyAxes.of(heard.orientation()).toGeocentric(heard.velocity());
            move(velocity.x(), velocity.y(), velocity.z());
        } else {
            move(heard.velocityX(), heard.velocityY(), heard.velocityZ());
        }
    }

    private void move(double vx, double vy, double vz) {
        north = place.north(vx, vy, vz);
        east = place.east(vx, vy);
        up = place.up(vx, vy, vz);
    }

    void pause(boolean standsStill) {
        paused = standsStill;
    }

    boolean hasAttitude() {
        return isTurn(heard.psi(), heard.theta(), heard.phi());
    }

    private boolean hasMotion() {
        return !Double.isNaN(north);
    }

    private BodyAxes.@Nullable Attitude attitude() {
        if (attitude == null && hasAttitude()) {
            LocalAxes local = LocalAxes.at(new Geodetic(latitudeDeg(), longitudeDeg(), 0));
            attitude = BodyAxes.of(heard.orientation()).attitudeIn(local);
        }
        return attitude;
    }

    @Override
    public AircraftState snapshot(double timeS) {
        return AircraftState.of(
                this,
                timeS,
                hasMotion() && hasAttitude()
                        ? DeadReckoning.of(heard, algorithm, turned).orElse(null)
                        : null);
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
        return aircraft;
    }

    @Override
    public String marking() {
        return marking;
    }

    @Override
    public double normalX() {
        return place.normalX();
    }

    @Override
    public double normalY() {
        return place.normalY();
    }

    @Override
    public double normalZ() {
        return place.normalZ();
    }

    @Override
    public double latitudeDeg() {
        return place.latitudeDeg() + 0.0;
    }

    @Override
    public double longitudeDeg() {
        return place.longitudeDeg();
    }

    @Override
    public double altitudeMslFt() {
        return StateRange.ALTITUDE_MSL_FT.kept((place.heightM() - geoidHeightM) / Units.M_PER_FT);
    }

    @Override
    public double headingTrueDeg() {
        BodyAxes.Attitude seen = attitude();
        return seen == null ? Double.NaN : seen.headingTrueDeg();
    }

    @Override
    public double headingMagneticDeg() {
        return Double.NaN;
    }

    @Override
    public double trackTrueDeg() {
        return trackTrueDeg(north, east);
    }

    @Override
    public double groundSpeedKt() {
        return StateRange.GROUND_SPEED_KT.kept(groundSpeedKt(north, east));
    }

    @Override
    public double verticalSpeedFpm() {
        return StateRange.VERTICAL_SPEED_FPM.kept(up / Units.MPS_PER_FPM);
    }

    @Override
    public double pitchDeg() {
        BodyAxes.Attitude seen = attitude();
        return seen == null ? Double.NaN : StateRange.PITCH_DEG.kept(seen.pitchDeg());
    }

    @Override
    public double rollDeg() {
        BodyAxes.Attitude seen = attitude();
        return seen == null ? Double.NaN : StateRange.ROLL_DEG.kept(seen.rollDeg());
    }

    @Override
    public double indicatedAirspeedKt() {
        return Double.NaN;
    }

    @Override
    public boolean paused() {
        return paused;
    }
}
