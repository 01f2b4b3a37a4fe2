package org.rejoin.protocol.dis;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Decoded.Control;
import org.rejoin.protocol.Decoded.Malformed;
import org.rejoin.protocol.Decoded.NotAPosition;
import org.rejoin.protocol.Wire;
import org.rejoin.protocol.WireFormat;

import org.junit.jupiter.api.Test;

/** Non-regression: PDUs that cannot be right, and what else a sender can do. */
class DisMalformedTest {

    private static List<Decoded> decode(byte[]... pdus) {
        return new DisFormat().newDecoder().decode(Wire.datagram(Wire.join(pdus)));
    }

    private static byte[] withFloat(int offset, float value) {
        byte[] pdu = DisVectors.ES_1.clone();
        ByteBuffer.wrap(pdu).putFloat(offset, value);
        return pdu;
    }

    @Test
    void fewerThanTwelveOctetsAreShort() {
        for (int length = 0; length < 12; length++) {
            List<Decoded> decoded = decode(Arrays.copyOf(DisVectors.ES_1, length));
            assertThat(decoded).hasSize(1);
            assertThat(Wire.faults(decoded).get(0).found()).isEqualTo(length + " octets");
        }
    }

    @Test
    void aLengthBelowTheHeaderEndsTheDatagram() {
        for (int length : new int[] {0, 1, 11}) {
            List<Decoded> decoded = decode(DisVectors.changed(DisVectors.ES_1, 8, 0, length), DisVectors.ES_1);
            assertThat(decoded).hasSize(1).first().isInstanceOf(Malformed.class);
        }
    }

    @Test
    void aLengthBeyondTheDatagramEndsItAfterTheGoodPdus() {
        List<Decoded> decoded = decode(DisVectors.ES_1, DisVectors.changed(DisVectors.ES_1, 8, 0xff, 0xff));
        assertThat(Wire.samples(decoded)).hasSize(1);
        assertThat(Wire.faults(decoded)).hasSize(1);
        assertThat(Wire.faults(decoded).get(0).offset()).isEqualTo(152);
    }

    @Test
    void anEntityStateCutShortIsDropped() {
        assertThat(decode(Arrays.copyOf(DisVectors.ES_1, 143)))
                .hasSize(1)
                .first()
                .isInstanceOf(Malformed.class);
        byte[] says143 = DisVectors.changed(DisVectors.ES_1, 9, 143);
        assertThat(Wire.samples(decode(says143))).isEmpty();
        assertThat(Wire.faults(decode(says143)).get(0).expected()).isEqualTo("at least 144 octets");
    }

    @Test
    void aRecordCountThatDoesNotFitLeavesTheStateGood() {
        assertThat(Wire.samples(decode(DisVectors.changed(DisVectors.ES_1, 19, 200), DisVectors.ES_1)))
                .hasSize(2);
        byte[] longer = DisVectors.changed(DisVectors.es2(), 19, 0);
        assertThat(Wire.samples(decode(longer, DisVectors.ES_1))).hasSize(2);
    }

    @Test
    void numbersThatAreNoneAreAbsent() {
        AircraftState noSpeed = Wire.state(decode(withFloat(36, Float.NaN)));
        assertThat(noSpeed.groundSpeedKt()).isEmpty();
        assertThat(noSpeed.headingTrueDeg()).isPresent();
        AircraftState noAttitude = Wire.state(decode(withFloat(72, Float.POSITIVE_INFINITY)));
        assertThat(noAttitude.headingTrueDeg()).isEmpty();
        assertThat(noAttitude.groundSpeedKt()).isPresent();
        byte[] nowhere = DisVectors.ES_1.clone();
        ByteBuffer.wrap(nowhere).putDouble(48, Double.NaN);
        assertThat(decode(nowhere)).hasSize(1).first().isInstanceOf(Malformed.class);
    }

    @Test
    void aLocationAwayFromTheSurfaceIsNoPosition() {
        byte[] zeros = DisVectors.ES_1.clone();
        Arrays.fill(zeros, 48, 72, (byte) 0);
        assertThat(decode(zeros)).hasSize(1).first().isInstanceOf(NotAPosition.class);
    }

    @Test
    void anglesInDegreesAreAbsentAndSaidOnce() {
        WireFormat.Decoder decoder = new DisFormat().newDecoder();
        List<Decoded> first = decoder.decode(Wire.datagram(withFloat(72, 127.3f)));
        assertThat(Wire.state(first).headingTrueDeg()).isEmpty();
        assertThat(Wire.faults(first)).hasSize(1);
        assertThat(Wire.faults(decoder.decode(Wire.datagram(withFloat(72, 127.3f)))))
                .isEmpty();
    }

    @Test
    void unknownVersionsAreDropped() {
        for (int version : new int[] {0, 8, 255}) {
            assertThat(decode(DisVectors.changed(DisVectors.ES_1, 0, version)))
                    .containsExactly(new Malformed(0, "protocol version " + version, "protocol version 4 to 7"));
        }
    }

    @Test
    void controlCharactersInTheMarkingAreNotShown() {
        byte[] pdu = DisVectors.changed(DisVectors.ES_1, 129, 'A', 7, 0x1b, 'B', 0xe9, ' ', ' ', 0, 'X', 'Y', 'Z');
        assertThat(Wire.samples(decode(pdu)).get(0).marking()).isEqualTo("A??B?");
        byte[] full = DisVectors.ES_1.clone();
        System.arraycopy("ELEVENCHARS".getBytes(StandardCharsets.US_ASCII), 0, full, 129, 11);
        assertThat(Wire.samples(decode(full)).get(0).marking()).isEqualTo("ELEVENCHARS");
    }

    @Test
    void shipsAndMissilesAreNoAircraft() {
        assertThat(decode(DisVectors.changed(DisVectors.ES_1, 20, 1, 3)).get(0)).isInstanceOf(NotAPosition.class);
        assertThat(decode(DisVectors.changed(DisVectors.ES_1, 20, 2, 2)).get(0)).isInstanceOf(NotAPosition.class);
    }

    @Test
    void aDeactivatedAircraftIsGone() {
        assertThat(decode(DisVectors.changed(DisVectors.ES_1, 84, 0, 0x80, 0, 0)))
                .containsExactly(new Control(Control.What.REMOVED, "17:23:1001", 1));
    }

    @Test
    void aMovingAircraftThatStaysInOnePlaceIsPausedAfterASecond() {
        WireFormat.Decoder decoder = new DisFormat().newDecoder();
        boolean[] paused = new boolean[4];
        for (int i = 0; i < 4; i++) {
            long micros = Wire.T0 + i * 400_000L;
            paused[i] = Wire.state(decoder.decode(Wire.datagram(micros, DisVectors.ES_1)))
                    .paused();
        }
        assertThat(paused).containsExactly(false, false, false, true);
    }

    @Test
    void anAircraftAtRestHasNoTrack() {
        byte[] rest = DisVectors.ES_1.clone();
        Arrays.fill(rest, 36, 48, (byte) 0);
        AircraftState state = Wire.state(decode(rest));
        assertThat(state.groundSpeedKt()).hasValue(0);
        assertThat(state.trackTrueDeg()).isEmpty();
        assertThat(state.paused()).isFalse();
    }

    @Test
    void theGeoidMayBeTakenOffTheHeight() {
        DisFormat standard = new DisFormat(-22.4);
        AircraftState state = Wire.state(standard.newDecoder().decode(Wire.datagram(DisVectors.ES_1)));
        assertThat(state.altitudeMslFt().orElseThrow())
                .isCloseTo((1828.8 + 22.4) / 0.3048, org.assertj.core.api.Assertions.within(1e-4));
    }
}
