package org.rejoin.protocol.dis;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.ByteBuffer;
import java.util.List;
import java.util.SplittableRandom;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Wire;
import org.rejoin.protocol.earth.BodyAxes;
import org.rejoin.protocol.earth.Vector3;

import edu.nps.moves.deadreckoning.DeadReckoner;
import edu.nps.moves.dis.EntityStatePdu;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** IEEE 1278.1, Annex E: against worked values, an independent library of the standard, and sums of small steps. */
class DeadReckoningTest {

    private static byte[] pdu(int algorithm, double[] acceleration, double[] turning) {
        byte[] octets = DisVectors.ES_1.clone();
        ByteBuffer out = ByteBuffer.wrap(octets);
        out.put(88, (byte) algorithm);
        for (int i = 0; i < 3; i++) {
            out.putFloat(104 + 4 * i, (float) acceleration[i]);
            out.putFloat(116 + 4 * i, (float) turning[i]);
        }
        return octets;
    }

    private static AircraftState decoded(byte[] pdu) {
        return Wire.state(new DisFormat().newDecoder().decode(Wire.datagram(pdu)));
    }

    /** The worked example beside the reference vectors: 5 s on by FPW, and by RVW with an acceleration. */
    @Test
    void workedValues() {
        double[] none = {0, 0, 0};
        AircraftState fpw = decoded(pdu(2, none, none)).after(5).orElseThrow();
        assertThat(fpw.latitudeDeg()).isCloseTo(30.499619034, within(2e-9));
        assertThat(fpw.longitudeDeg()).isCloseTo(-145.253130055, within(2e-9));
        assertThat(fpw.altitudeMslFt().orElseThrow() * 0.3048).isCloseTo(1811.027, within(0.001));
        AircraftState rvw =
                decoded(pdu(4, new double[] {0.1, -0.2, 0.05}, none)).after(5).orElseThrow();
        assertThat(rvw.latitudeDeg()).isCloseTo(30.499622070, within(2e-9));
        assertThat(rvw.longitudeDeg()).isCloseTo(-145.253101244, within(2e-9));
        assertThat(rvw.altitudeMslFt().orElseThrow() * 0.3048).isCloseTo(1811.687, within(0.001));
        assertThat(rvw.timeS()).isEqualTo(fpw.timeS());
    }

    @Test
    void aStaticOrUnknownAlgorithmAPauseAndMoreThanTwelveSecondsGiveNothing() {
        double[] none = {0, 0, 0};
        for (int algorithm : new int[] {0, 1, 10, 255}) {
            assertThat(decoded(pdu(algorithm, none, none)).after(1)).isEmpty();
        }
        AircraftState state = decoded(pdu(2, none, none));
        assertThat(state.after(0)).isPresent();
        assertThat(state.after(12)).isPresent();
        assertThat(state.after(12.01)).isEmpty();
        assertThat(state.after(-0.01)).isEmpty();
        assertThat(state.asPaused().after(1)).isEmpty();
    }

    /** The library works on its PDU in place, with angles in single precision. */
    @ParameterizedTest
    @ValueSource(ints = {2, 3, 4, 5, 6, 7, 8, 9})
    void asTheLibraryDoes(int algorithm) {
        SplittableRandom random = new SplittableRandom(algorithm);
        for (int i = 0; i < 200; i++) {
            double[] acceleration = {random.nextDouble(-3, 3), random.nextDouble(-3, 3), random.nextDouble(-3, 3)};
            double[] turning = {random.nextDouble(-0.1, 0.1), random.nextDouble(-0.1, 0.1), random.nextDouble(-0.1, 0.1)
            };
            byte[] octets = pdu(algorithm, acceleration, turning);
            EntityState heard = new EntityState();
            heard.full(ByteBuffer.wrap(octets), 0);
            DeadReckoning ours = DeadReckoning.of(heard, algorithm);
            EntityStatePdu theirs = new EntityStatePdu();
            theirs.unmarshal(ByteBuffer.wrap(octets));
            double t = random.nextDouble(12);
            DeadReckoner.perform_DR(theirs, t);
            Vector3 location = ours.locationAt(t);
            assertThat(location.x())
                    .as("%d", i)
                    .isCloseTo(theirs.getEntityLocation().getX(), within(0.01));
            assertThat(location.y())
                    .as("%d", i)
                    .isCloseTo(theirs.getEntityLocation().getY(), within(0.01));
            assertThat(location.z())
                    .as("%d", i)
                    .isCloseTo(theirs.getEntityLocation().getZ(), within(0.01));
            BodyAxes axes = BodyAxes.of(new BodyAxes.Euler(
                    theirs.getEntityOrientation().getPsi(),
                    theirs.getEntityOrientation().getTheta(),
                    theirs.getEntityOrientation().getPhi()));
            assertThat(ours.axesAt(t).forward().minus(axes.forward()).length()).isLessThan(1e-5);
            assertThat(ours.axesAt(t).right().minus(axes.right()).length()).isLessThan(1e-5);
        }
    }

    /** What Annex E gives in closed form, summed up in small steps by the definition: the velocity turns with the body. */
    @ParameterizedTest
    @ValueSource(doubles = {0, 1e-6, 0.001, 0.05, 0.5})
    void theSumOfSmallSteps(double rate) {
        Vector3 velocity = new Vector3(60, 2, -1);
        Vector3 acceleration = new Vector3(0.5, -0.2, 0.3);
        Vector3 turning = new Vector3(0.2 * rate, -0.4 * rate, Math.sqrt(0.8) * rate);
        BodyAxes.Euler orientation = new BodyAxes.Euler(0.4, -0.2, 1.1);
        BodyAxes axes = BodyAxes.of(orientation);
        DeadReckoning rvb =
                new DeadReckoning(8, new Vector3(6_378_000, 0, 0), velocity, acceleration, orientation, turning);
        Vector3 there = new Vector3(6_378_000, 0, 0);
        BodyAxes body = axes;
        int steps = 120_000;
        double h = 12.0 / steps;
        for (int i = 0; i < steps; i++) {
            double t = (i + 0.5) * h;
            // Half a turn step before and after: each axis moves by turning x axis, in the axes of the body.
            body = stepped(body, turning, h / 2);
            Vector3 v = Vector3.combine(1, velocity, t, acceleration, 0, velocity);
            there = Vector3.combine(1, there, h, body.toGeocentric(v), 0, there);
            body = stepped(body, turning, h / 2);
        }
        assertThat(rvb.locationAt(12).minus(there).length()).isLessThan(0.02);
        assertThat(rvb.axesAt(12).forward().minus(body.forward()).length()).isLessThan(1e-3);
    }

    private static BodyAxes stepped(BodyAxes body, Vector3 turning, double h) {
        Vector3 about = body.toGeocentric(turning);
        return new BodyAxes(
                stepped(body.forward(), about, h), stepped(body.right(), about, h), stepped(body.under(), about, h));
    }

    private static Vector3 stepped(Vector3 axis, Vector3 about, double h) {
        Vector3 to = new Vector3(
                about.y() * axis.z() - about.z() * axis.y(),
                about.z() * axis.x() - about.x() * axis.z(),
                about.x() * axis.y() - about.y() * axis.x());
        Vector3 moved = Vector3.combine(1, axis, h, to, 0, axis);
        return Vector3.combine(1 / moved.length(), moved, 0, axis, 0, axis);
    }

    @Test
    void noFigureOfASenderThrows() {
        SplittableRandom random = new SplittableRandom(1278);
        double[] odd = {0, -0.0, Double.NaN, Double.POSITIVE_INFINITY, 1e38, -1e38, 1e-30, 1e6, -3};
        int reckoned = 0;
        for (int i = 0; i < 20_000; i++) {
            double[] figures = new double[6];
            for (int k = 0; k < 6; k++) {
                figures[k] = odd[random.nextInt(odd.length)];
            }
            byte[] octets = pdu(random.nextInt(12), new double[] {figures[0], figures[1], figures[2]}, new double[] {
                figures[3], figures[4], figures[5]
            });
            List<Decoded> all = new DisFormat().newDecoder().decode(Wire.datagram(octets));
            for (Decoded each : all) {
                if (each instanceof Decoded.Sample sample
                        && sample.state().after(random.nextDouble(12)).isPresent()) {
                    reckoned++;
                }
            }
        }
        assertThat(reckoned).isBetween(1_000, 19_000);
    }
}
