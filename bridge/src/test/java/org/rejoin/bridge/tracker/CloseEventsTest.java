package org.rejoin.bridge.tracker;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.geo.Position;
import org.rejoin.protocol.AircraftState;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What goes wrong where events are close: zeros at samples, double roots, stretches of zeros, two at once. */
class CloseEventsTest {

    private static final OptionalDouble NONE = OptionalDouble.empty();

    private static Measure measure(double timeS, double crossNm, double errorDeg) {
        Moment moment =
                new Moment(timeS, timeS, new Position(0, 0), (90 + errorDeg + 360) % 360, 0, 120, NONE, NONE, NONE);
        return new Measure(moment, crossNm, timeS / 30, 90, errorDeg);
    }

    /** One sample a second; each the cross-track distance, NM. */
    private static List<FlightEvent> crossing(double errorDeg, double... crossNm) {
        CourseWatch watch = new CourseWatch(true, Limits.INSTRUMENT_RATING);
        List<FlightEvent> events = new ArrayList<>();
        for (int i = 0; i < crossNm.length; i++) {
            events.addAll(watch.step(measure(i, crossNm[i], errorDeg), Double.POSITIVE_INFINITY, false));
        }
        return events;
    }

    @Test
    void aZeroExactlyAtASampleIsOneCrossing() {
        assertThat(crossing(-45, 0.04, 0.02, 0, -0.02, -0.04)).containsExactly(new FlightEvent.CourseCrossed(2, 45));
    }

    @Test
    void aStretchOfZerosIsLeftAtItsEnd() {
        assertThat(crossing(-45, 0.04, 0.02, 0, 0, 0, 0, -0.02)).containsExactly(new FlightEvent.CourseCrossed(5, 45));
    }

    @Test
    void touchingTheLineIsNotCrossingIt() {
        assertThat(crossing(-45, 0.04, 0.02, 0, 0.02, 0.04)).isEmpty();
        assertThat(crossing(45, 0, 0, 0.02, 0.04)).isEmpty();
        assertThat(crossing(45, 0, 0, 0)).isEmpty();
    }

    @Test
    void thereAndBackBetweenThreeSamplesIsTwoCrossings() {
        assertThat(crossing(-45, 0.04, -0.02, 0.02))
                .hasSize(2)
                .allMatch(FlightEvent.CourseCrossed.class::isInstance)
                .extracting(FlightEvent::timeS)
                .satisfies(times -> assertThat(times.get(0)).isCloseTo(2.0 / 3, Offset.offset(1e-9)))
                .satisfies(times -> assertThat(times.get(1)).isCloseTo(1.5, Offset.offset(1e-9)));
    }

    @Test
    void flownThroughEndsTheTryAndTheNextCrossingBeginsAnother() {
        CourseWatch watch = new CourseWatch(true, Limits.INSTRUMENT_RATING);
        List<FlightEvent> events = new ArrayList<>();
        for (int i = 0; i <= 15; i++) {
            events.addAll(watch.step(measure(i, 0.03 - 0.02 * i, -45), Double.POSITIVE_INFINITY, false));
        }
        for (int i = 16; i <= 60; i++) {
            events.addAll(watch.step(measure(i, -0.27 + 0.02 * (i - 15), 45), Double.POSITIVE_INFINITY, false));
        }
        assertThat(events.stream().filter(FlightEvent.FlownThrough.class::isInstance))
                .extracting(FlightEvent::timeS)
                .containsExactly(11.5, 38.5);
    }

    @Test
    void twoAtOnceBothHappen() {
        // Established and the overshoot settled are one instant.
        CourseWatch watch = new CourseWatch(true, Limits.INSTRUMENT_RATING);
        List<FlightEvent> events = new ArrayList<>();
        double[] cross = {0.1, -0.1, -0.2, -0.25, -0.25, -0.25, -0.25, -0.25, -0.25, -0.25};
        double[] error = {-45, -30, -15, 0, 0, 0, 0, 0, 0, 0};
        for (int i = 0; i < cross.length; i++) {
            events.addAll(watch.step(measure(i, cross[i], error[i]), Double.POSITIVE_INFINITY, false));
        }
        assertThat(events)
                .extracting(FlightEvent::name)
                .containsExactly("course_crossed", "overshoot", "intercept_achieved");
        assertThat(events.get(1).timeS()).isEqualTo(events.get(2).timeS());
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.02, 0.1, 0.2, 0.5, 1, 2.5})
    void aHoldFiresAtOneTimeAtAnyRate(double stepS) {
        Hold hold = new Hold(5);
        List<Double> fired = new ArrayList<>();
        for (int i = 0; i * stepS < 30; i++) {
            double a = i * stepS;
            double b = a + stepS;
            // Negative from 10 to 20 s, in straight lines.
            hold.step(a, Math.abs(a - 15) - 5, b, Math.abs(b - 15) - 5).ifPresent(fired::add);
        }
        assertThat(fired).hasSize(1);
        assertThat(fired.get(0)).isCloseTo(15, Offset.offset(1e-6));
    }

    @Test
    void aHoldThatLastsExactlyLongEnoughFiresAndOneThatDoesNotIsForgotten() {
        Hold hold = new Hold(2);
        assertThat(hold.step(0, 1, 1, -1)).isEmpty();
        assertThat(hold.step(1, -1, 2.5, 0)).hasValue(2.5);
        assertThat(hold.step(2.5, 0, 9, 0)).isEmpty();
        Hold brief = new Hold(2);
        assertThat(brief.step(0, 1, 1, -1)).isEmpty();
        assertThat(brief.step(1, -1, 3, 1)).isEmpty();
        assertThat(brief.step(3, 1, 4, -1)).isEmpty();
        assertThat(brief.step(4, -1, 6, -1)).hasValue(5.5);
        // Zero all along is holding.
        assertThat(new Hold(0).step(0, 0, 1, 0)).hasValue(0);
    }

    @Test
    void samplesOutOfOrderAreRefusedWithBothTimes() {
        Tracker tracker = new Tracker(Limits.INSTRUMENT_RATING, 12, (position, feet) -> 0);
        tracker.accept(AircraftState.at(5, 30, -45));
        assertThatThrownBy(() -> tracker.accept(AircraftState.at(5, 30, -45)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("5.0");
    }

    @Test
    void aFeedOfPositionsAloneHasNoDirectionBeforeItMoves() {
        Tracker tracker = new Tracker(Limits.INSTRUMENT_RATING, 12, (position, feet) -> 0);
        tracker.accept(AircraftState.at(0, 30, -45));
        assertThat(tracker.progress()).isEmpty();
        tracker.accept(AircraftState.at(1, 30, -44.999));
        tracker.accept(AircraftState.at(2, 30, -44.998));
        assertThat(tracker.progress().orElseThrow().trackTrueDeg()).isCloseTo(90, Offset.offset(0.1));
        assertThat(tracker.progress().orElseThrow().groundSpeedKt()).isCloseTo(187, Offset.offset(1.0));
    }
}
