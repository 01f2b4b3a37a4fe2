package org.rejoin.protocol.dis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.ByteBuffer;
import java.util.List;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Decoded.Control;
import org.rejoin.protocol.Decoded.NotAPosition;
import org.rejoin.protocol.Decoded.Sample;
import org.rejoin.protocol.SourceTime;
import org.rejoin.protocol.Wire;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Validation: octets written by an independent DIS library; tolerances are those of single precision on the wire. */
class DisVectorValidationTest {

    private static List<Decoded> decode(byte[]... pdus) {
        return new DisFormat().newDecoder().decode(Wire.datagram(Wire.join(pdus)));
    }

    private static void assertReference(AircraftState state) {
        assertThat(state.latitudeDeg()).isCloseTo(30.5, within(1e-9));
        assertThat(state.longitudeDeg()).isCloseTo(-145.25, within(1e-9));
        assertThat(state.altitudeMslFt().orElseThrow()).isCloseTo(6000, within(1e-4));
        assertThat(state.headingTrueDeg().orElseThrow()).isCloseTo(270, within(2e-5));
        assertThat(state.headingMagneticDeg()).isEmpty();
        assertThat(state.pitchDeg().orElseThrow()).isCloseTo(3, within(2e-5));
        assertThat(state.rollDeg().orElseThrow()).isCloseTo(-20, within(2e-5));
        assertThat(state.groundSpeedKt().orElseThrow()).isCloseTo(118, within(1e-4));
        assertThat(state.trackTrueDeg().orElseThrow()).isCloseTo(262, within(1e-4));
        // 1.3e-5 deg of single-precision attitude, times the speed, where velocity comes along the body.
        assertThat(state.verticalSpeedFpm().orElseThrow()).isCloseTo(-700, within(5e-3));
    }

    @Test
    void anEntityStateGivesTheReferenceState() {
        List<Decoded> decoded = decode(DisVectors.ES_1);
        assertReference(Wire.state(decoded));
        Sample sample = (Sample) decoded.get(0);
        assertThat(sample.aircraft()).isEqualTo("17:23:1001");
        assertThat(sample.marking()).isEqualTo("REJOIN1");
        assertThat(sample.state().paused()).isFalse();
        assertThat(sample.source().orElseThrow().seconds()).isCloseTo(754.5, within(2e-6));
        assertThat(sample.source().orElseThrow().wrapS()).isEqualTo(3600);
    }

    @Test
    void versionsFiveAndSixHaveTheSameLayout() {
        assertReference(Wire.state(decode(DisVectors.changed(DisVectors.ES_1, 0, 5))));
        assertReference(Wire.state(decode(DisVectors.changed(DisVectors.ES_1, 0, 6))));
    }

    @Test
    void anArticulatedPartChangesNothing() {
        assertReference(Wire.state(decode(DisVectors.es2())));
    }

    @Test
    void anUpdateWithTheFrozenBitIsAPausedSample() {
        AircraftState state = Wire.state(decode(DisVectors.ESU_1));
        assertReference(state);
        assertThat(state.paused()).isTrue();
    }

    @Test
    void stopFreezeToAllPausesAndStartResumeGoesOn() {
        assertThat(decode(DisVectors.SF_1)).containsExactly(new Control(Control.What.PAUSED, "", 1));
        byte[] resume = Wire.hex("""
                07 01 0d 05 35 a7 40 db 00 2c 00 00 00 11 00 17
                00 00 00 11 00 17 03 e9 00 07 a1 20 35 a7 40 db
                00 00 00 00 35 a7 40 db 00 00 00 08""");
        assertThat(decode(resume)).containsExactly(new Control(Control.What.RESUMED, "17:23:1001", 1));
    }

    @Test
    void bundlesAreTakenApart() {
        assertThat(Wire.samples(decode(DisVectors.ES_1, DisVectors.ES_1))).hasSize(2);
        List<Decoded> stopped = decode(DisVectors.SF_1, DisVectors.ES_1);
        assertThat(stopped).hasSize(2);
        assertThat(stopped.get(0)).isEqualTo(new Control(Control.What.PAUSED, "", 1));
        assertReference(Wire.state(stopped));
    }

    @Test
    void paddingBetweenPdusIsSteppedOver() {
        List<Decoded> decoded = decode(DisVectors.REMOVE, new byte[4], DisVectors.ES_1);
        assertThat(decoded).hasSize(2);
        assertThat(decoded.get(0)).isEqualTo(new Control(Control.What.REMOVED, "", 1));
        assertReference(Wire.state(decoded));
    }

    @Test
    void anUnknownPduIsSkippedByItsLength() {
        List<Decoded> decoded = decode(DisVectors.changed(DisVectors.ES_1, 2, 0x45), DisVectors.ES_1);
        assertThat(decoded.get(0)).isEqualTo(new NotAPosition("PDU type 69"));
        assertReference(Wire.state(decoded));
    }

    @ParameterizedTest
    @CsvSource({
        "0, 00000000",
        "0, 00000001",
        "1.0, 00123457",
        "754.5, 35A740DB",
        "1800, 80000000",
        "1800, 80000001",
        "3599.999, FFFFFB57"
    })
    void timestampsAreUnsigned(double seconds, String octets) {
        byte[] pdu = DisVectors.ES_1.clone();
        System.arraycopy(Wire.hex(octets), 0, pdu, 4, 4);
        SourceTime time = ((Sample) decode(pdu).get(0)).source().orElseThrow();
        assertThat(time.seconds()).isCloseTo(seconds, within(2e-6));
    }

    @ParameterizedTest
    @CsvSource({
        "0, 00000000",
        "1.0, 00123456",
        "754.5, 35A740DA",
        "1800, 80000000",
        "3599.999, FFFFFB56",
        "5400, 80000000"
    })
    void timestampsAreSentPastTheHour(double seconds, String octets) {
        byte[] pdu = new DisFormat()
                .newEncoder()
                .encode(Wire.referenceState(seconds))
                .get(0);
        assertThat(ByteBuffer.wrap(pdu).getInt(4))
                .isEqualTo(ByteBuffer.wrap(Wire.hex(octets)).getInt());
    }

    @Test
    void velocityInBodyAxesIsTurnedIntoThoseOfTheEarth() {
        for (int algorithm = 6; algorithm <= 9; algorithm++) {
            byte[] pdu = DisVectors.changed(DisVectors.ES_1, 88, algorithm);
            // Case C in body axes.
            ByteBuffer.wrap(pdu)
                    .putFloat(36, (float) 59.845183)
                    .putFloat(40, -10.229512f)
                    .putFloat(44, 3.403809f);
            assertReference(Wire.state(decode(pdu)));
        }
    }

    @Test
    void anUpdateKeepsTheAxesOfTheLastFullState() {
        byte[] full = DisVectors.changed(DisVectors.ES_1, 88, 8);
        byte[] update = DisVectors.ESU_1.clone();
        ByteBuffer.wrap(update)
                .putFloat(20, (float) 59.845183)
                .putFloat(24, -10.229512f)
                .putFloat(28, 3.403809f);
        List<Sample> samples = Wire.samples(decode(full, update));
        assertReference(samples.get(1).state());
        assertThat(samples.get(1).marking()).isEqualTo("REJOIN1");
    }
}
