package org.rejoin.bridge.feed;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SplittableRandom;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Angles;

import org.junit.jupiter.api.Test;

/** Speed and track against positions that are worked out beside them: 120 kt, now straight, now at standard rate. */
class SentMotionTest {

    private static final double KT = 120;
    private static final double STEP_S = 0.2;

    private final SentMotion motion = new SentMotion();
    private final List<String> said = new ArrayList<>();
    private final SplittableRandom random = new SplittableRandom(4);
    private double latitude = 30;
    private double longitude = -145;
    private double track = 40;
    private double timeS;

    /** What is used in the end. */
    private AircraftState fly(double seconds, double turnDegPerS, double factor, double offDeg, double errorDeg) {
        AircraftState used = AircraftState.at(0, 0, 0);
        for (double untilS = timeS + seconds; timeS < untilS; timeS += STEP_S) {
            OptionalDouble none = OptionalDouble.empty();
            used = motion.used(new AircraftState(
                    timeS,
                    latitude + errorDeg * (random.nextDouble() - 0.5),
                    longitude + errorDeg * (random.nextDouble() - 0.5),
                    none,
                    none,
                    none,
                    OptionalDouble.of(Angles.direction(track + offDeg)),
                    OptionalDouble.of(KT * factor),
                    none,
                    none,
                    none,
                    none,
                    false));
            motion.said().ifPresent(said::add);
            double along = Math.toRadians(track + turnDegPerS * STEP_S / 2);
            latitude += KT / 3600 * STEP_S / 60 * Math.cos(along);
            longitude += KT / 3600 * STEP_S / 60 * Math.sin(along) / Math.cos(Math.toRadians(latitude));
            track += turnDegPerS * STEP_S;
        }
        return used;
    }

    @Test
    void whatFollowsThePositionsIsUsedThroughTurnsAndWithCoarsePositions() {
        fly(60, 0, 1, 0, 2e-4);
        fly(60, 3, 1, 0, 2e-4);
        AircraftState used = fly(60, -3, 1, 0, 2e-4);
        assertThat(said).isEmpty();
        assertThat(used.trackTrueDeg()).isPresent();
        assertThat(used.groundSpeedKt()).isPresent();
    }

    @Test
    void magneticForTrueIsLeftOutWithinTwentySecondsAndSaidOnce() {
        AircraftState used = fly(20, 0, 1, -13.2, 0);
        assertThat(used.trackTrueDeg()).isEmpty();
        assertThat(used.groundSpeedKt()).isPresent();
        used = fly(600, 3, 1, -13.2, 0);
        assertThat(used.trackTrueDeg()).isEmpty();
        assertThat(said).singleElement().asString().contains("true track sent, 26.8", "along 40.0", "magnetic");
    }

    @Test
    void theHeadingForTheTrackIsLeftOutWhereTheWindComesFromTheSide() {
        assertThat(fly(60, 0, 1, 2, 0).trackTrueDeg()).isPresent();
        assertThat(fly(60, 0, 1, 9, 0).trackTrueDeg()).isEmpty();
        assertThat(fly(60, 0, 1, 2, 0).trackTrueDeg()).isPresent();
        assertThat(said).hasSize(1);
    }

    @Test
    void metresASecondForKnotsAreLeftOutAndSaidOnce() {
        AircraftState used = fly(120, 0, 1852 / 3600.0, 0, 0);
        assertThat(used.groundSpeedKt()).isEmpty();
        assertThat(used.trackTrueDeg()).isPresent();
        assertThat(said).singleElement().asString().contains("61.7 kt", "at 120");
    }

    /** Time that runs faster changes every speed over the ground, and the speed that is sent was right before. */
    @Test
    void acceleratedTimeMakesNoSpeedWrong() {
        fly(60, 0, 1, 0, 0);
        assertThat(fly(60, 0, 0.25, 0, 0).groundSpeedKt()).isPresent();
        assertThat(said).isEmpty();
    }
}
