package org.rejoin.console.best;

import java.util.Optional;
import java.util.function.DoubleFunction;
import java.util.function.DoublePredicate;

import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;

/**
 * When a turn must begin so that it rolls out on a line.
 *
 * @param seconds from the start of the path it is begun on
 * @param turnDeg change of heading, right positive
 */
record TurnStart(double seconds, double turnDeg) {

    /** Where the search stops, nautical miles (0.2 mm). */
    static final double CONVERGED_NM = 1e-7;

    static final int MOST_STEPS = 60;

    private static final int HALVINGS = 40;

    /** Nobody flies a heading for longer, seconds. */
    static final double LONGEST_S = 4 * 3600;

    /**
     * The zero of the distance from the line after the turn, which is nearly linear in the time; path and headings are
     * those before it, by seconds up to the most. Empty where it must have begun before, or never rolls out on the
     * line.
     */
    static Optional<TurnStart> onto(
            GroundPath line,
            Air air,
            DoubleFunction<Position> path,
            DoubleFunction<TrueDirection> headings,
            double mostS) {
        double before = 0;
        double now = Math.min(10, mostS / 2);
        double missBefore = missNm(path.apply(before), headings.apply(before), line, air);
        double miss = missNm(path.apply(now), headings.apply(now), line, air);
        for (int i = 0; i < MOST_STEPS && Math.abs(miss) > CONVERGED_NM; i++) {
            double next = now - miss * (now - before) / (miss - missBefore);
            if (!(Math.abs(next) < 2 * LONGEST_S)) {
                return Optional.empty();
            }
            before = now;
            missBefore = miss;
            now = next;
            miss = missNm(path.apply(now), headings.apply(now), line, air);
        }
        if (!(Math.abs(miss) <= CONVERGED_NM && now >= 0 && now <= mostS)) {
            return Optional.empty();
        }
        return Optional.of(new TurnStart(now, turnDeg(path.apply(now), headings.apply(now), line, air)));
    }

    /** By halving, where a condition begins to hold between where it does not and where it does. */
    static double begins(double not, double holds, DoublePredicate condition) {
        for (int i = 0; i < HALVINGS; i++) {
            double middle = (not + holds) / 2;
            if (condition.test(middle)) {
                holds = middle;
            } else {
                not = middle;
            }
        }
        return holds;
    }

    /** How far to the right of the line a turn begun now rolls out, nautical miles. */
    static double missNm(Position from, TrueDirection heading, GroundPath line, Air air) {
        Stretch.Turning turning = new Stretch.Turning(from, heading, turnDeg(from, heading, line, air), air);
        return line.offset(turning.at(turning.seconds())).crossTrackNm();
    }

    /** The turn to the heading that makes good the course where the turn ends. */
    static double turnDeg(Position from, TrueDirection heading, GroundPath line, Air air) {
        TrueDirection course = line.offset(from).course();
        double turnDeg = 0;
        for (int i = 0; i < 3; i++) {
            TrueDirection wanted = air.along(course)
                    .map(GroundVector.HeadingForCourse::heading)
                    .orElse(course);
            turnDeg = heading.turnTo(wanted);
            Stretch.Turning turning = new Stretch.Turning(from, heading, turnDeg, air);
            course = line.offset(turning.at(turning.seconds())).course();
        }
        return turnDeg;
    }
}
