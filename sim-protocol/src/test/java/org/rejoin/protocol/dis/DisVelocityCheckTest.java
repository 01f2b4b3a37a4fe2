package org.rejoin.protocol.dis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import java.util.function.UnaryOperator;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Wire;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.earth.BodyAxes;
import org.rejoin.protocol.earth.Geodetic;
import org.rejoin.protocol.earth.LocalAxes;
import org.rejoin.protocol.earth.Vector3;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

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

    private static List<String> remarks(List<Decoded> decoded) {
        assertThat(Wire.faults(decoded)).isEmpty();
        return decoded.stream()
                .filter(Decoded.Remark.class::isInstance)
                .map(one -> ((Decoded.Remark) one).text())
                .toList();
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
            assertThat(remarks(decoded)).isEmpty();
            assertMotion(decoded, 0);
        }
    }

    @Test
    void velocitiesAlongTheBodyAreFoundOutSaidOnceAndRead() {
        List<Decoded> decoded =
                decode(flown(200).stream().map(DisVelocityCheckTest::alongBody).toList(), 0.3, 1);
        assertThat(remarks(decoded))
                .singleElement()
                .satisfies(text -> assertThat(text).contains("other axes"));
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
        assertThat(remarks(decoded))
                .singleElement()
                .satisfies(text -> assertThat(text).contains("120 m/s", "move at 6"));
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
        assertThat(remarks(decode(pdus, 0, 1))).isEmpty();
    }

    /** Straight on at 151 kt, 77.7 m/s, for 40 s; the velocity as a sender might send it instead. */
    private static List<Decoded> straight(int hz, double jitterS, UnaryOperator<Vector3> sent) {
        WireFormat.Decoder decoder = new DisFormat().newDecoder();
        WireFormat.Encoder encoder = new DisFormat().newEncoder();
        SplittableRandom random = new SplittableRandom(5);
        List<Decoded> all = new ArrayList<>();
        for (int i = 0; i < 40 * hz; i++) {
            double timeS = (double) i / hz;
            byte[] pdu = encoder.encode(new AircraftState(
                            timeS,
                            30 + 151 * timeS / 3600 / 60 * Math.cos(Math.toRadians(98)),
                            -145
                                    + 151
                                            * timeS
                                            / 3600
                                            / 60
                                            * Math.sin(Math.toRadians(98))
                                            / Math.cos(Math.toRadians(30)),
                            OptionalDouble.of(6000),
                            OptionalDouble.of(100),
                            OptionalDouble.empty(),
                            OptionalDouble.of(98),
                            OptionalDouble.of(151),
                            OptionalDouble.of(0),
                            OptionalDouble.of(2),
                            OptionalDouble.of(0),
                            OptionalDouble.empty(),
                            false))
                    .get(0);
            ByteBuffer octets = ByteBuffer.wrap(pdu);
            Vector3 other = sent.apply(new Vector3(octets.getFloat(36), octets.getFloat(40), octets.getFloat(44)));
            octets.putFloat(36, (float) other.x())
                    .putFloat(40, (float) other.y())
                    .putFloat(44, (float) other.z());
            long micros = Wire.T0 + Math.round((timeS + jitterS * random.nextDouble()) * 1e6);
            all.addAll(decoder.decode(Wire.datagram(micros, pdu)));
        }
        return all;
    }

    private static Vector3 times(Vector3 velocity, double factor) {
        return new Vector3(velocity.x() * factor, velocity.y() * factor, velocity.z() * factor);
    }

    /** Knots, feet a second, kilometres an hour, half, none, one that never changes: at every rate a sender may have. */
    @ParameterizedTest
    @ValueSource(ints = {1, 2, 5, 10, 20, 30})
    void whateverTheRateAVelocityThatIsNoneIsLeftOutWithinTenSecondsAndSaidOnce(int hz) {
        List<UnaryOperator<Vector3>> wrong = List.of(
                velocity -> times(velocity, 3600 / 1852.0),
                velocity -> times(velocity, 1 / 0.3048),
                velocity -> times(velocity, 3.6),
                velocity -> times(velocity, 0.5),
                velocity -> new Vector3(0, 0, 0),
                velocity -> new Vector3(10, 0, 0));
        for (int kind = 0; kind < wrong.size(); kind++) {
            List<Decoded> decoded = straight(hz, 0.01, wrong.get(kind));
            assertThat(remarks(decoded))
                    .as("kind %d", kind)
                    .singleElement()
                    .satisfies(text -> assertThat(text).contains("left out"));
            Wire.samples(decoded).stream().skip(12L * hz).forEach(sample -> {
                assertThat(sample.state().groundSpeedKt()).isEmpty();
                assertThat(sample.state().trackTrueDeg()).isEmpty();
            });
        }
        assertThat(remarks(straight(hz, 0.01, velocity -> velocity))).isEmpty();
    }

    /** East, north and up where earth-centred axes belong: on some courses it points the right way by chance. */
    @Test
    void axesThatFitByChanceAreNotTakenUpAgain() {
        List<byte[]> pdus = new ArrayList<>();
        for (byte[] pdu : flown(800)) {
            ByteBuffer octets = ByteBuffer.wrap(pdu);
            Vector3 place = new Vector3(octets.getDouble(48), octets.getDouble(56), octets.getDouble(64));
            LocalAxes local = LocalAxes.at(Geodetic.fromGeocentric(place));
            Vector3 velocity = new Vector3(octets.getFloat(36), octets.getFloat(40), octets.getFloat(44));
            octets.putFloat(36, (float) velocity.dot(local.east()))
                    .putFloat(40, (float) velocity.dot(local.north()))
                    .putFloat(44, (float) -velocity.dot(local.down()));
            pdus.add(pdu);
        }
        List<Decoded> decoded = decode(pdus, 0.05, 1);
        assertThat(remarks(decoded)).hasSize(1);
        assertThat(Wire.samples(decoded).stream()
                        .skip(200)
                        .filter(sample -> sample.state().groundSpeedKt().isPresent()))
                .isEmpty();
    }
}
