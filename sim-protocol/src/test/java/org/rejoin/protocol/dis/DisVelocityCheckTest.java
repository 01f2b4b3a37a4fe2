package org.rejoin.protocol.dis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SplittableRandom;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Wire;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.earth.BodyAxes;
import org.rejoin.protocol.earth.Geodetic;
import org.rejoin.protocol.earth.Vector3;

import org.junit.jupiter.api.Test;

/** Velocities that do not follow the locations, as docs/wire-formats.md says. */
class DisVelocityCheckTest {

    private static final double KT = 120;

    /** A turn to the right at 1 deg/s over open ocean, 2 samples a second; nose 8 degrees left of the track. */
    private static List<byte[]> flown(int samples) {
        List<byte[]> pdus = new ArrayList<>();
        WireFormat.Encoder encoder = new DisFormat().newEncoder();
        double latitude = 30;
        double longitude = -145;
        for (int i = 0; i < samples; i++) {
            double track = (40 + i * 0.5) % 360;
            pdus.add(encoder.encode(new AircraftState(
                            i * 0.5,
                            latitude,
                            longitude,
                            OptionalDouble.of(6000),
                            OptionalDouble.of((track + 352) % 360),
                            OptionalDouble.empty(),
                            OptionalDouble.of(track),
                            OptionalDouble.of(KT),
                            OptionalDouble.of(0),
                            OptionalDouble.of(2),
                            OptionalDouble.of(6),
                            OptionalDouble.empty(),
                            false))
                    .get(0));
            double along = Math.toRadians(track + 0.25);
            latitude += KT / 3600 * 0.5 / 60 * Math.cos(along);
            longitude += KT / 3600 * 0.5 / 60 * Math.sin(along) / Math.cos(Math.toRadians(latitude));
        }
        return pdus;
    }

    /** The same velocity along the body's axes, whatever the algorithm says. */
    private static byte[] alongBody(byte[] pdu) {
        ByteBuffer octets = ByteBuffer.wrap(pdu.clone());
        BodyAxes axes = BodyAxes.of(new BodyAxes.Euler(octets.getFloat(72), octets.getFloat(76), octets.getFloat(80)));
        Vector3 sent = new Vector3(octets.getFloat(36), octets.getFloat(40), octets.getFloat(44));
        for (int axis = 0; axis < 3; axis++) {
            Vector3 unit = axes.toGeocentric(new Vector3(axis == 0 ? 1 : 0, axis == 1 ? 1 : 0, axis == 2 ? 1 : 0));
            octets.putFloat(36 + 4 * axis, (float) sent.dot(unit));
        }
        return octets.array();
    }

    private static List<Decoded> decode(List<byte[]> pdus, double jitterS, double rate) {
        WireFormat.Decoder decoder = new DisFormat().newDecoder();
        SplittableRandom random = new SplittableRandom(8);
        List<Decoded> all = new ArrayList<>();
        for (int i = 0; i < pdus.size(); i++) {
            long micros = Wire.T0 + Math.round((i * 0.5 / rate + jitterS * random.nextDouble()) * 1e6);
            all.addAll(decoder.decode(Wire.datagram(micros, pdus.get(i))));
        }
        return all;
    }

    private static void assertMotion(List<Decoded> decoded, int from) {
        List<Decoded.Sample> samples = Wire.samples(decoded);
        for (int i = from; i < samples.size(); i++) {
            AircraftState state = samples.get(i).state();
            assertThat(state.groundSpeedKt().orElseThrow()).isCloseTo(KT, within(0.1));
            assertThat(state.trackTrueDeg().orElseThrow()).isCloseTo(40 + i * 0.5, within(0.1));
        }
    }

    @Test
    void velocitiesThatFollowTheLocationsAreNotTouched() {
        for (double rate : new double[] {0.5, 1, 4}) {
            List<Decoded> decoded = decode(flown(200), 0.3, rate);
            assertThat(Wire.faults(decoded)).isEmpty();
            assertMotion(decoded, 0);
        }
    }

    @Test
    void velocitiesAlongTheBodyAreFoundOutSaidOnceAndRead() {
        List<Decoded> decoded =
                decode(flown(200).stream().map(DisVelocityCheckTest::alongBody).toList(), 0.3, 1);
        assertThat(Wire.faults(decoded))
                .singleElement()
                .satisfies(fault -> assertThat(fault.found()).contains("other axes"));
        assertMotion(decoded, 30);
    }

    @Test
    void velocitiesInAnotherUnitAreLeftOutAndSaid() {
        List<byte[]> knots = new ArrayList<>();
        for (byte[] pdu : flown(200)) {
            ByteBuffer octets = ByteBuffer.wrap(pdu);
            for (int at = 36; at < 48; at += 4) {
                octets.putFloat(at, octets.getFloat(at) * 3600 / 1852);
            }
            knots.add(pdu);
        }
        List<Decoded> decoded = decode(knots, 0.1, 1);
        assertThat(Wire.faults(decoded))
                .singleElement()
                .satisfies(fault -> assertThat(fault.found()).contains("120 m/s", "move at 6"));
        List<Decoded.Sample> samples = Wire.samples(decoded);
        assertThat(samples.get(199).state().groundSpeedKt()).isEmpty();
        assertThat(samples.get(199).state().trackTrueDeg()).isEmpty();
        assertThat(samples.get(199).state().headingTrueDeg()).isPresent();
    }

    @Test
    void aJumpDoesNotChangeTheAxes() {
        List<byte[]> pdus = new ArrayList<>(flown(60));
        for (byte[] pdu : flown(60)) {
            ByteBuffer octets = ByteBuffer.wrap(pdu.clone());
            Vector3 place = new Vector3(octets.getDouble(48), octets.getDouble(56), octets.getDouble(64));
            Geodetic at = Geodetic.fromGeocentric(place);
            Vector3 elsewhere = new Geodetic(at.latitudeDeg(), at.longitudeDeg() + 0.01, at.heightM()).toGeocentric();
            octets.putDouble(48, elsewhere.x()).putDouble(56, elsewhere.y()).putDouble(64, elsewhere.z());
            pdus.add(octets.array());
        }
        assertThat(Wire.faults(decode(pdus, 0, 1))).isEmpty();
    }
}
