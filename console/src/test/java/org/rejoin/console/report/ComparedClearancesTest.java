package org.rejoin.console.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.console.LessonFlight;
import org.rejoin.console.best.Comparison;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;

import org.junit.jupiter.api.Test;

/** The report compares what the words of the debrief compare. */
class ComparedClearancesTest {

    private static List<Comparison> flown(Amendment... more) throws Exception {
        Lesson lesson = LessonReader.read(BuiltInLesson.RADIAL_OUTBOUND.lessonName());
        List<Amendment> amendments = new ArrayList<>(lesson.amendments());
        amendments.addAll(List.of(more));
        FlightRecord record = FlightRecord.whole();
        FlightSession seat = LessonFlight.seat(lesson, amendments, record);
        new PracticeFlight(lesson, lesson.date().orElseThrow(), Habit.GOOD).fly(1, seat::accept);
        seat.finish();
        return Comparison.all(record);
    }

    @Test
    void whatWasTakenBackIsNotCompared() throws Exception {
        assertThat(flown()).hasSize(1);
        assertThat(flown(new Amendment(new Amendment.When.ElapsedS(60), "disregard", OptionalDouble.empty())))
                .isEmpty();
    }

    /** The one in force again is compared from where it was, the one taken back is not. */
    @Test
    void ofTwoClearancesTheOneTakenBackIsNotComparedAndTheOneInForceAgainIs() throws Exception {
        List<Comparison> compared = flown(
                new Amendment(
                        new Amendment.When.ElapsedS(40),
                        "fly heading 130, intercept the PTL 066 radial, join V40, then as filed",
                        OptionalDouble.empty()),
                new Amendment(new Amendment.When.ElapsedS(60), "disregard", OptionalDouble.empty()));
        assertThat(compared)
                .extracting(each -> Math.round(each.best().heardS()))
                .containsExactly(30L, 60L);
    }
}
