package org.rejoin.console.practice;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;

import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.console.grade.Fault;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.GradeCard;
import org.rejoin.console.grade.Grader;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.grade.Verdict;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Each habit of the practice pilot shows its own fault in every built-in lesson, and the good pilot none. */
class HabitsTest {

    private static final Map<Habit, FaultCode> FAULT_OF = Map.of(
            Habit.LATE, FaultCode.OVERSHOOT,
            Habit.FLY_THROUGH, FaultCode.FLOWN_THROUGH,
            Habit.RECIPROCAL, FaultCode.WRONG_DIRECTION,
            Habit.EARLY, FaultCode.TURNED_EARLY,
            Habit.WEAVING, FaultCode.WEAVING,
            Habit.WRONG_TURN, FaultCode.WRONG_TURN);

    static Stream<Arguments> flights() {
        return Stream.of(BuiltInLesson.values())
                .flatMap(lesson -> Stream.of(Habit.values())
                        .flatMap(habit -> Stream.of(1.0, 5.0).map(hz -> Arguments.of(lesson, habit, hz))));
    }

    /** What a student sees inside of its limit and not met says what it was not met by. */
    @Test
    void rolledOutShortSaysHowFarAndThatTheFaultCounts() throws Exception {
        Grade grade = fly(LessonReader.read(BuiltInLesson.RADIAL_OUTBOUND.lessonName()), Habit.EARLY, 5);
        assertThat(GradeCard.lines(grade, ""))
                .anyMatch(
                        line -> line.matches(
                                ".*NOT MET +Intercept, rolled out 1\\.\\d\\d NM short of the line, 0\\.\\d\\d NM beyond"
                                        + " half scale; within its limit, but not met because of TURNED_EARLY: rolled out parallel, .*"));
    }

    @ParameterizedTest
    @MethodSource("flights")
    void eachHabitShowsItsFaultAndGoodShowsNone(BuiltInLesson lesson, Habit habit, double hz) throws Exception {
        Grade grade = fly(LessonReader.read(lesson.lessonName()), habit, hz);
        List<FaultCode> codes = grade.faults().stream().map(Fault::code).toList();
        if (habit == Habit.GOOD) {
            assertThat(codes).isEmpty();
            assertThat(grade.verdict()).isEqualTo(Verdict.MET);
            assertThat(grade.score().orElseThrow()).isGreaterThan(90);
        } else {
            assertThat(codes).contains(faultOf(lesson, habit));
            assertThat(grade.verdict()).isNotEqualTo(Verdict.MET);
        }
    }

    /** Past the fix to hold at the wrong way to turn is the one away from the holding side. */
    private static FaultCode faultOf(BuiltInLesson lesson, Habit habit) {
        return lesson == BuiltInLesson.HOLD_AT_FIX && habit == Habit.WRONG_TURN
                ? FaultCode.HOLD_WRONG_SIDE
                : Objects.requireNonNull(FAULT_OF.get(habit));
    }

    static Grade fly(Lesson lesson, Habit habit, double hz) throws Exception {
        ToleranceSet set = ToleranceSet.read(lesson.standard());
        LocalDate date = lesson.date().orElseThrow();
        FlightRecord record = FlightRecord.whole();
        FlightSession seat = new FlightSession(
                new FlightSession.Setting(
                        lesson.chart(), lesson.filed(), lesson.amendments(), date, lesson.wind(), set.limits(), 12),
                record);
        new PracticeFlight(lesson, date, habit).fly(hz, seat::accept);
        seat.finish();
        assertThat(record.entries()).noneMatch(Entry.NotIssued.class::isInstance);
        // No habit is to track another course.
        assertThat(record.events()).noneMatch(FlightEvent.OtherCourseTracked.class::isInstance);
        return Grader.grade(record, set);
    }
}
