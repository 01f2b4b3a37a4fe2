package org.rejoin.console.drill;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Optional;

import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.Grader;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.grade.Verdict;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;

/** A drill flown by the practice aircraft, without socket or clock, through the same tracker and grader as a pilot. */
final class TestFlight {

    private static final double SAMPLES_A_SECOND = 2;

    /** How it went, and how many seconds it took. */
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
     * Flies until a fault shows, or to the end; whether it showed.
     *
     * @throws LessonException if the clearance cannot be worked out where it is heard
     */
    static boolean shows(Lesson lesson, Habit habit, FaultCode fault) throws LessonException {
        Grade grade = fly(lesson, habit, Optional.of(fault)).grade();
        return has(grade, fault) && grade.verdict() == Verdict.NOT_MET;
    }

    private static boolean has(Grade grade, FaultCode fault) {
        return grade.faults().stream().anyMatch(each -> each.code() == fault);
    }

    private static Result fly(Lesson lesson, Habit habit, Optional<FaultCode> until) throws LessonException {
        ToleranceSet set;
        try {
            set = ToleranceSet.read(lesson.standard());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        Grader grader = new Grader(set);
        double[] last = new double[1];
        double[] look = {LOOK_S};
        FlightRecord record = FlightRecord.withoutPoints();
        record.tell(entry -> {
            entry.readBy(grader);
            last[0] = entry.timeS();
            if (until.isPresent() && last[0] >= look[0]) {
                look[0] += LOOK_S;
                if (has(grader.grade(), until.get())) {
                    throw new Shown();
                }
            }
        });
        FlightSession session = new FlightSession(
                new FlightSession.Setting(
                        lesson.chart(),
                        lesson.filed(),
                        lesson.amendments(),
                        lesson.date().orElseThrow(),
                        lesson.wind(),
                        set.limits(),
                        Rule.FeedLost.OTHER.timeoutS()),
                record);
        try {
            new PracticeFlight(lesson, lesson.date().orElseThrow(), habit).fly(SAMPLES_A_SECOND, session::accept);
            session.finish();
        } catch (Shown e) {
            // Seen: the rest of the flight would tell nothing more.
        }
        return new Result(grader.grade(), last[0]);
    }
}
