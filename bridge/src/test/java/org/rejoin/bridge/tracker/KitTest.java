package org.rejoin.bridge.tracker;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The kit of the detectors at its edges: zeros at samples, several zeros, a double root, a gap. */
class KitTest {

    private static final Offset<Double> EXACT = Offset.offset(1e-9);

    private static List<Double> crossings(double... values) {
        SignChange crossing = new SignChange();
        List<Double> at = new ArrayList<>();
        crossing.begin(values[0]);
        for (int i = 1; i < values.length; i++) {
            crossing.step(i - 1, values[i - 1], i, values[i]).ifPresent(at::add);
        }
        return at;
    }

    @Test
    void aCrossingIsAChangeOfSign() {
        assertThat(crossings(1, -1)).containsExactly(0.5);
        assertThat(crossings(1, 0, -1)).containsExactly(1.0);
        assertThat(crossings(1, 0, 0, 0, -1)).containsExactly(3.0);
        assertThat(crossings(1, 0, 1)).as("a double root").isEmpty();
        assertThat(crossings(0, 0, 1)).isEmpty();
        assertThat(crossings(1, -1, 1)).containsExactly(0.5, 1.5);
        assertThat(crossings(1e-300, -1)).hasSize(1);
    }

    @Test
    void aCrossingInAGapIsToldOnlyAsSuch() {
        SignChange crossing = new SignChange();
        assertThat(crossing.begin(1)).isFalse();
        assertThat(crossing.begin(-1)).as("the sign changed unseen").isTrue();
        assertThat(crossing.begin(0)).isFalse();
        assertThat(crossing.step(0, 0, 1, -1)).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.02, 0.1, 0.2, 0.5, 1})
    void anExcursionHasOneBeginningOneEndAndItsWorst(double stepS) {
        Excursion excursion = new Excursion();
        List<Double> changes = new ArrayList<>();
        for (int i = 0; i * stepS < 30; i++) {
            double a = i * stepS;
            double b = a + stepS;
            // Outside from 10 to 20 s, 5 at most at 15 s.
            if (excursion.step(a, 5 - Math.abs(a - 15), b, 5 - Math.abs(b - 15), 10, -(5 - Math.abs(b - 15)))
                    != Excursion.Change.NONE) {
                changes.add(excursion.atS());
            }
        }
        assertThat(changes).hasSize(2);
        assertThat(changes.get(0)).isCloseTo(10, Offset.offset(1e-6));
        assertThat(changes.get(1)).isCloseTo(20, Offset.offset(1e-6));
        assertThat(excursion.worst()).isCloseTo(-5, Offset.offset(1e-6));
    }

    @Test
    void anExcursionThatGoesOnAfterAGapIsTheSame() {
        Excursion excursion = new Excursion();
        assertThat(excursion.step(0, -1, 1, 1, 10, 7)).isEqualTo(Excursion.Change.BEGAN);
        assertThat(excursion.atS()).isCloseTo(0.5, EXACT);
        // Nothing seen from 1 to 40 s.
        assertThat(excursion.step(40, Double.NaN, 40, 1, 10, 9)).isEqualTo(Excursion.Change.NONE);
        assertThat(excursion.step(40, 1, 41, -1, 10, 3)).isEqualTo(Excursion.Change.ENDED);
        assertThat(excursion.worst()).isEqualTo(9);
        assertThat(excursion.step(80, Double.NaN, 80, 1, 10, 2)).isEqualTo(Excursion.Change.BEGAN);
        assertThat(excursion.atS()).isEqualTo(80);
        assertThat(excursion.step(90, Double.NaN, 90, 0, 10, 0))
                .as("on the limit is inside")
                .isEqualTo(Excursion.Change.ENDED);
        assertThat(excursion.atS()).isEqualTo(90);
        assertThat(excursion.close()).isFalse();
    }

    @Test
    void whoStandsOnTheLimitIsWithinItAndWhoSwingsAboutItByATrifleGoesOutOnce() {
        Excursion standing = new Excursion();
        Excursion swinging = new Excursion();
        int changes = 0;
        for (int i = 0; i < 100; i++) {
            assertThat(standing.step(i, 0, i + 1, 0, 10, 10)).isEqualTo(Excursion.Change.NONE);
            double swing = 0.1 * (i % 2 == 0 ? 1 : -1);
            changes += swinging.step(i, -swing, i + 1, swing, 10, 10 + swing) == Excursion.Change.NONE ? 0 : 1;
        }
        assertThat(changes).as("out and in again").isEqualTo(2);
        assertThat(swinging.step(100, -1, 101, 1, 10, 11)).isEqualTo(Excursion.Change.BEGAN);
        assertThat(swinging.atS()).as("a fiftieth of the limit beyond it").isCloseTo(100.6, Offset.offset(1e-9));
    }

    @Test
    void anExcursionOutsideFromTheFirstBeganThere() {
        Excursion excursion = new Excursion();
        assertThat(excursion.step(3, 2, 4, 1, 10, 5)).isEqualTo(Excursion.Change.BEGAN);
        assertThat(excursion.atS()).isEqualTo(3);
        assertThat(excursion.close()).isTrue();
        assertThat(excursion.open()).isFalse();
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.02, 0.1, 0.2, 0.5, 1, 2.5})
    void aDwellFiresAtOneTimeAtAnyRate(double stepS) {
        Dwell dwell = new Dwell(5);
        List<Double> fired = new ArrayList<>();
        for (int i = 0; i * stepS < 30; i++) {
            double a = i * stepS;
            double b = a + stepS;
            // Negative from 10 to 20 s, in straight lines.
            dwell.step(a, Math.abs(a - 15) - 5, b, Math.abs(b - 15) - 5).ifPresent(fired::add);
        }
        assertThat(fired).hasSize(1);
        assertThat(fired.get(0)).isCloseTo(15, Offset.offset(1e-6));
    }

    @Test
    void aDwellThatLastsExactlyLongEnoughFiresAndOneThatDoesNotIsForgotten() {
        Dwell dwell = new Dwell(2);
        assertThat(dwell.step(0, 1, 1, -1)).isEmpty();
        assertThat(dwell.step(1, -1, 2.5, 0)).hasValue(2.5);
        assertThat(dwell.lasting()).isTrue();
        assertThat(dwell.step(2.5, 0, 9, 0)).isEmpty();
        Dwell brief = new Dwell(2);
        assertThat(brief.step(0, 1, 1, -1)).isEmpty();
        assertThat(brief.step(1, -1, 3, 1)).isEmpty();
        assertThat(brief.step(3, 1, 4, -1)).isEmpty();
        assertThat(brief.step(4, -1, 6, -1)).hasValue(5.5);
        // Zero all along is holding.
        assertThat(new Dwell(0).step(0, 0, 1, 0)).hasValue(0);
        // Long enough, and over within one step.
        Dwell within = new Dwell(2);
        assertThat(within.step(0, -3, 4, 1)).hasValue(2);
        assertThat(within.lasting()).isFalse();
    }

    @Test
    void aDwellForgetsAcrossAGap() {
        Dwell dwell = new Dwell(5);
        dwell.step(0, -1, 4, -1);
        dwell.reset();
        assertThat(dwell.step(50, -1, 54, -1)).isEmpty();
        assertThat(dwell.step(54, -1, 56, -1)).hasValue(55);
    }

    @Test
    void onceIsOnce() {
        Once once = new Once();
        assertThat(once.when(false)).isFalse();
        assertThat(once.when(true)).isTrue();
        assertThat(once.when(true)).isFalse();
        assertThat(once.done()).isTrue();
    }

    /** A steady turn of 3 degrees a second from 10 s on: mean over 6 s lags by 3 s, the rate needs 6 s to be seen. */
    @ParameterizedTest
    @ValueSource(doubles = {0.02, 0.1, 0.5, 1})
    void meansAndRatesAreTheSameAtAnyRate(double stepS) {
        Series series = new Series(7);
        for (int i = 0; i * stepS <= 20 + 1e-9; i++) {
            double t = i * stepS;
            series.add(t, 3 * Math.max(0, t - 10));
        }
        assertThat(series.mean(20, 6)).isCloseTo(21, Offset.offset(1e-6));
        assertThat(series.rate(20, 6)).isCloseTo(3, Offset.offset(1e-6));
        assertThat(series.at(14.25)).isCloseTo(12.75, Offset.offset(1e-6));
        assertThat(series.mean(15, 1)).isCloseTo(13.5, Offset.offset(1e-6));
        assertThat(series.extreme(15, -1)).isCloseTo(15, Offset.offset(1e-6));
        assertThat(series.extreme(15, 1)).isCloseTo(30, Offset.offset(1e-6));
        series.clear();
        assertThat(series.isEmpty()).isTrue();
    }

    @Test
    void aSeriesThatHasJustBegunIsItsOwnMeanAndHasNoRate() {
        Series series = new Series(6);
        series.add(5, 42);
        assertThat(series.mean(5, 6)).isEqualTo(42);
        assertThat(series.rate(5, 6)).isZero();
        series.add(5.5, 44);
        assertThat(series.mean(5.5, 6)).isEqualTo(43);
        assertThat(series.rate(5.5, 6)).isZero();
        series.add(6, 46);
        assertThat(series.rate(6, 6)).isEqualTo(4);
    }
}
