package org.rejoin.protocol.dis;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.List;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Units;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.earth.BodyAxes;
import org.rejoin.protocol.earth.Geodetic;
import org.rejoin.protocol.earth.LocalAxes;
import org.rejoin.protocol.earth.Vector3;

/**
 * DIS, IEEE 1278.1-1995, 1278.1a-1998 and 1278.1-2012.
 *
 * <p>A DIS location is a height above the ellipsoid by the standard, but most home simulators know no geoid and put
 * altitude above mean sea level there. So by default the height is taken as altitude above mean sea level; for a sender
 * that keeps to the standard, give the geoid's height at the place of the exercise.
 *
 * @param geoidHeightM height of mean sea level above the ellipsoid, metres, subtracted when decoding and added when
 *     encoding; 0 takes heights as altitudes; [-110, 90]
 */
public record DisFormat(double geoidHeightM) implements WireFormat {

    /**
     * Checks the geoid height.
     *
     * @throws IllegalArgumentException if it is not in -110 to 90, which no geoid leaves
     */
    public DisFormat {
        if (!(geoidHeightM >= -110 && geoidHeightM <= 90)) {
            throw new IllegalArgumentException("geoidHeightM " + geoidHeightM + " is not in -110 to 90");
        }
    }

    /** The usual case: heights on the wire are altitudes above mean sea level. */
    public DisFormat() {
        this(0);
    }

    @Override
    public String name() {
        return "dis";
    }

    @Override
    public boolean recognises(Datagram datagram) {
        ByteBuffer octets = datagram.payload();
        if (!PduHeader.isGood(octets, 0) || PduHeader.type(octets, 0) == 0 || PduHeader.family(octets, 0) == 0) {
            return false;
        }
        int records = PduHeader.length(octets, 0) - EntityState.FIXED_LENGTH;
        return PduHeader.type(octets, 0) != PduHeader.ENTITY_STATE
                || (records >= 0 && records % EntityState.RECORD_LENGTH == 0);
    }

    @Override
    public Decoder newDecoder() {
        return new DisDecoder(geoidHeightM);
    }

    @Override
    public Encoder newEncoder() {
        return new Writer(geoidHeightM);
    }

    /**
     * Sends one air platform as Entity State PDUs of protocol version 7. What a state leaves open is sent as zero, except
     * that the nose follows the track where no heading is known: DIS has no way to leave a field out.
     */
    private record Writer(double geoidHeightM) implements Encoder {

        private static final EntityState.Id ID = new EntityState.Id(1, 1, 1);
        private static final String MARKING = "REJOIN1";
        private static final int EXERCISE = 1;
        private static final int FAMILY_ENTITY = 1;
        private static final int FORCE_NEUTRAL = 3;
        private static final int ASCII = 1;

        /** Constant velocity, no rotation, earth-centred axes: all that a single state supports. */
        private static final int ALGORITHM_FPW = 2;

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
                    .put((byte) PduHeader.ENTITY_STATE)
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
}
