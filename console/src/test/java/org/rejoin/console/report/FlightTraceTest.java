package org.rejoin.console.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.FlightSession;
import org.rejoin.console.LessonFlight;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;

import org.junit.jupiter.api.Test;

/** The report compares what the words of the debrief compare. */
class FlightTraceTest {

    private static FlightTrace flown(Amendment... more) throws Exception {
        Lesson lesson = LessonReader.read(BuiltInLesson.RADIAL_OUTBOUND.lessonName());
        List<Amendment> amendments = new ArrayList<>(lesson.amendments());
        amendments.addAll(List.of(more));
        FlightTrace trace = new FlightTrace();
        FlightSession seat = LessonFlight.seat(lesson, amendments, trace);
        new PracticeFlight(lesson, lesson.date().orElseThrow(), Habit.GOOD).fly(1, seat::accept);
        seat.finish();
        return trace;
    }

    @Test
    void whatWasTakenBackIsNotCompared() throws Exception {
        assertThat(flown().comparisons()).hasSize(1);
        assertThat(flown(new Amendment(new Amendment.When.ElapsedS(60), "disregard", OptionalDouble.empty()))
                        .comparisons())
                .isEmpty();
    }
}
