package org.rejoin.console.drill;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Map;
import java.util.Optional;

import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.chart.Chart;
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
import org.rejoin.console.skill.Shape;

/**
 * Whether a drill can be flown well, and whether flying it wrong shows: the practice pilot flies it, once well and once
 * with each habit that the drill must tell apart.
 */
final class FlownCheck {

    /** The practice pilot misses nothing that matters. */
    private static final double LEAST_SCORE = 95;

    /** Longer no drill is, seconds; a hold is three times round besides. */
    private static final double LONGEST_S = 25 * 60;

    private static final double LONGEST_HOLD_S = 40 * 60;

    /** The tracker names a wrong turn from here on, degrees. */
    private static final double LEAST_TURN_DEG = 20;

    private static final double SAMPLES_A_SECOND = 2;

    /** How often a flight that is to show a fault is looked at, seconds. */
    private static final double LOOK_S = 15;

    private static final Map<Habit, FaultCode> SHOWS = Map.of(
            Habit.FLY_THROUGH, FaultCode.FLOWN_THROUGH,
            Habit.RECIPROCAL, FaultCode.WRONG_DIRECTION,
            Habit.WRONG_TURN, FaultCode.WRONG_TURN);

    private FlownCheck() {}

    /** What is wrong with the drill; empty where nothing is. */
    static Optional<Tally.Why> wrong(Drill drill, Chart chart) {
        Lesson lesson =
                drill.lesson(chart, new Lesson.Files("", chart.name(), new Lesson.KeptChart.Octets(new byte[0])));
        boolean hold = drill.features().shape() == Shape.HOLD;
        try {
            Result good = fly(lesson, Habit.GOOD);
            Grade grade = good.grade();
            if (grade.verdict() != Verdict.MET
                    || !grade.faults().isEmpty()
                    || grade.score().orElse(0) < LEAST_SCORE
                    || good.seconds() > (hold ? LONGEST_HOLD_S : LONGEST_S)) {
                return Optional.of(Tally.Why.NOT_FLYABLE);
            }
            for (Map.Entry<Habit, FaultCode> each : SHOWS.entrySet()) {
                if (each.getKey() == Habit.WRONG_TURN
                        && !hold
                        && !(Math.abs(drill.features().turnAtFixDeg().orElse(0)) >= LEAST_TURN_DEG)) {
                    continue;
                }
                FaultCode fault =
                        hold && each.getKey() == Habit.WRONG_TURN ? FaultCode.HOLD_WRONG_SIDE : each.getValue();
                if (!shows(lesson, each.getKey(), fault)) {
                    return Optional.of(Tally.Why.WRONG_WAYS_UNSEEN);
                }
            }
            return Optional.empty();
        } catch (LessonException e) {
            return Optional.of(Tally.Why.NOT_WORKED_OUT);
        }
    }

    /** How it went, and how many seconds it took. */
    record Result(Grade grade, double seconds) {}

    /** Ends a flight that has shown what it was flown for. */
    private static final class Shown extends RuntimeException {
        private static final long serialVersionUID = 1L;

        private Shown() {
            super(null, null, false, false);
        }
    }

    /**
     * Flies to the end, without socket or clock, through the same tracker and grader as a pilot.
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
