package org.rejoin.console.best;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.AmendedRoute;

/**
 * The best path that can be flown for a clearance from where it was heard: a moment to react, standard-rate turns in the
 * wind, the heading as assigned, each turn begun where it rolls out on the next course. Roll-in and roll-out take no
 * time.
 *
 * @param route flown
 * @param heardS when the clearance was heard, seconds since the first sample
 * @param turns in the order flown; those of less than half a degree are left out
 * @param completeS when established on the leg that completes the amendment, seconds since the first sample
 * @param line of that leg
 * @param completeAlongNm from the start of that line, nautical miles
 * @param groundSpeedKt along it
 * @param lengthNm over the ground from hearing to {@code completeS}, nautical miles
 * @param stretches in the order flown
 * @param onward what follows where the route leads to a hold: the way to it, its entry and first circuit; else empty
 */
public record BestPath(
        AmendedRoute route,
        double heardS,
        List<TurnOnto> turns,
        double completeS,
        GroundPath line,
        double completeAlongNm,
        double groundSpeedKt,
        double lengthNm,
        List<Stretch> stretches,
        List<Stretch> onward) {

    /** The path goes on along the last leg for so long, so that it can be seen where it leads, seconds. */
    private static final double ONWARD_S = 60;

    /** Points of a turn, seconds apart. */
    private static final double POINTS_S = 2;

    /** Points of a straight piece; a geodesic needs some on a flat page. */
    private static final int STRAIGHT_POINTS = 8;

    public BestPath {
        turns = List.copyOf(turns);
        stretches = List.copyOf(stretches);
        onward = List.copyOf(onward);
    }

    /**
     * One turn of the path.
     *
     * @param what it leads to
     * @param leg index of the leg it leads onto; -1 for the assigned heading
     * @param beginsS seconds since the first sample
     * @param rollsOutS likewise
     * @param begins where
     * @param rollsOut where
     * @param turnDeg change of heading, right positive
     * @param toLineNm from where it begins to the line it leads onto, square to that line; 0 for a heading
     */
    public record TurnOnto(
            String what,
            int leg,
            double beginsS,
            double rollsOutS,
            Position begins,
            Position rollsOut,
            double turnDeg,
            double toLineNm) {}

    /** A point of the path, seconds since the first sample. */
    public record Point(double timeS, Position position) {}

    /**
     * Works the path out.
     *
     * @param heardS when the clearance was heard, seconds since the first sample
     * @param start where the aircraft was then
     * @param ground how it moved then
     * @return the path; empty where no standard-rate turn from the heading rolls out on the course: it meets nothing, it
     *     is met before there was time to turn, or a leg is too short for its turns
     */
    public static Optional<BestPath> of(AmendedRoute route, double heardS, Position start, GroundVector ground) {
        return new PathPlan(route, heardS).plan(start, ground);
    }

    /** {@return the turn onto the course to intercept; empty for a direct} */
    public Optional<TurnOnto> ontoCourse() {
        return turns.stream().filter(turn -> turn.leg() == route.courseLeg()).findFirst();
    }

    /** {@return the path as a line over the ground, a little past the end, points in order of time} */
    public List<Point> points() {
        List<Point> points = new ArrayList<>();
        draw(stretches, heardS, points);
        points.add(new Point(completeS, line.pointAt(completeAlongNm)));
        if (onward.isEmpty()) {
            points.add(
                    new Point(completeS + ONWARD_S, line.pointAt(completeAlongNm + groundSpeedKt * ONWARD_S / 3600)));
            return points;
        }
        draw(onward, completeS, points);
        Stretch last = onward.get(onward.size() - 1);
        points.add(new Point(
                completeS + onward.stream().mapToDouble(Stretch::seconds).sum(), last.at(last.seconds())));
        return points;
    }

    /** The same path, and how it goes on. */
    BestPath goingOn(List<Stretch> further) {
        return new BestPath(
                route, heardS, turns, completeS, line, completeAlongNm, groundSpeedKt, lengthNm, stretches, further);
    }

    private static void draw(List<Stretch> stretches, double fromS, List<Point> points) {
        double timeS = fromS;
        for (Stretch stretch : stretches) {
            int steps = stretch.curved() ? Math.max(1, (int) Math.ceil(stretch.seconds() / POINTS_S)) : STRAIGHT_POINTS;
            for (int i = 0; i < steps; i++) {
                double s = stretch.seconds() * i / steps;
                points.add(new Point(timeS + s, stretch.at(s)));
            }
            timeS += stretch.seconds();
        }
    }
}
