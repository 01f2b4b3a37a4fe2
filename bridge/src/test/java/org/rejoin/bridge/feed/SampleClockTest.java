package org.rejoin.bridge.feed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.SourceTime;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class SampleClockTest {

    /** What came out of a clock. */
    private static final class Out implements SampleClock.Sink {
        final List<AircraftState> states = new ArrayList<>();
        final List<TimeBase> bases = new ArrayList<>();
        final List<String> steps = new ArrayList<>();
        final List<Double> silences = new ArrayList<>();

        @Override
        public void state(AircraftState state) {
            if (!states.isEmpty()) {
                assertThat(state.timeS())
                        .isGreaterThan(states.get(states.size() - 1).timeS());
            }
            states.add(state);
        }

        @Override
        public void silence(double receiptS) {
            silences.add(receiptS);
        }

        @Override
        public void timeBase(double timeS, TimeBase base) {
            bases.add(base);
        }

        @Override
        public void clockSet(double timeS, String text) {
            steps.add(text);
        }

        /** Largest difference between time given and true time, both from the first sample given. */
        double worstS() {
            double first = Channel.trueS(states.get(0));
            return states.stream()
                    .mapToDouble(s -> Math.abs(s.timeS() - (Channel.trueS(s) - first)))
                    .max()
                    .orElseThrow();
        }
    }

    private static Out run(List<Decoded.Sample> received) {
        Out out = new Out();
        SampleClock clock = new SampleClock(out);
        received.forEach(clock::accept);
        clock.flush();
        assertThat(out.states.size() + clock.late()).isEqualTo(received.size());
        return out;
    }

    private static TimeBase.Clock only(Out out) {
        assertThat(out.bases).hasSize(1);
        return out.bases.get(0).clock();
    }

    @ParameterizedTest
    @CsvSource({"1, 0", "5, 0.1", "20, 0.3", "100, 0.3", "0.2, 0.3", "20, 0"})
    void aSoundClockIsBelievedThroughLossDoublesAndJitter(double hz, double jitterS) {
        for (int seed = 0; seed < 20; seed++) {
            Channel channel = new Channel(seed).fly(0, 60, hz, t -> Channel.hourly(3580 + t), 1);
            Out out = run(channel.received(0.25, 0.05, jitterS));
            assertThat(only(out)).isEqualTo(TimeBase.Clock.SENDER);
            assertThat(out.worstS()).isLessThan(1e-5);
            assertThat(out.steps).isEmpty();
        }
    }

    /** Two seconds back at one sample a second: the next one seems a second old, and time goes on after it. */
    @Test
    void aReceivingClockSetBackBetweenSamplesOfOneASecondIsSeen() {
        for (double backS : new double[] {1.95, 2, 4, 3600}) {
            SampleClock.ReceiptTime receipt = new SampleClock.ReceiptTime();
            receipt.accept(1000);
            receipt.accept(1001);
            double after = receipt.accept(1002 - backS);
            assertThat(after).isGreaterThan(1001);
            assertThat(receipt.accept(1003 - backS) - after).isCloseTo(1, within(1e-6));
        }
    }

    @Test
    void nothingIsLeftOutOfASoundFeed() {
        Out out = run(new Channel(1).fly(0, 30, 20, Channel::hourly, 1).received());
        assertThat(out.states).hasSize(600);
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.25, 2, 10, 100})
    void acceleratedTimeIsBelievedWhereTheMotionSaysTheSame(double rate) {
        Out out = run(new Channel(2).fly(0, 240, 5, Channel::monotonic, rate).received(0.1, 0.05, 0.02 / rate));
        assertThat(out.bases).hasSize(1);
        assertThat(out.bases.get(0)).satisfies(base -> {
            assertThat(base.clock()).isEqualTo(TimeBase.Clock.SENDER);
            assertThat(base.reason()).endsWith("and so did the motion");
        });
        assertThat(out.worstS()).isLessThan(1e-5);
    }

    @Test
    void timeMayBeAcceleratedInTheMiddleOfTheFlight() {
        Out out = run(new Channel(3)
                .fly(0, 20, 5, Channel::monotonic, 1)
                .fly(20, 120, 5, Channel::monotonic, 8)
                .fly(120, 140, 5, Channel::monotonic, 1)
                .received());
        assertThat(only(out)).isEqualTo(TimeBase.Clock.SENDER);
        assertThat(out.worstS()).isLessThan(1e-5);
    }

    @Test
    void clocksThatAreNoneAreNotBelieved() {
        assertReceipt(t -> Optional.empty(), "no clock");
        assertReceipt(t -> Channel.monotonic(0), "stands still");
        assertReceipt(t -> new SourceTimeOf(3600).at(Math.rint(t * 5) * (3600 / 0x1p31)), "in 2.0"); // a frame counter
        assertReceipt(t -> Channel.monotonic(Math.rint(t * 5)), "in 2.0"); // frames as seconds
        assertReceipt(t -> new SourceTimeOf(3600).at(1.7e9 * 3600 / 0x1p31 + t * 3600 / 0x1p31), ""); // Unix time
        assertReceipt(t -> Channel.monotonic(Math.floor(t)), "repeats while the aircraft moves"); // whole seconds
        assertReceipt(t -> Channel.monotonic(-t), ""); // backwards
    }

    private record SourceTimeOf(double wrapS) {
        Optional<SourceTime> at(double seconds) {
            return Optional.of(new SourceTime(seconds, wrapS));
        }
    }

    private static void assertReceipt(java.util.function.DoubleFunction<Optional<SourceTime>> clock, String reason) {
        Out out = run(new Channel(4).fly(0, 60, 5, clock, 1).received());
        assertThat(only(out)).isEqualTo(TimeBase.Clock.RECEIPT);
        assertThat(out.bases.get(0).reason()).contains(reason);
        assertThat(out.states).hasSize(300);
        assertThat(out.worstS()).isLessThan(1e-5);
    }

    @ParameterizedTest
    @CsvSource({"100, 0", "3, 0", "0, 500", "0, 3", "3599, 1"})
    void aRestartedSenderGoesOnAtTheSpacingOfReceipt(double before, double after) {
        for (int seed = 0; seed < 10; seed++) {
            Channel channel = new Channel(seed)
                    .fly(0, 30, 10, t -> Channel.hourly(before + t), 1)
                    .fly(30, 60, 10, t -> Channel.hourly(after + t - 30), 1);
            Out out = run(channel.received(0.1, 0.05, 0.05));
            assertThat(out.bases).hasSize(1);
            assertThat(out.worstS()).isLessThan(0.2);
            assertThat(out.states.size()).isGreaterThan(450);
            assertThat(out.steps).hasSizeLessThanOrEqualTo(1);
        }
    }

    @Test
    void aClockSetBackALittleIsFoundOutAfterTwoSeconds() {
        Out out = run(new Channel(5)
                .fly(0, 30, 10, Channel::hourly, 1)
                .fly(30, 60, 10, t -> Channel.hourly(t - 4), 1)
                .received());
        assertThat(only(out)).isEqualTo(TimeBase.Clock.SENDER);
        assertThat(out.steps).hasSize(1);
        assertThat(out.worstS()).isCloseTo(0, within(0.01));
        assertThat(out.states.size()).isGreaterThan(575);
    }

    @Test
    void oneWrongReadingCostsThatSampleOnly() {
        for (double wrong : new double[] {-1000, -7, 40, 1700}) {
            Out out = run(new Channel(6)
                    .fly(0, 30, 10, t -> Channel.hourly(Math.abs(t - 15) < 0.01 ? t + wrong : t), 1)
                    .received());
            assertThat(out.states).hasSize(299);
            assertThat(out.worstS()).isLessThan(1e-5);
            assertThat(out.steps).isEmpty();
        }
    }

    @Test
    void aClockThatBecomesAFrameCounterIsGivenUp() {
        Out out = run(new Channel(7)
                .fly(0, 30, 10, Channel::monotonic, 1)
                .fly(30, 90, 10, t -> Channel.monotonic(30 + (t - 30) * 1.5), 1)
                .received());
        assertThat(out.bases.stream().map(TimeBase::clock).toList())
                .containsExactly(TimeBase.Clock.SENDER, TimeBase.Clock.RECEIPT);
        assertThat(out.worstS()).isLessThan(6); // two stretches of 5 s at half as fast again
        Out mad = run(new Channel(8)
                .fly(0, 30, 10, Channel::monotonic, 1)
                .fly(30, 60, 10, t -> Channel.monotonic(t * 1000), 1)
                .received());
        assertThat(mad.bases.get(mad.bases.size() - 1).clock()).isEqualTo(TimeBase.Clock.RECEIPT);
        assertThat(mad.worstS()).isLessThan(0.01);
    }

    @Test
    void aPauseIsSeenAsItIsReceived() {
        for (boolean says : new boolean[] {true, false}) {
            Out out = run(new Channel(9)
                    .fly(0, 30, 10, Channel::monotonic, 1)
                    .stand(29.9, 20, 10, says, t -> Channel.monotonic(29.9))
                    .fly(30, 60, 10, Channel::monotonic, 1)
                    .received());
            assertThat(only(out)).isEqualTo(TimeBase.Clock.SENDER);
            AircraftState end = out.states.get(out.states.size() - 1);
            assertThat(end.timeS()).isCloseTo(79.9, within(0.3));
            assertThat(out.states.size()).isGreaterThan(says ? 795 : 775);
        }
    }

    @Test
    void aSimulatorPausedWhenItBeginsIsBelievedOnceItRuns() {
        Out out = run(new Channel(10)
                .stand(0, 10, 10, true, t -> Channel.monotonic(0))
                .fly(0.1, 60, 10, Channel::monotonic, 1)
                .received(0.1, 0.05, 0.05));
        assertThat(out.bases.stream().map(TimeBase::clock).toList())
                .containsExactly(TimeBase.Clock.RECEIPT, TimeBase.Clock.SENDER);
    }

    @Test
    void aGapInTheFeedIsAGapInTime() {
        for (int gapS : new int[] {20, 1000, 3000, 7000}) {
            Channel channel = new Channel(11).fly(0, 20, 10, Channel::hourly, 1);
            for (int i = 0; i < 200; i++) {
                double t = 20 + gapS + i * 0.1;
                channel.send(Channel.EPOCH_S + t, Channel.state(20 + i * 0.1, 120), Channel.hourly(t));
            }
            Out out = run(channel.received());
            AircraftState end = out.states.get(out.states.size() - 1);
            assertThat(only(out)).isEqualTo(TimeBase.Clock.SENDER);
            assertThat(end.timeS()).isCloseTo(gapS + 39.9, within(0.001));
        }
    }

    /** The receiver or the simulator was down for minutes, and the sender's clock says nothing about it. */
    @ParameterizedTest
    @CsvSource({
        // flown on meanwhile, s; at what the gap counts, s
        "0, 12",
        "5, 12",
        "60, 60",
        "742, 742"
    })
    void aSilenceCountsAsFarAsItWasFlown(double flownS, double countsS) {
        for (boolean hasClock : new boolean[] {true, false}) {
            List<Decoded.Sample> received = new ArrayList<>();
            for (int i = 0; i <= 640; i++) {
                boolean after = i > 440;
                double t = i * 0.1;
                OptionalDouble none = OptionalDouble.empty();
                AircraftState north = new AircraftState(
                        Channel.EPOCH_S + t + (after ? 742 : 0),
                        30 + (t + (after ? flownS : 0)) / 3600 * 2,
                        -145,
                        none,
                        none,
                        none,
                        OptionalDouble.of(0),
                        OptionalDouble.of(120),
                        none,
                        none,
                        none,
                        none,
                        false);
                received.add(new Decoded.Sample(
                        north,
                        hasClock ? Channel.hourly(after ? t - 44 : 100 + t) : Optional.empty(),
                        "",
                        "",
                        Decoded.NO_EXERCISE));
            }
            Out out = run(received);
            assertThat(out.states.get(out.states.size() - 1).timeS()).isCloseTo(64 + countsS, within(1.0));
            assertThat(out.silences)
                    .hasSize(countsS > 700 ? 0 : 1)
                    .allSatisfy(each -> assertThat(each).isCloseTo(742.1, within(0.2)));
        }
    }

    /** The simulator stood and sent nothing: its clock says that nothing was flown. */
    @Test
    void aSilenceOfASoundClockIsToldThoughNoTimePassed() {
        Channel channel = new Channel(11).fly(0, 44, 10, Channel::hourly, 1);
        for (int i = 0; i < 200; i++) {
            double t = 44 + i * 0.1;
            channel.send(Channel.EPOCH_S + t + 742, Channel.state(t, 120), Channel.hourly(t));
        }
        Out out = run(channel.received());
        assertThat(out.worstS()).isLessThan(1e-5);
        assertThat(out.silences)
                .singleElement()
                .satisfies(each -> assertThat(each).isCloseTo(742.1, within(0.1)));
    }

    @Test
    void samplesWithoutAClockAmongOthersAreLeftOut() {
        Out out = run(new Channel(12)
                .fly(0, 30, 10, t -> t % 3 < 0.05 && t > 0 ? Optional.empty() : Channel.monotonic(t), 1)
                .received());
        assertThat(only(out)).isEqualTo(TimeBase.Clock.SENDER);
        assertThat(out.states.size()).isBetween(285, 299);
    }

    @Test
    void receiptMayBeSetBackInACaptureOfOthers() {
        Channel channel = new Channel(13).fly(0, 30, 10, t -> Optional.empty(), 1);
        for (int i = 0; i < 100; i++) {
            channel.send(Channel.EPOCH_S + 20 + i * 0.1, Channel.state(30 + i * 0.1, 120), Optional.empty());
        }
        Out out = new Out();
        SampleClock clock = new SampleClock(out);
        channel.inFileOrder().forEach(clock::accept);
        clock.flush();
        assertThat(out.states).hasSize(400);
        assertThat(out.worstS()).isLessThan(0.11);
    }

    @Test
    void aFileWithoutTimesOfReceiptLivesByTheSendersClock() {
        List<Decoded.Sample> samples = new ArrayList<>();
        for (int i = 0; i < 100; i++) {
            AircraftState state = Channel.state(i * 0.2, 120).withTimeS(0);
            samples.add(new Decoded.Sample(state, Channel.monotonic(i * 0.2), "", "", Decoded.NO_EXERCISE));
        }
        Out out = run(samples);
        assertThat(only(out)).isEqualTo(TimeBase.Clock.SENDER);
        assertThat(out.states).hasSize(100);
    }

    @Test
    void theFirstSampleComesAtOnceAndTheOthersWithinTwoSeconds() {
        Out out = new Out();
        SampleClock clock = new SampleClock(out);
        List<Decoded.Sample> received =
                new Channel(14).fly(0, 10, 20, Channel::monotonic, 1).received();
        clock.accept(received.get(0));
        assertThat(out.states).hasSize(1);
        assertThat(out.states.get(0).timeS()).isZero();
        received.subList(1, 42).forEach(clock::accept);
        assertThat(out.states).hasSize(42);
        assertThat(clock.timeAt(Channel.EPOCH_S + 3)).isCloseTo(3, within(1e-5));
    }

    @Test
    void acceleratedTimeIsNotHeldForTwoSecondsOfReceipt() {
        Out out = new Out();
        SampleClock clock = new SampleClock(out);
        List<Decoded.Sample> received =
                new Channel(15).fly(0, 10, 5, Channel::monotonic, 50).received();
        received.subList(0, 13).forEach(clock::accept);
        assertThat(out.states).hasSize(13);
        assertThat(only(out)).isEqualTo(TimeBase.Clock.SENDER);
    }

    /** Whatever a sender does, time increases, nothing is counted twice, and a second run gives the same. */
    @Test
    void anythingAtAllGivesTimesThatIncreaseAndAreRepeatable() {
        for (int seed = 0; seed < 300; seed++) {
            var random = new java.util.SplittableRandom(seed);
            Channel channel = new Channel(seed);
            double at = Channel.EPOCH_S;
            double source = random.nextDouble(3600);
            for (int i = 0; i < 200; i++) {
                at += random.nextInt(20) == 0 ? random.nextDouble(-30, 30) : random.nextDouble(0.2);
                source += switch (random.nextInt(12)) {
                    case 0 -> random.nextDouble(-4000, 4000);
                    case 1 -> random.nextDouble(-3, 3);
                    case 2 -> 0;
                    default -> random.nextDouble(0.2);
                };
                channel.send(
                        at,
                        Channel.state(random.nextDouble(5), random.nextInt(200)),
                        random.nextInt(15) == 0 ? Optional.empty() : Channel.hourly(source));
            }
            List<Decoded.Sample> received = channel.inFileOrder();
            Out first = run(received);
            Out second = run(received);
            assertThat(second.states).isEqualTo(first.states);
            assertThat(second.bases).isEqualTo(first.bases);
            assertThat(second.steps).isEqualTo(first.steps);
            assertThat(first.states).isNotEmpty();
        }
    }
}
