package org.rejoin.protocol.dis;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.List;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Units;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.earth.BodyAxes;
import org.rejoin.protocol.earth.Geodetic;
import org.rejoin.protocol.earth.LocalAxes;
import org.rejoin.protocol.earth.Vector3;

/**
 * Sends one air platform as Entity State PDUs of protocol version 7. What a state leaves open is sent as zero, except
 * that the nose follows the track where no heading is known: DIS has no way to leave a field out.
 */
final class DisEncoder implements WireFormat.Encoder {

    private static final EntityId ID = new EntityId(1, 1, 1);
    private static final String MARKING = "REJOIN1";
    private static final int EXERCISE = 1;
    private static final int FAMILY_ENTITY = 1;
    private static final int FORCE_NEUTRAL = 3;
    private static final int ASCII = 1;

    /** Constant velocity, no rotation, earth-centred axes: all that a single state supports. */
    private static final int ALGORITHM_FPW = 2;

    private final double geoidHeightM;

    DisEncoder(double geoidHeightM) {
        this.geoidHeightM = geoidHeightM;
    }

    @Override
    public List<byte[]> encode(AircraftState state) {
        double heightM = state.altitudeMslFt().orElse(0) * Units.M_PER_FT + geoidHeightM;
        Geodetic place = new Geodetic(state.latitudeDeg(), state.longitudeDeg(), heightM);
        LocalAxes local = LocalAxes.at(place);
        Vector3 location = place.toGeocentric();
        Vector3 velocity = velocity(state, local);
        double heading = state.headingTrueDeg().orElse(state.trackTrueDeg().orElse(0));
        BodyAxes.Attitude attitude = new BodyAxes.Attitude(
                heading, state.pitchDeg().orElse(0), state.rollDeg().orElse(0));
        BodyAxes.Euler angles = BodyAxes.of(attitude, local).euler();

        byte[] pdu = new byte[EntityState.FIXED_LENGTH];
        ByteBuffer out = ByteBuffer.wrap(pdu);
        out.put((byte) PduHeader.NEWEST_VERSION)
                .put((byte) EXERCISE)
                .put((byte) PduType.ENTITY_STATE)
                .put((byte) FAMILY_ENTITY)
                .putInt(PduHeader.relativeTimestamp(state.timeS()))
                .putShort((short) EntityState.FIXED_LENGTH)
                .putShort((short) 0);
        out.putShort((short) ID.site()).putShort((short) ID.application()).putShort((short) ID.entity());
        out.put((byte) FORCE_NEUTRAL).put((byte) 0);
        out.put((byte) EntityState.KIND_PLATFORM).put((byte) EntityState.DOMAIN_AIR);
        out.position(36);
        out.putFloat((float) velocity.x()).putFloat((float) velocity.y()).putFloat((float) velocity.z());
        out.putDouble(location.x()).putDouble(location.y()).putDouble(location.z());
        out.putFloat((float) angles.psi()).putFloat((float) angles.theta()).putFloat((float) angles.phi());
        out.putInt(EntityState.POWER_PLANT_ON | (state.paused() ? EntityState.FROZEN : 0));
        out.put((byte) ALGORITHM_FPW);
        out.position(128);
        out.put((byte) ASCII).put(MARKING.getBytes(StandardCharsets.US_ASCII));
        return List.of(pdu);
    }

    private static Vector3 velocity(AircraftState state, LocalAxes local) {
        double track = Math.toRadians(
                state.trackTrueDeg().orElse(state.headingTrueDeg().orElse(0)));
        double speed = state.groundSpeedKt().orElse(0) * Units.MPS_PER_KT;
        double climb = state.verticalSpeedFpm().orElse(0) * Units.MPS_PER_FPM;
        return local.toGeocentric(speed * Math.cos(track), speed * Math.sin(track), -climb);
    }
}
