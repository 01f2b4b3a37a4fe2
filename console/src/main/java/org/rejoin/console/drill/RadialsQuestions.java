package org.rejoin.console.drill;

import java.util.List;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.Leg;
import org.rejoin.console.skill.Skill;
import org.rejoin.console.words.Words;

/** What is asked of a radial that is left at another: where, the turn there, and the second course to set. */
final class RadialsQuestions {

    private static final double DISTANCE_SHARE = 0.1;
    private static final double LEAST_NM = 2;
    private static final double COURSE_DEG = 1;
    private static final double TURN_DEG = 10;
    private static final double TWO_WAYS = 0.5;

    private RadialsQuestions() {}

    static void add(Course first, Leg.CourseToFix second, AmendedRoute route, List<Question> all) {
        double nm = first.station().position().distanceNm(second.path().start());
        String radial = Angles.figures(second.course().reciprocal().deg());
        all.add(new Question(
                "FIRST_LEFT_AT",
                Skill.FIX,
                "How far from " + first.station().ident() + " is the second radial met, NM?",
                new Question.Answer.Amount(nm, Math.max(LEAST_NM, DISTANCE_SHARE * nm), "NM"),
                0,
                "where the " + first.name() + " crosses the " + second.station().ident() + " " + radial + " radial"));
        all.add(new Question(
                "SECOND_COURSE",
                Skill.COURSE,
                "Then course to set, three figures?",
                new Question.Answer.Direction(second.course().deg(), COURSE_DEG),
                0,
                second.station().ident() + " is on the route, so its radial is flown TO it: " + radial + " + 180 = "
                        + Angles.figures(second.course().deg())));
        Measured.turnAtEnd(route).ifPresent(turn -> {
            String from = Words.say(
                    "from %05.1f to %05.1f true",
                    Angles.circle(second.path().initialCourse().deg() - turn),
                    second.path().initialCourse().deg());
            all.add(new Question(
                    "TURN_AT_FIX",
                    Skill.FIX,
                    "Turn from the first " + StationLines.word(first.station()) + " onto the second radial: left or"
                            + " right?",
                    Question.Answer.Choice.side(turn > 0),
                    TWO_WAYS,
                    from));
            all.add(new Question(
                    "TURN_AT_FIX_DEGREES",
                    Skill.FIX,
                    "By how many degrees?",
                    new Question.Answer.Amount(Math.abs(turn), TURN_DEG, "degrees"),
                    0,
                    from));
        });
    }
}
