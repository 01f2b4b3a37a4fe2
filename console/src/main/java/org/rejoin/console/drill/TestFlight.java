package org.rejoin.console.drill;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Optional;

import org.rejoin.bridge.Seat;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.tracker.Progress;
import org.rejoin.bridge.tracker.TrackerEvent;
import org.rejoin.console.grade.Fault;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.Grader;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.protocol.AircraftState;

/** A drill flown by the practice aircraft, without socket or clock, through the same tracker and grader as a pilot. */
final class TestFlight {

    private static final double SAMPLES_A_SECOND = 2;

    private static final double TIMEOUT_S = 12;

    /**
     * How it went.
     *
     * @param grade of the flight
     * @param seconds it took
     */
    record Result(Grade grade, double seconds) {}

    /** How often a flight that is to show a fault is looked at, seconds. */
    private static final double LOOK_S = 15;

    private TestFlight() {}

    /** Ends a flight that has shown what it was flown for. */
    private static final class Shown extends RuntimeException {
        private static final long serialVersionUID = 1L;

        private Shown() {
            super(null, null, false, false);
        }
    }

    /**
     * Flies to the end.
     *
     * @throws LessonException if the clearance cannot be worked out where it is heard
     */
    static Result fly(Lesson lesson, Habit habit) throws LessonException {
        return fly(lesson, habit, Optional.empty());
    }

    /**
     * Flies until a fault shows, or to the end.
     *
     * @return whether it showed
     * @throws LessonException if the clearance cannot be worked out where it is heard
     */
    static boolean shows(Lesson lesson, Habit habit, Fault.Code fault) throws LessonException {
        Grade grade = fly(lesson, habit, Optional.of(fault)).grade();
        return has(grade, fault) && !grade.met();
    }

    private static boolean has(Grade grade, Fault.Code fault) {
        return grade.faults().stream().anyMatch(each -> each.code() == fault);
    }

    private static Result fly(Lesson lesson, Habit habit, Optional<Fault.Code> until) throws LessonException {
        ToleranceSet set;
        try {
            set = ToleranceSet.read(lesson.standard());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        Grader grader = new Grader(set);
        double[] last = new double[1];
        double[] look = {LOOK_S};
        Seat seat = new Seat(
                new Seat.Setting(
                        lesson.chart(),
                        lesson.filed(),
                        lesson.amendments(),
                        lesson.date().orElseThrow(),
                        lesson.wind(),
                        set.limits(),
                        TIMEOUT_S),
                new Seat.Listener() {
                    @Override
                    public void sample(AircraftState state, Progress progress) {
                        last[0] = state.timeS();
                        grader.sample(state, progress);
                        if (until.isPresent() && state.timeS() >= look[0]) {
                            look[0] += LOOK_S;
                            if (has(grader.grade(), until.get())) {
                                throw new Shown();
                            }
                        }
                    }

                    @Override
                    public void event(TrackerEvent event) {
                        grader.event(event);
                    }

                    @Override
                    public void amended(AmendedRoute route) {
                        grader.amended(route);
                    }

                    @Override
                    public void cancelled() {
                        grader.cancelled();
                    }
                });
        try {
            new PracticeFlight(lesson, lesson.date().orElseThrow(), habit).fly(SAMPLES_A_SECOND, seat::accept);
            seat.finish();
        } catch (Shown e) {
            // Seen: the rest of the flight would tell nothing more.
        }
        return new Result(grader.grade(), last[0]);
    }
}
