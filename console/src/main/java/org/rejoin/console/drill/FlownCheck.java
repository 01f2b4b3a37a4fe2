package org.rejoin.console.drill;

import java.util.Map;
import java.util.Optional;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.Verdict;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.practice.Habit;
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
            TestFlight.Result good = TestFlight.fly(lesson, Habit.GOOD);
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
                if (!TestFlight.shows(lesson, each.getKey(), fault)) {
                    return Optional.of(Tally.Why.WRONG_WAYS_UNSEEN);
                }
            }
            return Optional.empty();
        } catch (LessonException e) {
            return Optional.of(Tally.Why.NOT_WORKED_OUT);
        }
    }
}
