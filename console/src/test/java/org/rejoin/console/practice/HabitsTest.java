package org.rejoin.console.practice;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.tracker.Progress;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.console.grade.Fault;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.Grader;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Each habit of the practice pilot shows its own fault in every built-in lesson, and the good pilot none. */
class HabitsTest {

    private static final Map<Habit, Fault.Code> FAULT_OF = Map.of(
            Habit.LATE, Fault.Code.OVERSHOOT,
            Habit.FLY_THROUGH, Fault.Code.FLOWN_THROUGH,
            Habit.RECIPROCAL, Fault.Code.WRONG_DIRECTION,
            Habit.EARLY, Fault.Code.TURNED_EARLY,
            Habit.WEAVING, Fault.Code.WEAVING,
            Habit.WRONG_TURN, Fault.Code.WRONG_TURN);

    static Stream<Arguments> flights() {
        return Stream.of(BuiltInLesson.values())
                .flatMap(lesson -> Stream.of(Habit.values())
                        .flatMap(habit -> Stream.of(1.0, 5.0).map(hz -> Arguments.of(lesson, habit, hz))));
    }

    @ParameterizedTest
    @MethodSource("flights")
    void eachHabitShowsItsFaultAndGoodShowsNone(BuiltInLesson lesson, Habit habit, double hz) throws Exception {
        Grade grade = fly(LessonReader.read(lesson.lessonName()), habit, hz);
        List<Fault.Code> codes = grade.faults().stream().map(Fault::code).toList();
        if (habit == Habit.GOOD) {
            assertThat(codes).isEmpty();
            assertThat(grade.met()).isTrue();
            assertThat(grade.score()).isGreaterThan(85);
        } else {
            assertThat(codes).contains(FAULT_OF.get(habit));
            assertThat(grade.met()).isFalse();
        }
    }

    static Grade fly(Lesson lesson, Habit habit, double hz) throws Exception {
        ToleranceSet set = ToleranceSet.read(lesson.standard());
        Grader grader = new Grader(set);
        LocalDate date = lesson.date().orElseThrow();
        FlightSession seat = new FlightSession(
                new FlightSession.Setting(
                        lesson.chart(), lesson.filed(), lesson.amendments(), date, lesson.wind(), set.limits(), 12),
                new FlightSession.Listener() {
                    @Override
                    public void sample(AircraftState state, Progress progress) {
                        grader.sample(state, progress);
                    }

                    @Override
                    public void event(FlightEvent event) {
                        grader.event(event);
                        // No habit is to track another course.
                        assertThat(event).isNotInstanceOf(FlightEvent.OtherCourseTracked.class);
                        if (System.getProperty("show") != null) {
                            System.out.println(event);
                        }
                    }

                    @Override
                    public void amended(AmendedRoute route) {
                        grader.amended(route);
                        if (System.getProperty("show") != null) {
                            System.out.println(route.intercept() + " " + route.computedFix() + route.warnings());
                        }
                    }

                    @Override
                    public void problem(double timeS, String why) {
                        throw new AssertionError(why);
                    }
                });
        new PracticeFlight(lesson, date, habit).fly(hz, seat::accept);
        seat.finish();
        return grader.grade();
    }
}
