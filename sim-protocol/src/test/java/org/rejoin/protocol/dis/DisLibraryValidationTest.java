package org.rejoin.protocol.dis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.ByteBuffer;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Wire;

import edu.nps.moves.dis7.EntityID;
import edu.nps.moves.dis7.EntityStatePdu;
import edu.nps.moves.dis7.EntityType;
import edu.nps.moves.dis7.Vector3Double;
import edu.nps.moves.dis7.Vector3Float;
import org.junit.jupiter.api.Test;

/** Validation against an independent library of the standard, both ways. */
class DisLibraryValidationTest {

    @Test
    void theLibraryReadsWhatWeSend() {
        byte[] ours =
                new DisFormat().newEncoder().encode(Wire.referenceState(754.5)).get(0);
        EntityStatePdu pdu = new EntityStatePdu();
        pdu.unmarshal(ByteBuffer.wrap(ours));
        assertThat(pdu.getProtocolVersion()).isEqualTo((short) 7);
        assertThat(pdu.getPduType()).isEqualTo((short) 1);
        assertThat(pdu.getEntityType().getEntityKind()).isEqualTo((short) 1);
        assertThat(pdu.getEntityType().getDomain()).isEqualTo((short) 2);
        assertThat(pdu.getEntityLocation().getX()).isCloseTo(-4520626.781182117, within(1e-6));
        assertThat(pdu.getEntityLocation().getY()).isCloseTo(-3136070.386428352, within(1e-6));
        assertThat(pdu.getEntityLocation().getZ()).isCloseTo(3219182.731835285, within(1e-6));
        assertThat((double) pdu.getEntityLinearVelocity().getX()).isCloseTo(-35.270252, within(1e-5));
        assertThat((double) pdu.getEntityOrientation().getPsi()).isCloseTo(2.2224236, within(1e-6));
        assertThat((double) pdu.getEntityOrientation().getTheta()).isCloseTo(-0.02656563, within(1e-6));
        assertThat((double) pdu.getEntityOrientation().getPhi()).isCloseTo(1.7534564, within(1e-6));
        assertThat(new String(pdu.getMarking().getCharacters(), java.nio.charset.StandardCharsets.US_ASCII))
                .startsWith("REJOIN1");
        // The library reads the stamp as a signed number; at 754.5 s that makes no difference.
        assertThat(pdu.getTimestamp()).isEqualTo(0x35A740DAL);
    }

    @Test
    void weReadWhatTheLibrarySends() {
        EntityStatePdu pdu = new EntityStatePdu();
        pdu.setExerciseID((short) 1);
        pdu.setTimestamp(0x35A740DBL);
        EntityID id = new EntityID();
        id.setSiteID(17);
        id.setApplicationID(23);
        id.setEntityID(1001);
        pdu.setEntityID(id);
        EntityType type = new EntityType();
        type.setEntityKind((short) 1);
        type.setDomain((short) 2);
        pdu.setEntityType(type);
        Vector3Double location = new Vector3Double();
        location.setX(-4520626.781182117);
        location.setY(-3136070.386428352);
        location.setZ(3219182.731835285);
        pdu.setEntityLocation(location);
        Vector3Float velocity = new Vector3Float();
        velocity.setX(-35.270252f);
        velocity.setY(48.694570f);
        velocity.setZ(-9.084216f);
        pdu.setEntityLinearVelocity(velocity);
        pdu.getEntityOrientation().setPsi(2.2224236f);
        pdu.getEntityOrientation().setTheta(-0.02656563f);
        pdu.getEntityOrientation().setPhi(1.7534564f);
        ByteBuffer octets = ByteBuffer.allocate(pdu.getMarshalledSize());
        pdu.marshal(octets);
        octets.putShort(8, (short) octets.capacity());

        AircraftState state = Wire.state(new DisFormat().newDecoder().decode(Wire.datagram(octets.array())));
        assertThat(state.latitudeDeg()).isCloseTo(30.5, within(1e-9));
        assertThat(state.longitudeDeg()).isCloseTo(-145.25, within(1e-9));
        assertThat(state.headingTrueDeg().orElseThrow()).isCloseTo(270, within(2e-5));
        assertThat(state.groundSpeedKt().orElseThrow()).isCloseTo(118, within(1e-4));
    }
}
