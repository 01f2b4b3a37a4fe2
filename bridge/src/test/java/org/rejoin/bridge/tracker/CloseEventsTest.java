package org.rejoin.bridge.tracker;

import static java.util.Objects.requireNonNull;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FeedQuality;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.VariationMap;
import org.rejoin.protocol.AircraftState;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;

/** What goes wrong where events are close: zeros at samples, double roots, stretches of zeros, two at once. */
class CloseEventsTest {

    private static CourseMeasure measure(double timeS, double crossNm, double errorDeg) {
        FlightInstant instant =
                Instants.at(timeS, new Position(0, 0), (90 + errorDeg + 360) % 360, 90 + errorDeg, 120, Double.NaN);
        return new CourseMeasure(instant, crossNm, timeS / 30, 90);
    }

    /** What a watch over the line makes of it. */
    private static List<FlightEvent> flown(List<CourseMeasure> way) {
        CourseWatch watch = new CourseWatch(true, false, Rules.STANDARD);
        List<FlightEvent> events = new ArrayList<>();
        CourseMeasure before = null;
        for (CourseMeasure now : way) {
            watch.step(before, now, 2, Double.POSITIVE_INFINITY, false, false, events);
            before = now;
        }
        return events;
    }

    /** One sample a second; each the cross-track distance, NM. */
    private static List<FlightEvent> crossing(double errorDeg, double... crossNm) {
        List<CourseMeasure> way = new ArrayList<>();
        for (int i = 0; i < crossNm.length; i++) {
            way.add(measure(i, crossNm[i], errorDeg));
        }
        return flown(way);
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
        List<CourseMeasure> way = new ArrayList<>();
        for (int i = 0; i <= 40; i++) {
            way.add(measure(i, 0.03 - 0.02 * i, -45));
        }
        for (int i = 41; i <= 120; i++) {
            way.add(measure(i, -0.77 + 0.02 * (i - 40), 45));
        }
        List<FlightEvent> events = flown(way);
        assertThat(events.stream().filter(FlightEvent.FlownThrough.class::isInstance))
                .extracting(FlightEvent::timeS)
                .containsExactly(26.5, 103.5);
    }

    @Test
    void twoAtOnceBothHappen() {
        // Established and the overshoot settled are one instant.
        List<CourseMeasure> way = new ArrayList<>();
        double[] cross = {0.1, -0.1, -0.2, -0.25, -0.25, -0.25, -0.25, -0.25, -0.25, -0.25};
        double[] error = {-45, -30, -15, 0, 0, 0, 0, 0, 0, 0};
        for (int i = 0; i < cross.length; i++) {
            way.add(measure(i, cross[i], error[i]));
        }
        List<FlightEvent> events = flown(way);
        assertThat(events)
                .extracting(FlightEvent::name)
                .containsExactly("course_crossed", "overshoot", "intercept_achieved");
        assertThat(events.get(1).timeS()).isEqualTo(events.get(2).timeS());
    }

    @Test
    void samplesOutOfOrderAreRefusedWithBothTimes() {
        Tracker tracker = tracker();
        tracker.accept(AircraftState.at(5, 30, -45));
        assertThatThrownBy(() -> tracker.accept(AircraftState.at(5, 30, -45)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("5.0");
    }

    @Test
    void aFeedOfPositionsAloneHasNoDirectionBeforeItMoves() {
        Tracker tracker = tracker();
        tracker.accept(AircraftState.at(0, 30, -45));
        assertThat(tracker.point()).isNull();
        tracker.accept(AircraftState.at(1, 30, -44.999));
        tracker.accept(AircraftState.at(2, 30, -44.998));
        assertThat(requireNonNull(tracker.point()).trackTrueDeg()).isCloseTo(90, Offset.offset(0.1));
        assertThat(requireNonNull(tracker.point()).groundSpeedKt()).isCloseTo(187, Offset.offset(1.0));
    }

    private static Tracker tracker() {
        Limits limits = Limits.INSTRUMENT_RATING;
        return new Tracker(
                limits, Rules.of(limits), 12, new FeedQuality(), new VariationMap(MagneticModel.WMM2025, 2026));
    }
}
