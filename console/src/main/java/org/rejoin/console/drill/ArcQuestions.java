package org.rejoin.console.drill;

import java.util.List;

import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Leg;
import org.rejoin.console.skill.Skill;
import org.rejoin.console.words.Words;

/** What is asked of an arc: where it is met, which way round, where it is left, and at which radial the turn off it begins. */
final class ArcQuestions {

    /** A point of an arc is read off the chart to this, degrees at the station; judgement, as are the others. */
    private static final double MET_DEG = 4;

    private static final double LEFT_DEG = 3;
    private static final double LEAD_DEG = 3;

    private ArcQuestions() {}

    static void add(Leg.DmeArc arc, AmendedRoute route, List<Question> all) {
        String station = arc.station().ident();
        boolean clockwise = arc.path().clockwise();
        all.add(new Question(
                "ARC_MET",
                Skill.INTERCEPT,
                "On which radial of " + station + " is the arc met, three figures?",
                new Question.Answer.Direction(arc.fromRadial().deg(), MET_DEG),
                Words.say("where the track, heading and drift, comes to %.0f NM from %s", arc.distanceNm(), station)));
        all.add(new Question(
                "ARC_WAY",
                Skill.COURSE,
                "Which way round: clockwise or counterclockwise?",
                new Question.Answer.Choice(
                        clockwise ? "clockwise" : "counterclockwise", List.of("clockwise", "counterclockwise")),
                Words.say(
                        "from the %s to the %s radial with %s on the %s: the radials %s",
                        Angles.figures(arc.fromRadial().deg()),
                        Angles.figures(arc.toRadial().deg()),
                        station,
                        Words.side(clockwise),
                        clockwise ? "grow" : "fall")));
        boolean radialSaid = route.clearance()
                .first(Instruction.InterceptArc.class)
                .flatMap(Instruction.InterceptArc::until)
                .filter(Instruction.Until.AtRadial.class::isInstance)
                .isPresent();
        if (!radialSaid) {
            all.add(new Question(
                    "ARC_LEFT",
                    Skill.FIX,
                    "On which radial of " + station + " is the arc left, three figures?",
                    new Question.Answer.Direction(arc.toRadial().deg(), LEFT_DEG),
                    Words.say(
                            "where %s is %.0f NM from %s",
                            route.joinedAirway().orElse("the route"), arc.distanceNm(), station)));
        }
        turnOff(arc, route, all);
    }

    /** The turn off the arc, and its lead as an angle at the station. */
    private static void turnOff(Leg.DmeArc arc, AmendedRoute route, List<Question> all) {
        Measured.turnAtEnd(route).ifPresent(turn -> {
            all.add(new Question(
                    "ARC_TURN_OFF",
                    Skill.FIX,
                    "Turn off the arc: left or right?",
                    Question.Answer.Choice.side(turn > 0),
                    Words.say(
                            "the arc ends on %05.1f true: %s %s",
                            arc.path().finalCourse().deg(), Angles.degrees(Math.abs(turn)), Words.side(turn > 0))));
            TrueDirection track = arc.path().finalCourse();
            double groundKt = GroundVector.forCourse(
                            track,
                            route.situation().trueAirspeedKt(),
                            route.situation().wind())
                    .map(GroundVector.HeadingForCourse::groundSpeedKt)
                    .orElse(route.situation().trueAirspeedKt());
            double leadNm = Turn.leadNm(Turn.standardRadiusNm(groundKt), Math.min(Math.abs(turn), 150));
            double leadDeg = Math.toDegrees(leadNm / arc.distanceNm());
            Radial lead = new Radial(arc.toRadial().deg() + (arc.path().clockwise() ? -leadDeg : leadDeg));
            all.add(new Question(
                    "ARC_LEAD_RADIAL",
                    Skill.FIX,
                    "Lead radial: at which radial does the turn off the arc begin, three figures?",
                    new Question.Answer.Direction(lead.deg(), LEAD_DEG),
                    Words.say(
                            "a turn of %.0f degrees at %.0f kt over the ground takes a lead of %.1f NM; at %.0f NM a mile is"
                                    + " %.1f radials, so %.1f before the %s radial",
                            Math.abs(turn),
                            groundKt,
                            leadNm,
                            arc.distanceNm(),
                            60 / arc.distanceNm(),
                            leadDeg,
                            Angles.figures(arc.toRadial().deg()))));
        });
    }
}
