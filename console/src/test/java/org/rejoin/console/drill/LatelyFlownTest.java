package org.rejoin.console.drill;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.OptionalDouble;

import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;

import org.junit.jupiter.api.Test;

/** How long an amendment has been done, and that a new attempt has done none. */
class LatelyFlownTest {

    @Test
    void putBackTheAircraftHasDoneNothingYet() throws Exception {
        Lesson lesson = LessonReader.read("heading-to-airway");
        LatelyFlown lately = new LatelyFlown(lesson.wind());
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
}
