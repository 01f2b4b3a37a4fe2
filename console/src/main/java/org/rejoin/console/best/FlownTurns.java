package org.rejoin.console.best;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.Predicate;

import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.HeadingPlan;

/** The turns onto lines of a flight, beside those of the best path for the same clearance. Pure. */
final class FlownTurns {

    /** On the track before a turn, degrees; common practice, no source. */
    private static final double ON_TRACK_DEG = 10;

    /** Between two samples half a second apart the track turns by this much or more, degrees. */
    private static final double TURNING_DEG = 0.15;

    private FlownTurns() {}

    /**
     * A turn onto a line.
     *
     * @param leg index of the leg it leads onto
     * @param onto in words
     * @param line of that leg
     * @param near side of the line that the turn begins on: 1 right of course, -1 left
     * @param bestBeforeNm where the best path begins it, square to the line, nautical miles
     * @param fromS it can begin from here on, seconds since the first sample
     * @param flownS when the flight began it; empty where it never turned that way
     */
    record Found(
            int leg,
            String onto,
            GroundPath line,
            double near,
            double bestBeforeNm,
            double fromS,
            OptionalDouble flownS) {}

    /** In the order flown. */
    static List<Found> of(BestPath best, List<Point> flown) {
        AmendedRoute route = best.route();
        List<Found> found = new ArrayList<>();
        double fromS = best.heardS();
        for (BestPath.TurnOnto turn : best.turns()) {
            if (turn.leg() < 0 || turn.toLineNm() <= 0) {
                continue;
            }
            GroundPath line = route.legs().get(turn.leg()).groundPath().orElseThrow();
            double side = Math.signum(line.offset(turn.begins()).crossTrackNm());
            double afterDeg = line.offset(turn.rollsOut()).course().deg();
            double toward = Math.signum(turn.turnDeg());
            double changeDeg = Math.abs(Angles.turn(afterDeg - trackBefore(best, turn)));
            int onTrack = first(flown, fromS, at -> Math.abs(left(at, afterDeg, toward) - changeDeg) < ON_TRACK_DEG);
            double after = onTrack < flown.size() ? flown.get(onTrack).timeS() : fromS;
            int half = first(flown, after, at -> Math.abs(left(at, afterDeg, toward)) <= changeDeg / 2);
            OptionalDouble began = OptionalDouble.empty();
            if (onTrack < half && half < flown.size()) {
                int at = half;
                while (at - 1 > onTrack && turning(flown, at, toward)) {
                    at--;
                }
                began = OptionalDouble.of(flown.get(at).timeS());
            }
            found.add(new Found(turn.leg(), turn.what(), line, side, turn.toLineNm(), after, began));
            fromS = half < flown.size() ? flown.get(half).timeS() : after;
        }
        return found;
    }

    /** How much of the turn is left, degrees; negative once it has gone too far. */
    private static double left(Point at, double afterDeg, double toward) {
        return toward * Angles.turn(afterDeg - at.trackTrueDeg());
    }

    private static boolean turning(List<Point> flown, int at, double toward) {
        double seconds =
                Math.max(1e-3, flown.get(at).timeS() - flown.get(at - 1).timeS());
        return toward
                        * Angles.turn(
                                flown.get(at).trackTrueDeg() - flown.get(at - 1).trackTrueDeg())
                > TURNING_DEG * seconds / Comparison.EVERY_S;
    }

    private static int first(List<Point> flown, double fromS, Predicate<Point> is) {
        int i = 0;
        while (i < flown.size() && (flown.get(i).timeS() < fromS || !is.test(flown.get(i)))) {
            i++;
        }
        return i;
    }

    private static double trackBefore(BestPath best, BestPath.TurnOnto turn) {
        AmendedRoute route = best.route();
        if (turn.leg() > route.courseLeg()) {
            return route.legs()
                    .get(turn.leg() - 1)
                    .groundPath()
                    .orElseThrow()
                    .offset(turn.begins())
                    .course()
                    .deg();
        }
        HeadingPlan plan = route.heading().orElseThrow();
        return GroundVector.onHeading(
                        plan.headingTrue(),
                        route.situation().trueAirspeedKt(),
                        route.situation().wind())
                .track()
                .deg();
    }
}
