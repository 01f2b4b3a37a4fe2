package org.rejoin.protocol.dis;

import java.util.Optional;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Reckoning;
import org.rejoin.protocol.StateDraft;
import org.rejoin.protocol.StateRange;
import org.rejoin.protocol.Units;
import org.rejoin.protocol.earth.BodyAxes;
import org.rejoin.protocol.earth.Geodetic;
import org.rejoin.protocol.earth.LocalAxes;
import org.rejoin.protocol.earth.Vector3;

import org.jspecify.annotations.Nullable;

/**
 * Dead reckoning by the algorithms of IEEE 1278.1, Annex E: 2 FPW, 3 RPW, 4 RVW, 5 FVW in the world's axes, 6 FPB, 7 RPB, 8
 * RVB, 9 FVB in the body's.
 *
 * @param algorithm 2 to 9
 * @param location earth-centred, m
 * @param velocity m/s, along the algorithm's axes
 * @param acceleration m/s^2, along the same
 * @param orientation of the body at the sample
 * @param turning rate of turn about the body's axes, rad/s
 */
record DeadReckoning(
        int algorithm,
        Vector3 location,
        Vector3 velocity,
        Vector3 acceleration,
        BodyAxes.Euler orientation,
        Vector3 turning)
        implements Reckoning {

    private static final Vector3 NOTHING = new Vector3(0, 0, 0);
    private static final int FPW = 2;
    private static final int FVB = 9;
    /** From an algorithm in the world's axes to the same in the body's. */
    private static final int TO_BODY = 4;
    /** Turned by less than this, radians, the first terms of the series are exact. */
    private static final double SMALL = 1e-4;
    /** Velocity is measured from a path over this, seconds. */
    private static final double INSTANT_S = 0.01;

    /** Whether an algorithm has the velocity along the body's axes. */
    static boolean alongBody(int algorithm) {
        return algorithm >= FPW + TO_BODY && algorithm <= FVB;
    }

    /**
     * As a PDU says, where its algorithm says that the aircraft goes on; read when it is asked for.
     *
     * @param heard the PDU, with an attitude and a velocity
     * @param algorithm in force
     * @param otherAxes whether the velocity is not in the axes that the algorithm states
     * @return null for algorithms 0 (other) and 1 (static)
     */
    static @Nullable Reckoning asSent(EntityState heard, int algorithm, boolean otherAxes) {
        if (algorithm < FPW || algorithm > FVB) {
            return null;
        }
        int meant = !otherAxes ? algorithm : alongBody(algorithm) ? algorithm - TO_BODY : algorithm + TO_BODY;
        return heard.reckoning(meant);
    }

    /** What a PDU says, by an algorithm of 2 to 9. */
    static DeadReckoning of(EntityState heard, int algorithm) {
        return new DeadReckoning(
                algorithm,
                heard.location(),
                heard.velocity(),
                heard.acceleration(),
                heard.orientation(),
                heard.turning());
    }

    /** Where it is after a while, earth-centred, m. */
    Vector3 locationAt(double t) {
        double half = accelerates() ? t * t / 2 : 0;
        if (!alongBody(algorithm)) {
            return Vector3.combine(1, location, t, velocity, half, acceleration);
        }
        Vector3 moved = turns()
                ? Vector3.combine(
                        1, summed(velocity, t), accelerates() ? 1 : 0, summedTwice(acceleration, t), 0, NOTHING)
                : Vector3.combine(t, velocity, half, acceleration, 0, NOTHING);
        return Vector3.combine(1, location, 1, BodyAxes.of(orientation).toGeocentric(moved), 0, NOTHING);
    }

    /** How the body stands then. */
    BodyAxes axesAt(double t) {
        BodyAxes axes = BodyAxes.of(orientation);
        return turns()
                ? new BodyAxes(
                        axes.toGeocentric(turned(new Vector3(1, 0, 0), t)),
                        axes.toGeocentric(turned(new Vector3(0, 1, 0), t)),
                        axes.toGeocentric(turned(new Vector3(0, 0, 1), t)))
                : axes;
    }

    @Override
    public Optional<AircraftState> after(AircraftState sample, double seconds) {
        Vector3 there = locationAt(seconds);
        if (!Geodetic.isNearTheSurface(there.x(), there.y(), there.z())) {
            return Optional.empty();
        }
        Geodetic place = Geodetic.fromGeocentric(there);
        LocalAxes local = LocalAxes.at(place);
        StateDraft draft = new StateDraft().position(place.latitudeDeg(), place.longitudeDeg());
        // As far above the sea as the sample says, not by this class's own geoid.
        double climbedFt = (place.heightM() - Geodetic.fromGeocentric(location).heightM()) / Units.M_PER_FT;
        sample.altitudeMslFt().ifPresent(feet -> draft.set(StateRange.ALTITUDE_MSL_FT, feet + climbedFt));
        BodyAxes.Attitude attitude = axesAt(seconds).attitudeIn(local);
        draft.set(StateRange.HEADING_TRUE_DEG, attitude.headingTrueDeg())
                .set(StateRange.PITCH_DEG, attitude.pitchDeg())
                .set(StateRange.ROLL_DEG, attitude.rollDeg())
                .paused(sample.paused());
        Vector3 step = locationAt(seconds + INSTANT_S).minus(locationAt(seconds - INSTANT_S));
        double perS = 1 / (2 * INSTANT_S);
        double north = step.dot(local.north()) * perS;
        double east = step.dot(local.east()) * perS;
        double knots = Math.sqrt(north * north + east * east) / Units.MPS_PER_KT;
        draft.set(StateRange.GROUND_SPEED_KT, knots)
                .set(
                        StateRange.TRACK_TRUE_DEG,
                        knots >= StateDraft.STANDING_STILL_KT ? Math.toDegrees(Math.atan2(east, north)) : Double.NaN)
                .set(StateRange.VERTICAL_SPEED_FPM, -step.dot(local.down()) * perS / Units.MPS_PER_FPM);
        return draft.state(sample.timeS() + seconds);
    }

    private int kind() {
        return alongBody(algorithm) ? algorithm - TO_BODY : algorithm;
    }

    private boolean turns() {
        return kind() == 3 || kind() == 4;
    }

    private boolean accelerates() {
        return kind() == 4 || kind() == 5;
    }

    private Vector3 aroundTurning(Vector3 v) {
        return new Vector3(
                turning.y() * v.z() - turning.z() * v.y(),
                turning.z() * v.x() - turning.x() * v.z(),
                turning.x() * v.y() - turning.y() * v.x());
    }

    /** A vector that turns with the body, in the axes the body had: the transpose of Annex E's DR. */
    private Vector3 turned(Vector3 v, double t) {
        double w = turning.length();
        if (w * t < SMALL && w * t > -SMALL) {
            return Vector3.combine(1, v, t, aroundTurning(v), 0, NOTHING);
        }
        double sin = Math.sin(w * t);
        double cos = Math.cos(w * t);
        return Vector3.combine((1 - cos) / (w * w) * turning.dot(v), turning, cos, v, sin / w, aroundTurning(v));
    }

    /** Its sum over the time: R1 of Annex E. */
    private Vector3 summed(Vector3 v, double t) {
        double w = turning.length();
        if (w * t < SMALL && w * t > -SMALL) {
            return Vector3.combine(t, v, t * t / 2, aroundTurning(v), 0, NOTHING);
        }
        double sin = Math.sin(w * t);
        double cos = Math.cos(w * t);
        return Vector3.combine(
                (w * t - sin) / (w * w * w) * turning.dot(v),
                turning,
                sin / w,
                v,
                (1 - cos) / (w * w),
                aroundTurning(v));
    }

    /** The sum of a vector that turns with the body and grows with the time: R2 of Annex E. */
    private Vector3 summedTwice(Vector3 v, double t) {
        double w = turning.length();
        if (w * t < SMALL && w * t > -SMALL) {
            return Vector3.combine(t * t / 2, v, t * t * t / 3, aroundTurning(v), 0, NOTHING);
        }
        double turn = w * t;
        double sin = Math.sin(turn);
        double cos = Math.cos(turn);
        return Vector3.combine(
                (turn * turn / 2 - cos - turn * sin + 1) / (w * w * w * w) * turning.dot(v),
                turning,
                (cos + turn * sin - 1) / (w * w),
                v,
                (sin - turn * cos) / (w * w * w),
                aroundTurning(v));
    }
}
