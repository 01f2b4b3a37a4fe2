package org.rejoin.bridge.feed;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import java.util.function.DoubleFunction;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.SourceTime;

/**
 * An aircraft over open ocean, and the network between it and us. The true time of each sample rides along as its
 * altitude, so that a test can see which sample came out and when it should have.
 */
final class Channel {

    static final double EPOCH_S = 1_780_348_474.25;
    private static final double SPEED_KT = 120;
    private static final double STEP_S = 0.25;
    private static final double[][] PATH = path(600);

    /** A sample on its way. */
    record Sent(double atS, Decoded.Sample sample) {}

    private final SplittableRandom random;
    private final List<Sent> sent = new ArrayList<>();

    Channel(long seed) {
        random = new SplittableRandom(seed);
    }

    /**
     * Sends a stretch of flight.
     *
     * @param fromS true time of the first sample
     * @param toS true time after the last
     * @param hz samples a second of true time
     * @param clock what the sender's clock shows at a true time
     * @param rate how many times as fast as real time it is sent
     */
    Channel fly(double fromS, double toS, double hz, DoubleFunction<Optional<SourceTime>> clock, double rate) {
        double began = sent.isEmpty() ? EPOCH_S : latest() + 1 / (hz * rate);
        for (int i = 0; fromS + i / hz < toS; i++) {
            double trueS = fromS + i / hz;
            send(began + (trueS - fromS) / rate, state(trueS, SPEED_KT), clock.apply(trueS));
        }
        return this;
    }

    /** Stands at a place for a while, in real time. */
    Channel stand(double trueS, double forS, double hz, boolean says, DoubleFunction<Optional<SourceTime>> clock) {
        double began = sent.isEmpty() ? EPOCH_S : latest() + 1 / hz;
        AircraftState still = state(trueS, SPEED_KT);
        AircraftState paused = new AircraftState(
                0,
                still.latitudeDeg(),
                still.longitudeDeg(),
                still.altitudeMslFt(),
                still.headingTrueDeg(),
                still.headingMagneticDeg(),
                still.trackTrueDeg(),
                still.groundSpeedKt(),
                still.verticalSpeedFpm(),
                still.pitchDeg(),
                still.rollDeg(),
                still.indicatedAirspeedKt(),
                says);
        for (int i = 0; i / hz < forS; i++) {
            send(began + i / hz, paused, clock.apply(trueS + i / hz));
        }
        return this;
    }

    void send(double atS, AircraftState state, Optional<SourceTime> clock) {
        sent.add(new Sent(atS, new Decoded.Sample(state, clock, "", "", Decoded.NO_EXERCISE)));
    }

    /** Loses, doubles and delays at random; what is delayed by more than its successors is overtaken. */
    List<Decoded.Sample> received(double loss, double doubled, double jitterS) {
        List<Sent> arriving = new ArrayList<>();
        for (Sent one : sent) {
            if (random.nextDouble() < loss) {
                continue;
            }
            arriving.add(new Sent(one.atS + jitterS * random.nextDouble(), one.sample));
            if (random.nextDouble() < doubled) {
                arriving.add(new Sent(one.atS + 0.001 + jitterS * random.nextDouble(), one.sample));
            }
        }
        arriving.sort(Comparator.comparingDouble(Sent::atS));
        List<Decoded.Sample> received = new ArrayList<>();
        for (Sent one : arriving) {
            // The resolution of a capture, so that the bits are those of a real feed.
            double atS = Math.round(one.atS * 1e6) / 1e6;
            Decoded.Sample sample = one.sample;
            received.add(
                    new Decoded.Sample(sample.state().withTimeS(atS), sample.source(), "", "", Decoded.NO_EXERCISE));
        }
        return received;
    }

    List<Decoded.Sample> received() {
        return received(0, 0, 0);
    }

    /** As sent, whatever the times of receipt. */
    List<Decoded.Sample> inFileOrder() {
        return sent.stream()
                .map(one -> new Decoded.Sample(
                        one.sample.state().withTimeS(one.atS), one.sample.source(), "", "", Decoded.NO_EXERCISE))
                .toList();
    }

    /** True time of a state that came out. */
    static double trueS(AircraftState state) {
        return state.altitudeMslFt().orElseThrow();
    }

    /** East along 30 N for a minute, then a minute of standard-rate turns to and fro, and so on. */
    static AircraftState state(double trueS, double reportedKt) {
        int step = (int) (trueS / STEP_S);
        double part = trueS / STEP_S - step;
        double latitude = PATH[step][0] + part * (PATH[step + 1][0] - PATH[step][0]);
        double longitude = PATH[step][1] + part * (PATH[step + 1][1] - PATH[step][1]);
        return new AircraftState(
                0,
                latitude,
                longitude,
                OptionalDouble.of(trueS),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.of(courseAt(trueS)),
                OptionalDouble.of(reportedKt),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                false);
    }

    static Optional<SourceTime> monotonic(double seconds) {
        return Optional.of(SourceTime.monotonic(seconds));
    }

    /** A clock with DIS's hourly wrap and its unit of 3600 s / 2^31. */
    static Optional<SourceTime> hourly(double seconds) {
        double unit = 3600 / 0x1p31;
        double past = seconds - 3600 * Math.floor(seconds / 3600);
        return Optional.of(new SourceTime(Math.floor(past / unit) * unit, 3600));
    }

    private static double[][] path(double untilS) {
        double[][] path = new double[(int) (untilS / STEP_S) + 2][];
        path[0] = new double[] {30, -145};
        for (int i = 1; i < path.length; i++) {
            double course = Math.toRadians(courseAt((i - 0.5) * STEP_S));
            double degrees = SPEED_KT * STEP_S / 3600 / 60;
            double latitude = path[i - 1][0] + degrees * Math.cos(course);
            double longitude = path[i - 1][1] + degrees * Math.sin(course) / Math.cos(Math.toRadians(latitude));
            path[i] = new double[] {latitude, longitude};
        }
        return path;
    }

    private double latest() {
        return sent.get(sent.size() - 1).atS;
    }

    private static double courseAt(double t) {
        double phase = t % 120;
        return phase < 60 ? 90 : phase < 90 ? 90 + 3 * (phase - 60) : 180 - 3 * (phase - 90);
    }
}
