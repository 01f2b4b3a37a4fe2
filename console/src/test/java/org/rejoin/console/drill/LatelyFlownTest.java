package org.rejoin.console.drill;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.OptionalDouble;

import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.api.Test;

/** How long an amendment has been done, and that a new attempt has done none. */
class LatelyFlownTest {

    @Test
    void putBackTheAircraftHasDoneNothingYet() throws Exception {
        Lesson lesson = LessonReader.read("heading-to-airway");
        LatelyFlown lately = new LatelyFlown();
        FlightRecord record = FlightRecord.withoutPoints();
        record.tell(entry -> entry.readBy(lately));
        FlightSession session = new FlightSession(
                new FlightSession.Setting(
                        lesson.chart(),
                        lesson.filed(),
                        lesson.amendments(),
                        lesson.date().orElseThrow(),
                        lesson.wind(),
                        ToleranceSet.read(lesson.standard()).limits(),
                        12),
                record);
        double[] lastS = new double[1];
        new PracticeFlight(lesson, lesson.date().orElseThrow(), Habit.GOOD).fly(1, state -> {
            session.accept(state);
            lastS[0] = state.timeS();
        });
        assertThat(lately.completeForS()).isPresent();
        new Entry.Happened(lastS[0], new FlightEvent.Repositioned(lastS[0], 20), false).readBy(lately);
        assertThat(lately.completeForS()).isEqualTo(OptionalDouble.empty());
    }

    /** Straight east at 120 kt over the ground in a wind from the west of 20 kt: 100 kt through the air. */
    @Test
    void anAircraftThatFliesNoLessonIsKnownFromItsSamples() {
        LatelyFlown lately = new LatelyFlown();
        Position at = new Position(0, -30);
        LocalDate date = LocalDate.of(2026, 6, 1);
        double variation = MagneticModel.WMM2025.variation(at, 5000, date).eastDeg();
        for (int i = 0; i <= 100; i++) {
            lately.heard(sample(i * 0.1, at.destination(new TrueDirection(90), 120 * i * 0.1 / 3600), 90), false, date);
        }
        Wind wind = new Wind(new TrueDirection(270), 20);
        DrillFromHere.Aircraft known = lately.aircraft(wind).orElseThrow();
        assertThat(known.trueAirspeedKt()).isCloseTo(100, within(0.5));
        assertThat(known.heading().deg()).isCloseTo(90 - variation, within(0.01));
        assertThat(known.turnDegPerS()).isCloseTo(0, within(0.001));
        assertThat(known.verticalSpeedFpm()).isCloseTo(0, within(1e-9));
        // Put elsewhere, nothing is known of it for a few seconds.
        lately.heard(sample(10.2, at, 90), true, date);
        assertThat(lately.aircraft(wind)).isEmpty();
        // In a turn of three degrees a second.
        for (int i = 0; i <= 10; i++) {
            lately.heard(sample(11 + i, at.destination(new TrueDirection(90), i / 30.0), 90 + 3 * i), false, date);
        }
        assertThat(lately.aircraft(wind).orElseThrow().turnDegPerS()).isCloseTo(3, within(0.01));
    }

    private static AircraftState sample(double timeS, Position at, double headingTrueDeg) {
        OptionalDouble none = OptionalDouble.empty();
        return new AircraftState(
                timeS,
                at.latitudeDeg(),
                at.longitudeDeg(),
                OptionalDouble.of(5000),
                OptionalDouble.of(headingTrueDeg),
                none,
                none,
                none,
                none,
                none,
                none,
                none,
                false);
    }
}
