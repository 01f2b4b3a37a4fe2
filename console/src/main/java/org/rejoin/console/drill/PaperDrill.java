package org.rejoin.console.drill;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Collectors;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Phraseology;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.ComputedFix;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.bridge.route.RouteAmender;
import org.rejoin.bridge.route.Situation;
import org.rejoin.bridge.route.Warning;
import org.rejoin.console.skill.Shape;
import org.rejoin.console.skill.Skill;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;

/**
 * A clearance to be worked out without a simulator: one in four cannot be flown as given, and the pilot has to say so.
 *
 * @param drill it is made of
 * @param say ATC's words; of a drill that cannot be flown not those of {@code drill}
 * @param route worked out from those words
 * @param questions in the order asked
 */
public record PaperDrill(Drill drill, String say, AmendedRoute route, List<Question> questions) {

    private static final int ONE_IN = 4;

    /** A draw of its own, that no try of the maker has. */
    private static final int FLAWS = -1;

    /** A course is whole degrees; one to either side is a slip of the pencil. Judgement, as are all of these. */
    private static final double COURSE_DEG = 1;

    private static final double ANGLE_DEG = 10;
    private static final double MINUTES_SHARE = 0.25;
    private static final double DISTANCE_SHARE = 0.1;
    private static final double RADIAL_DEG = 2;
    private static final double TURN_DEG = 10;
    private static final double TWO_WAYS = 0.5;

    /** Copies the list. */
    public PaperDrill {
        questions = List.copyOf(questions);
    }

    /**
     * Draws one.
     *
     * @param chart to draw on
     * @param request what it is to be like
     * @return the same for the same request and chart
     * @throws NoDrillException if the chart has none; one line
     */
    public static PaperDrill draw(DrillChart chart, DrillRequest request) throws NoDrillException {
        Random random = DrawnConditions.tryOf(request.seed(), FLAWS);
        boolean flawed = random.nextInt(ONE_IN) == 0;
        if (flawed) {
            List<Flaw> flaws = List.of(Flaw.values());
            Flaw flaw = flaws.get(random.nextInt(flaws.size()));
            Optional<Drill> drawn = flaw == Flaw.DOES_NOT_REACH ? Optional.empty() : flawed(chart, request, flaw);
            if (drawn.isPresent()) {
                Drill drill = drawn.get();
                return new PaperDrill(drill, drill.say(), drill.route(), questions(drill, drill.route()));
            }
        }
        Drill drill = new DrillMaker(chart).makeForPaper(request);
        if (flawed) {
            Optional<PaperDrill> away = turnedAway(drill, chart);
            if (away.isPresent()) {
                return away.get();
            }
        }
        return new PaperDrill(drill, drill.say(), drill.route(), questions(drill, drill.route()));
    }

    /** Only a radial that makes a fix can be out of range or cross too flat; a chart may have neither. */
    private static Optional<Drill> flawed(DrillChart chart, DrillRequest request, Flaw flaw) {
        if (request.shape().filter(shape -> shape != Shape.C).isPresent()) {
            return Optional.empty();
        }
        try {
            return Optional.of(new DrillMaker(chart).makeFlawed(request.withShape(Optional.of(Shape.C)), flaw));
        } catch (NoDrillException e) {
            return Optional.empty();
        }
    }

    /** The same clearance with a heading that leads away from the line. */
    private static Optional<PaperDrill> turnedAway(Drill drill, DrillChart chart) {
        List<Instruction> words = new ArrayList<>(drill.route().clearance().instructions());
        if (!(words.get(0) instanceof Instruction.FlyHeading fly)) {
            return Optional.empty();
        }
        MagneticDirection away = new MagneticDirection(fly.heading().deg() + 180);
        words.set(0, new Instruction.FlyHeading(away, fly.direction()));
        String say = Phraseology.say(new Clearance("", Optional.empty(), words));
        Situation situation = drill.route().situation();
        try {
            AmendedRoute route = RouteAmender.amend(
                    chart.chart(), drill.filed(), ClearanceReader.read(say, chart.chart(), drill.filed()), situation);
            boolean misses = route.warnings().stream()
                    .anyMatch(warning -> warning.code() == Warning.Code.HEADING_DOES_NOT_REACH_COURSE);
            return misses ? Optional.of(new PaperDrill(drill, say, route, questions(drill, route))) : Optional.empty();
        } catch (ClearanceException e) {
            return Optional.empty();
        }
    }

    private static List<Question> questions(Drill drill, AmendedRoute route) {
        List<Question> all = new ArrayList<>();
        boolean flyable = route.warnings().isEmpty();
        route.assignedHeading().ifPresent(plan -> {
            double turn = drill.presentHeading().turnTo(plan.magnetic());
            all.add(new Question(
                    "TURN_TO_HEADING",
                    Skill.HEADING,
                    "Turn to the assigned heading: left or right?",
                    new Question.Answer.Choice(turn < 0 ? "left" : "right"),
                    TWO_WAYS,
                    String.format(
                            Locale.ROOT,
                            "from %s to %s the short way is %.0f degrees %s",
                            Angles.figures(drill.presentHeading().deg()),
                            Angles.figures(plan.magnetic().deg()),
                            Math.abs(turn),
                            turn < 0 ? "left" : "right")));
        });
        route.course().ifPresent(course -> course(course, all));
        all.add(new Question(
                "FLYABLE",
                Skill.INTERCEPT,
                "Can it be flown as given: yes or no?",
                new Question.Answer.Choice(flyable ? "yes" : "no"),
                TWO_WAYS,
                flyable
                        ? "the track on the heading meets the course at a fair angle, in range, with room to turn"
                        : route.warnings().stream().map(Warning::text).collect(Collectors.joining("; "))));
        route.intercept().ifPresent(met -> intercept(route, met, all));
        route.computedFix().ifPresent(fix -> fix(fix, all));
        if (flyable) {
            List<String> skipped = route.skipped().stream().map(Waypoint::ident).toList();
            all.add(new Question(
                    "SKIPPED",
                    Skill.FIX,
                    "Which points of the filed route are no longer flown: their idents, or none?",
                    new Question.Answer.Idents(skipped),
                    0,
                    "every point of the filed route before the leg that is joined"));
        }
        return all;
    }

    private static void course(Course course, List<Question> all) {
        boolean to = course.direction() == Course.Direction.TO;
        String station = course.station().ident();
        all.add(new Question(
                "COURSE",
                Skill.COURSE,
                "Course to set, three figures?",
                new Question.Answer.Direction(course.courseToSet().deg(), COURSE_DEG),
                0,
                to
                        ? "inbound: radial + 180 = "
                                + Angles.figures(course.courseToSet().deg())
                        : "outbound: the radial itself, "
                                + Angles.figures(course.radial().deg())));
        all.add(new Question(
                "TO_FROM",
                Skill.COURSE,
                "TO or FROM?",
                new Question.Answer.Choice(to ? "to" : "from"),
                TWO_WAYS,
                to
                        ? station + " is on the route: the radial is flown TO it"
                        : station + " is not on the route: the radial leads FROM it to the airway"));
    }

    private static void intercept(AmendedRoute route, Intercept met, List<Question> all) {
        all.add(new Question(
                "TURN_ONTO_COURSE",
                Skill.INTERCEPT,
                "Turn onto the course: left or right?",
                new Question.Answer.Choice(met.turnsRight() ? "right" : "left"),
                TWO_WAYS,
                String.format(
                        Locale.ROOT,
                        "track %05.1f, course %05.1f true: %.0f degrees %s",
                        route.heading().orElseThrow().ground().track().deg(),
                        met.course().deg(),
                        met.angleDeg(),
                        met.turnsRight() ? "right" : "left")));
        all.add(new Question(
                "ANGLE",
                Skill.INTERCEPT,
                "Intercept angle, degrees?",
                new Question.Answer.Amount(met.angleDeg(), ANGLE_DEG, "degrees"),
                0,
                "between the track (heading and drift) and the course"));
        all.add(new Question(
                "MINUTES",
                Skill.INTERCEPT,
                "Minutes to the line?",
                new Question.Answer.Amount(met.minutes(), Math.max(0.5, MINUTES_SHARE * met.minutes()), "minutes"),
                0,
                String.format(
                        Locale.ROOT,
                        "%.1f NM at %.0f kt over the ground",
                        met.distanceNm(),
                        route.heading().orElseThrow().ground().groundSpeedKt())));
    }

    private static void fix(ComputedFix fix, List<Question> all) {
        ComputedFix.Definition own = fix.definitions().get(0);
        all.add(new Question(
                "FIX_DISTANCE",
                Skill.FIX,
                "Distance from " + own.station().ident() + " to the fix on the airway, NM?",
                new Question.Answer.Amount(own.distanceNm(), Math.max(2, DISTANCE_SHARE * own.distanceNm()), "NM"),
                0,
                "where the radial crosses " + fix.segment().airway().orElse("the route") + " between "
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
                        0,
                        cross.reason())));
        all.add(new Question(
                "TURN_AT_FIX",
                Skill.FIX,
                "Turn at the fix: left or right?",
                new Question.Answer.Choice(fix.turnDeg() > 0 ? "right" : "left"),
                TWO_WAYS,
                String.format(
                        Locale.ROOT,
                        "from %05.1f to %05.1f true",
                        fix.inboundCourse().deg(),
                        fix.airwayCourse().deg())));
        all.add(new Question(
                "TURN_AT_FIX_DEGREES",
                Skill.FIX,
                "By how many degrees?",
                new Question.Answer.Amount(Math.abs(fix.turnDeg()), TURN_DEG, "degrees"),
                0,
                "the difference of the two courses"));
    }

    /**
     * What can be asked to be drawn on the chart, beside the questions or instead of some.
     *
     * @return course, intercept, computed fix, as far as the clearance has them; answered by {@code LAT,LON} or
     *     {@code LAT,LON LAT,LON}, degrees
     */
    public List<Question> drawings() {
        return Drawing.questions(route);
    }

    /**
     * The questions without their answers.
     *
     * @return code, skill, kind, ask
     */
    public ArrayNode questionsJson() {
        return json(questions);
    }

    /**
     * What can be drawn, without the answers.
     *
     * @return code, skill, kind, ask
     */
    public ArrayNode drawingsJson() {
        return json(drawings());
    }

    private static ArrayNode json(List<Question> questions) {
        ArrayNode array = JsonNodeFactory.instance.arrayNode();
        questions.forEach(question -> array.addObject()
                .put("code", question.code())
                .put("skill", question.skill().name())
                .put("kind", question.kind())
                .put("ask", question.ask()));
        return array;
    }

    /**
     * What the pilot has before him.
     *
     * @return lines
     */
    public List<String> sheet() {
        Situation situation = route.situation();
        return List.of(
                "Filed: " + drill.filed().text(),
                String.format(
                        Locale.ROOT,
                        "At %.3f, %.3f, %.0f ft, heading %s, %.0f kt true, wind %s/%.0f",
                        situation.position().latitudeDeg(),
                        situation.position().longitudeDeg(),
                        situation.altitudeFt().orElse(0),
                        Angles.figures(drill.presentHeading().deg()),
                        situation.trueAirspeedKt(),
                        Angles.figures(situation.wind().from().deg()),
                        situation.wind().speedKt()),
                nearest(situation),
                "ATC: " + say);
    }

    /** Where the aircraft is by the stations, as the pilot would see it. */
    private String nearest(Situation situation) {
        return route.course()
                .map(Course::station)
                .map(station -> {
                    double nm = station.position().distanceNm(situation.position());
                    return String.format(
                            Locale.ROOT,
                            "That is %.1f NM from %s, on its %s radial",
                            nm,
                            station.ident(),
                            station.declination()
                                    .map(declination -> Angles.figures(station.position()
                                                    .to(situation.position())
                                                    .initial()
                                                    .deg()
                                            - declination.eastDeg()))
                                    .orElse("?"));
                })
                .orElse("The chart shows where that is");
    }
}
