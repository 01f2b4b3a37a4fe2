package org.rejoin.console.drill;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Leg;
import org.rejoin.console.skill.Skill;

/**
 * Answers drawn on the chart: a line, a point. They come as text, {@code LAT,LON} or {@code LAT,LON LAT,LON} in degrees,
 * north and east plus, so that a drawn answer is asked, timed, kept and marked as a typed one is.
 */
final class Drawing {

    /** A line drawn by hand on a chart; judgement, as are the others. */
    private static final double LINE_DEG = 5;

    private static final double LINE_NM = 2;
    private static final double POINT_NM = 2;
    private static final double POINT_SHARE = 0.1;

    private Drawing() {}

    /** What can be drawn of a clearance: its course, where it is met, the computed fix. */
    static List<Question> questions(AmendedRoute route) {
        List<Question> all = new ArrayList<>();
        if (route.courseLeg() >= 0) {
            route.legs()
                    .get(route.courseLeg())
                    .line()
                    .ifPresent(line -> all.add(new Question(
                            "DRAW_COURSE",
                            Skill.COURSE,
                            "Draw the course to fly, the way it is flown.",
                            new Question.Answer.Line(line, LINE_DEG, LINE_NM),
                            0,
                            "the line of the clearance, toward where the route goes on")));
        }
        route.intercept()
                .ifPresent(met -> all.add(new Question(
                        "DRAW_INTERCEPT",
                        Skill.INTERCEPT,
                        "Mark where the heading meets the course.",
                        new Question.Answer.Point(met.position(), Math.max(POINT_NM, POINT_SHARE * met.distanceNm())),
                        0,
                        String.format(
                                Locale.ROOT, "%.1f NM ahead along the track, heading and drift", met.distanceNm()))));
        if (route.courseLeg() >= 0 && route.legs().get(route.courseLeg()) instanceof Leg.DmeArc arc) {
            all.add(new Question(
                    "DRAW_ARC_END",
                    Skill.FIX,
                    "Mark where the arc is left.",
                    new Question.Answer.Point(arc.path().end(), Math.max(POINT_NM, POINT_SHARE * arc.distanceNm())),
                    0,
                    String.format(
                            Locale.ROOT,
                            "on the %s radial of %s, %.0f NM out",
                            Angles.figures(arc.toRadial().deg()),
                            arc.station().ident(),
                            arc.distanceNm())));
            return all;
        }
        route.computedFix()
                .ifPresent(fix -> all.add(new Question(
                        "DRAW_FIX",
                        Skill.FIX,
                        "Mark where the airway is joined.",
                        new Question.Answer.Point(
                                fix.fix().position(),
                                Math.max(
                                        POINT_NM,
                                        POINT_SHARE * fix.definitions().get(0).distanceNm())),
                        0,
                        String.format(
                                Locale.ROOT,
                                "where the radial crosses the airway, %.0f NM from %s",
                                fix.definitions().get(0).distanceNm(),
                                fix.definitions().get(0).station().ident()))));
        return all;
    }

    /** Positions as they were drawn; empty where the text is not so many. */
    static Optional<List<Position>> positions(String drawn, int count) {
        String[] points = drawn.trim().split("[ ;]+", -1);
        if (points.length != count) {
            return Optional.empty();
        }
        List<Position> positions = new ArrayList<>();
        for (String point : points) {
            String[] parts = point.split(",", -1);
            try {
                if (parts.length != 2) {
                    return Optional.empty();
                }
                positions.add(new Position(Double.parseDouble(parts[0]), Double.parseDouble(parts[1])));
            } catch (IllegalArgumentException e) {
                return Optional.empty();
            }
        }
        return Optional.of(positions);
    }

    /** Whether a drawn line lies along another, the same way round. */
    static boolean along(GeodesicLine line, List<Position> drawn, double toleranceDeg, double toleranceNm) {
        Geodesics.Inverse way = drawn.get(0).to(drawn.get(1));
        if (way.distanceNm() < toleranceNm) {
            return false;
        }
        for (Position end : drawn) {
            if (Math.abs(line.offset(end).crossTrackNm()) > toleranceNm) {
                return false;
            }
        }
        Position middle = drawn.get(0).destination(way.initial(), way.distanceNm() / 2);
        double off = line.offset(middle).course().turnTo(drawn.get(0).to(middle).onward());
        return Math.abs(Angles.turn(off)) <= toleranceDeg;
    }
}
