package org.rejoin.console.drill;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.ComputedFix;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.bridge.route.Leg;
import org.rejoin.bridge.route.Warning;
import org.rejoin.console.skill.Skill;
import org.rejoin.console.words.Words;

/** What is asked of a clearance on paper, with the answers that the program worked out and how near is near enough. */
final class PaperQuestions {

    /** A course is whole degrees; one to either side is a slip of the pencil. Judgement, as are all of these. */
    private static final double COURSE_DEG = 1;

    private static final double ANGLE_DEG = 10;
    private static final double MINUTES_SHARE = 0.25;
    private static final double DISTANCE_SHARE = 0.1;
    private static final double LEAST_NM = 2;
    private static final double RADIAL_DEG = 2;
    private static final double TURN_DEG = 10;

    private PaperQuestions() {}

    static List<Question> of(Drill drill, AmendedRoute route) {
        List<Question> all = new ArrayList<>();
        boolean flyable = route.warnings().isEmpty();
        route.assignedHeading().ifPresent(plan -> {
            double turn = drill.presentHeading().turnTo(plan.magnetic());
            all.add(new Question(
                    "TURN_TO_HEADING",
                    Skill.HEADING,
                    "Turn to the assigned heading: left or right?",
                    Question.Answer.Choice.side(turn > 0),
                    Words.say(
                            "from %s to %s the short way is %s %s",
                            Angles.figures(drill.presentHeading().deg()),
                            Angles.figures(plan.magnetic().deg()),
                            Angles.degrees(Math.abs(turn)),
                            Words.side(turn))));
        });
        route.course().ifPresent(course -> course(course, all));
        all.add(new Question(
                "FLYABLE",
                Skill.INTERCEPT,
                "Can it be flown as given: yes or no?",
                new Question.Answer.Choice(flyable ? "yes" : "no", List.of("yes", "no")),
                flyable
                        ? "the track on the heading meets the course at a fair angle, in range, with room to turn"
                        : route.warnings().stream().map(Warning::text).collect(Collectors.joining("; "))));
        route.intercept().ifPresent(met -> intercept(route, met, all));
        if (route.firstLine().orElse(null) instanceof Leg.DmeArc arc) {
            ArcQuestions.add(arc, route, all);
        } else {
            route.computedFix()
                    .ifPresent(fix -> fix(fix, route.turnAtComputedFix().isPresent(), all));
            Measured.secondCourse(route)
                    .ifPresent(second -> secondRadial(route.course().orElseThrow(), second, route, all));
        }
        route.holding().ifPresent(holding -> HoldQuestions.add(holding, route, all));
        if (flyable && route.holding().isEmpty()) {
            List<String> skipped = route.skipped().stream().map(Waypoint::ident).toList();
            all.add(new Question(
                    "SKIPPED",
                    Skill.FIX,
                    "Which points of the filed route are no longer flown: their idents, or none?",
                    new Question.Answer.Idents(skipped),
                    "every point of the filed route before the leg that is joined"));
        }
        return all;
    }

    private static void course(Course course, List<Question> all) {
        boolean to = course.direction() == Course.Direction.TO;
        String station = course.station().ident();
        String line = StationLines.word(course.station());
        all.add(new Question(
                "COURSE",
                Skill.COURSE,
                "Course to set, three figures?",
                new Question.Answer.Direction(course.courseToSet().deg(), COURSE_DEG),
                to
                        ? "inbound: " + line + " + 180 = "
                                + Angles.figures(course.courseToSet().deg())
                        : "outbound: the " + line + " itself, "
                                + Angles.figures(course.radial().deg())));
        all.add(new Question(
                "TO_FROM",
                Skill.COURSE,
                "TO or FROM?",
                new Question.Answer.Choice(to ? "to" : "from", List.of("to", "from")),
                to
                        ? station + " is on the route: the " + line + " is flown TO it"
                        : station + " is not where the line leads: the " + line + " is flown FROM it"));
    }

    private static void intercept(AmendedRoute route, Intercept met, List<Question> all) {
        all.add(new Question(
                "TURN_ONTO_COURSE",
                Skill.INTERCEPT,
                "Turn onto the " + Drawing.met(route) + ": left or right?",
                Question.Answer.Choice.side(met.turnsRight()),
                Words.say(
                        "track %05.1f, course %05.1f true: %s %s",
                        route.heading().orElseThrow().ground().track().deg(),
                        met.course().deg(),
                        Angles.degrees(met.angleDeg()),
                        Words.side(met.turnsRight()))));
        all.add(new Question(
                "ANGLE",
                Skill.INTERCEPT,
                "Intercept angle, degrees?",
                new Question.Answer.Amount(met.angleDeg(), ANGLE_DEG, "degrees"),
                "between the track (heading and drift) and the " + Drawing.met(route)));
        all.add(new Question(
                "MINUTES",
                Skill.INTERCEPT,
                "Minutes to the line?",
                new Question.Answer.Amount(met.minutes(), Math.max(0.5, MINUTES_SHARE * met.minutes()), "minutes"),
                Words.say(
                        "%.1f NM at %.0f kt over the ground",
                        met.distanceNm(), route.heading().orElseThrow().ground().groundSpeedKt())));
    }

    private static void fix(ComputedFix fix, boolean turns, List<Question> all) {
        ComputedFix.Definition own = fix.definitions().get(0);
        all.add(new Question(
                "FIX_DISTANCE",
                Skill.FIX,
                "Distance from " + own.station().ident() + " to the fix on the airway, NM?",
                distance(own.distanceNm()),
                "where the " + StationLines.word(own.station()) + " crosses "
                        + fix.segment().airway().orElse("the route") + " between "
                        + fix.segment().from().ident() + " and "
                        + fix.segment().to().ident()));
        fix.definitions().stream()
                .filter(each -> each.use() == ComputedFix.Use.CROSSING_RADIAL)
                .findFirst()
                .ifPresent(cross -> all.add(new Question(
                        "FIX_CROSS_RADIAL",
                        Skill.FIX,
                        "Radial of " + cross.station().ident() + " through the fix, three figures?",
                        new Question.Answer.Direction(cross.radial().deg(), RADIAL_DEG),
                        cross.reason())));
        if (turns) {
            turnAtFix(
                    "Turn at the fix: left or right?",
                    fix.turnDeg(),
                    Words.say(
                            "from %05.1f to %05.1f true",
                            fix.inboundCourse().deg(), fix.airwayCourse().deg()),
                    "the difference of the two courses",
                    all);
        }
    }

    private static void turnAtFix(String ask, double turnDeg, String side, String degrees, List<Question> all) {
        all.add(new Question("TURN_AT_FIX", Skill.FIX, ask, Question.Answer.Choice.side(turnDeg > 0), side));
        all.add(new Question(
                "TURN_AT_FIX_DEGREES",
                Skill.FIX,
                "By how many degrees?",
                new Question.Answer.Amount(Math.abs(turnDeg), TURN_DEG, "degrees"),
                degrees));
    }

    private static Question.Answer distance(double nm) {
        return new Question.Answer.Amount(nm, Math.max(LEAST_NM, DISTANCE_SHARE * nm), "NM");
    }

    /** Of a radial that is left at another: where, the second course to set, the turn there. */
    private static void secondRadial(Course first, Leg.CourseToFix second, AmendedRoute route, List<Question> all) {
        String radial = Angles.figures(second.course().reciprocal().deg());
        all.add(new Question(
                "FIRST_LEFT_AT",
                Skill.FIX,
                "How far from " + first.station().ident() + " is the second radial met, NM?",
                distance(first.station().position().distanceNm(second.path().start())),
                "where the " + first.name() + " crosses the " + second.station().ident() + " " + radial + " radial"));
        all.add(new Question(
                "SECOND_COURSE",
                Skill.COURSE,
                "Then course to set, three figures?",
                new Question.Answer.Direction(second.course().deg(), COURSE_DEG),
                second.station().ident() + " is on the route, so its radial is flown TO it: " + radial + " + 180 = "
                        + Angles.figures(second.course().deg())));
        Measured.turnAtEnd(route).ifPresent(turn -> {
            String from = Words.say(
                    "from %05.1f to %05.1f true",
                    Angles.circle(second.path().initialCourse().deg() - turn),
                    second.path().initialCourse().deg());
            turnAtFix(
                    "Turn from the first " + StationLines.word(first.station())
                            + " onto the second radial: left or right?",
                    turn,
                    from,
                    from,
                    all);
        });
    }
}
