package org.rejoin.bridge.flight;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.SplittableRandom;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.StateDraft;
import org.rejoin.protocol.StateRange;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.dis.DisFormat;
import org.rejoin.protocol.json.JsonFormat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** How many samples did not come, counted by hand beside it. */
class FeedQualityTest {

    private static final InetSocketAddress SENDER = new InetSocketAddress(InetAddress.getLoopbackAddress(), 40_000);

    private static AircraftState at(double timeS) {
        return AircraftState.of(new StateDraft().clear().position(40, -40 + 1e-4 * timeS), timeS, null);
    }

    @Test
    void aShareThatIsDroppedIsCounted() {
        SplittableRandom random = new SplittableRandom(3);
        FeedQuality quality = new FeedQuality();
        int dropped = 0;
        for (int i = 0; i < 2000; i++) {
            boolean inside = i > 0 && i < 1999;
            if (inside && random.nextInt(10) < 2) {
                dropped++;
            } else {
                quality.sample(at(0.2 * i + random.nextDouble(0.02)));
            }
        }
        assertThat((double) quality.lost()).isCloseTo(dropped, within(0.1 * dropped));
    }

    @Test
    void samplesThatComeInPairsAreNotLost() {
        FeedQuality quality = new FeedQuality();
        int sent = 0;
        for (int i = 0; i < 1500; i++) {
            quality.sample(at(0.4 * i));
            quality.sample(at(0.4 * i + 0.001));
            sent += 2;
        }
        assertThat(quality.lost()).isLessThan(sent);
    }

    /** A tenth of a minute of arc up and down: 0.1 NM between two samples. */
    private static FeedQuality upAndDown(WireFormat format) {
        FeedQuality quality = new FeedQuality();
        WireFormat.Encoder out = format.newEncoder();
        WireFormat.Decoder in = format.newDecoder();
        for (int i = 0; i < 20; i++) {
            AircraftState sent = AircraftState.at(i, 40 + (i / 2 % 2) * 0.1 / 60, -40);
            for (Decoded found : in.decode(
                    Datagram.of(i * 1_000_000L, SENDER, out.encode(sent).get(0)))) {
                if (found instanceof Decoded.Sample sample) {
                    quality.flown(sample.state());
                }
            }
        }
        return quality;
    }

    @Test
    void aCoarseFeedShowsItsStepsInDegreesAndInMetresFromTheEarthsCentre() {
        assertThat(upAndDown(new JsonFormat()).resolutionNm()).isCloseTo(0.1, within(1e-6));
        assertThat(upAndDown(new DisFormat()).resolutionNm()).isCloseTo(0.1, within(1e-4));
    }

    @Test
    void aFirstStepThatIsOddSaysNothingOfTheOthers() {
        FeedQuality quality = new FeedQuality();
        quality.sample(at(0));
        for (int i = 0; i < 600; i++) {
            quality.sample(at(0.001 + 0.5 * i));
        }
        assertThat(quality.lost()).isZero();
    }

    /**
     * Five a second, 120 kt; the sender says a speed, or nothing but where it is. Nothing comes for 2.2 s, in which ten
     * would have come: it stood where it was, or flew on.
     */
    @ParameterizedTest
    @CsvSource({"true, true, 0", "true, false, 10", "false, true, 0", "false, false, 10"})
    void aSimulationThatStandsStillLosesNothing(boolean saysSpeed, boolean stands, long lost) {
        FeedQuality quality = new FeedQuality();
        for (int i = 0; i < 300; i++) {
            double timeS = 0.2 * i + (i < 150 ? 0 : 2);
            double flownS = i < 150 || !stands ? timeS : timeS - 2.2;
            AircraftState state = flying(flownS, saysSpeed, timeS);
            quality.sample(state);
            quality.flown(state);
        }
        assertThat(quality.lost()).isEqualTo(lost);
    }

    /** Due north at 120 kt: two minutes of latitude in each minute. */
    private static AircraftState flying(double flownS, boolean saysSpeed, double timeS) {
        StateDraft draft = new StateDraft().clear().position(40 + flownS / 1800, -40);
        if (saysSpeed) {
            draft.set(StateRange.GROUND_SPEED_KT, 120);
        }
        return AircraftState.of(draft, timeS, null);
    }

    /** Dead reckoning: a sample when the last one does not fit any more, between a fifth of a second and five. */
    @Test
    void anIrregularSenderLosesNothing() {
        SplittableRandom random = new SplittableRandom(7);
        FeedQuality quality = new FeedQuality();
        FeedQuality jittered = new FeedQuality();
        double timeS = 0;
        double lastS = 0;
        for (int i = 0; i < 2000; i++) {
            timeS += i % 40 < 25 ? 0.2 + random.nextDouble(0.5) : random.nextDouble(0.2, 5);
            quality.sample(at(timeS));
            lastS = Math.max(lastS + 1e-3, 0.2 * i + random.nextDouble(0.3));
            jittered.sample(at(lastS));
        }
        assertThat(quality.lost()).isZero();
        assertThat(jittered.lost()).isZero();
    }

    /** Five a second, and twenty a second while it is paused. */
    @Test
    void whatIsSentWhilePausedIsNotCountedInTheRate() {
        FeedQuality quality = new FeedQuality();
        for (int i = 0; i < 500; i++) {
            quality.sample(at(0.2 * i));
        }
        for (int i = 1; i < 2000; i++) {
            quality.sample(at(99.8 + 0.05 * i).asPaused());
        }
        assertThat(quality.rateHz()).isCloseTo(5, within(0.01));
    }
}
