package org.rejoin.console.watch;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.OptionalDouble;

import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.api.Test;

/** A sample as a pilot reads it beside his instruments. */
class FeedSampleTest {

    private static AircraftState state(double heading, double track, double roll) {
        OptionalDouble none = OptionalDouble.empty();
        return new AircraftState(
                0,
                38,
                -50,
                OptionalDouble.of(-0.4),
                OptionalDouble.of(heading),
                OptionalDouble.of(heading),
                OptionalDouble.of(track),
                OptionalDouble.of(120),
                OptionalDouble.of(-0.2),
                none,
                OptionalDouble.of(roll),
                none,
                false);
    }

    /** As on every compass; programs have the number as it was sent. */
    @Test
    void northIs360AndWingsLevelAreNoLessThanLevel() {
        FeedSample sample = new FeedSample(0, "", state(0, 359.97, -0.04));
        assertThat(sample.text())
                .contains("heading 360.0 true  heading 360.0 magnetic  track 360.0 true", "roll 0.0")
                .contains("altitude 0 ft", "vertical speed 0 ft/min")
                .doesNotContain("-0");
        assertThat(sample.json()).contains("\"heading_true_deg\":0", "\"roll_deg\":-0.04");
    }

    @Test
    void aHeadingHasThreeFiguresAndABankItsSide() {
        assertThat(new FeedSample(0, "", state(5.04, 95.5, -12.34)).text())
                .contains("heading 005.0 true", "track 095.5 true", "roll -12.3");
    }
}
