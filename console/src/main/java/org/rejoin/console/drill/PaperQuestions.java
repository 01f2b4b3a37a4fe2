package org.rejoin.console.drill;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.ComputedFix;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.Holding;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.bridge.route.Leg;
import org.rejoin.bridge.route.RadialDistance;
import org.rejoin.bridge.route.Situation;
import org.rejoin.bridge.route.Warning;
import org.rejoin.console.drill.Question.Answer;
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

    /** A point of an arc is read off the chart to this, degrees at the station. */
    private static final double ARC_MET_DEG = 4;

    private static final double ARC_LEFT_DEG = 3;

    /** Drift is worked out in the head. */
    private static final double OUTBOUND_DEG = 6;

    /** A line drawn by hand on a chart. */
    private static final double LINE_DEG = 5;

    private static final double LINE_NM = 2;
    private static final double POINT_NM = 2;
    private static final double POINT_SHARE = 0.1;

    private final AmendedRoute route;
    private final List<Question> all = new ArrayList<>();

    private PaperQuestions(AmendedRoute route) {
        this.route = route;
    }

    static List<Question> of(Drill drill, AmendedRoute route) {
        PaperQuestions questions = new PaperQuestions(route);
        questions.askAll(drill);
        return questions.all;
    }

    /** What can be drawn of a clearance: its course, where it is met, where what comes next begins. */
    static List<Question> drawings(AmendedRoute route) {
        PaperQuestions questions = new PaperQuestions(route);
        questions.askToDraw();
        return questions.all;
    }

    private void ask(String code, Skill skill, String ask, Answer answer, String working) {
        all.add(new Question(code, skill, ask, answer, working));
    }

    private void askAll(Drill drill) {
        boolean flyable = route.warnings().isEmpty();
        route.assignedHeading().ifPresent(plan -> {
            double turn = drill.presentHeading().turnTo(plan.magnetic());
            ask(
                    "TURN_TO_HEADING",
                    Skill.HEADING,
                    "Turn to the assigned heading: left or right?",
                    Answer.Choice.side(turn > 0),
                    Words.say(
                            "from %s to %s the short way is %s %s",
                            Angles.figures(drill.presentHeading().deg()),
                            Angles.figures(plan.magnetic().deg()),
                            Angles.degrees(Math.abs(turn)),
                            Words.side(turn)));
        });
        route.course().ifPresent(this::course);
        ask(
                "FLYABLE",
                Skill.INTERCEPT,
                "Can it be flown as given: yes or no?",
                Answer.Choice.of(flyable, "yes", "no"),
                flyable
                        ? "the track on the heading meets the course at a fair angle, in range, with room to turn"
                        : route.warnings().stream().map(Warning::text).collect(Collectors.joining("; ")));
        route.intercept().ifPresent(this::intercept);
        if (route.firstLine().orElse(null) instanceof Leg.DmeArc arc) {
            arc(arc);
        } else {
            route.computedFix().ifPresent(this::fix);
            Measured.secondCourse(route)
                    .ifPresent(second -> secondRadial(route.course().orElseThrow(), second));
        }
        route.holding().ifPresent(this::hold);
        if (flyable && route.holding().isEmpty()) {
            List<String> skipped = route.skipped().stream().map(Waypoint::ident).toList();
            ask(
                    "SKIPPED",
                    Skill.FIX,
                    "Which points of the filed route are no longer flown: their idents, or none?",
                    new Answer.Idents(skipped),
                    "every point of the filed route before the leg that is joined");
        }
    }

    private void course(Course course) {
        boolean to = course.direction() == Course.Direction.TO;
        String station = course.station().ident();
        String line = RadialDistance.word(course.station());
        ask(
                "COURSE",
                Skill.COURSE,
                "Course to set, three figures?",
                new Answer.Direction(course.courseToSet().deg(), COURSE_DEG),
                to
                        ? "inbound: " + line + " + 180 = "
                                + Angles.figures(course.courseToSet().deg())
                        : "outbound: the " + line + " itself, "
                                + Angles.figures(course.radial().deg()));
        ask(
                "TO_FROM",
                Skill.COURSE,
                "TO or FROM?",
                Answer.Choice.of(to, "to", "from"),
                to
                        ? station + " is on the route: the " + line + " is flown TO it"
                        : station + " is not where the line leads: the " + line + " is flown FROM it");
    }

    private void intercept(Intercept met) {
        ask(
                "TURN_ONTO_COURSE",
                Skill.INTERCEPT,
                "Turn onto the " + met() + ": left or right?",
                Answer.Choice.side(met.turnsRight()),
                Words.say(
                        "track %05.1f, course %05.1f true: %s %s",
                        route.heading().orElseThrow().ground().track().deg(),
                        met.course().deg(),
                        Angles.degrees(met.angleDeg()),
                        Words.side(met.turnsRight())));
        ask(
                "ANGLE",
                Skill.INTERCEPT,
                "Intercept angle, degrees?",
                new Answer.Amount(met.angleDeg(), ANGLE_DEG, "degrees"),
                "between the track (heading and drift) and the " + met());
        ask(
                "MINUTES",
                Skill.INTERCEPT,
                "Minutes to the line?",
                new Answer.Amount(met.minutes(), Math.max(0.5, MINUTES_SHARE * met.minutes()), "minutes"),
                Words.say(
                        "%.1f NM at %.0f kt over the ground",
                        met.distanceNm(), route.heading().orElseThrow().ground().groundSpeedKt()));
    }

    private void fix(ComputedFix fix) {
        ComputedFix.Definition own = fix.definitions().get(0);
        ask(
                "FIX_DISTANCE",
                Skill.FIX,
                "Distance from " + own.station().ident() + " to the fix on the airway, NM?",
                distance(own.distanceNm()),
                "where the " + RadialDistance.word(own.station()) + " crosses "
                        + fix.segment().airway().orElse("the route") + " between "
                        + fix.segment().from().ident() + " and "
                        + fix.segment().to().ident());
        fix.definitions().stream()
                .filter(each -> each.use() == ComputedFix.Use.CROSSING_RADIAL)
                .findFirst()
                .ifPresent(cross -> ask(
                        "FIX_CROSS_RADIAL",
                        Skill.FIX,
                        "Radial of " + cross.station().ident() + " through the fix, three figures?",
                        new Answer.Direction(cross.radial().deg(), RADIAL_DEG),
                        cross.reason()));
        if (route.turnAtComputedFix().isPresent()) {
            turnAtFix(
                    "Turn at the fix: left or right?",
                    fix.turnDeg(),
                    Words.say(
                            "from %05.1f to %05.1f true",
                            fix.inboundCourse().deg(), fix.airwayCourse().deg()),
                    "the difference of the two courses");
        }
    }

    private void turnAtFix(String ask, double turnDeg, String side, String degrees) {
        ask("TURN_AT_FIX", Skill.FIX, ask, Answer.Choice.side(turnDeg > 0), side);
        ask(
                "TURN_AT_FIX_DEGREES",
                Skill.FIX,
                "By how many degrees?",
                new Answer.Amount(Math.abs(turnDeg), TURN_DEG, "degrees"),
                degrees);
    }

    private static Answer distance(double nm) {
        return new Answer.Amount(nm, Math.max(LEAST_NM, DISTANCE_SHARE * nm), "NM");
    }

    /** Of a radial that is left at another: where, the second course to set, the turn there. */
    private void secondRadial(Course first, Leg.CourseToFix second) {
        String radial = Angles.figures(second.course().reciprocal().deg());
        ask(
                "FIRST_LEFT_AT",
                Skill.FIX,
                "How far from " + first.station().ident() + " is the second radial met, NM?",
                distance(first.station().position().distanceNm(second.path().start())),
                "where the " + first.name() + " crosses the " + second.station().ident() + " " + radial + " radial");
        ask(
                "SECOND_COURSE",
                Skill.COURSE,
                "Then course to set, three figures?",
                new Answer.Direction(second.course().deg(), COURSE_DEG),
                second.station().ident() + " is on the route, so its radial is flown TO it: " + radial + " + 180 = "
                        + Angles.figures(second.course().deg()));
        Measured.turnAtEnd(route).ifPresent(turn -> {
            String from = Words.say(
                    "from %05.1f to %05.1f true",
                    Angles.circle(second.path().initialCourse().deg() - turn),
                    second.path().initialCourse().deg());
            turnAtFix(
                    "Turn from the first " + RadialDistance.word(first.station())
                            + " onto the second radial: left or right?",
                    turn,
                    from,
                    from);
        });
    }

    /** Where an arc is met, which way round, where it is left, and at which radial the turn off it begins. */
    private void arc(Leg.DmeArc arc) {
        String station = arc.station().ident();
        boolean clockwise = arc.path().clockwise();
        ask(
                "ARC_MET",
                Skill.INTERCEPT,
                "On which radial of " + station + " is the arc met, three figures?",
                new Answer.Direction(arc.fromRadial().deg(), ARC_MET_DEG),
                Words.say("where the track, heading and drift, comes to %.0f NM from %s", arc.distanceNm(), station));
        ask(
                "ARC_WAY",
                Skill.COURSE,
                "Which way round: clockwise or counterclockwise?",
                Answer.Choice.of(clockwise, "clockwise", "counterclockwise"),
                Words.say(
                        "from the %s to the %s radial with %s on the %s: the radials %s",
                        Angles.figures(arc.fromRadial().deg()),
                        Angles.figures(arc.toRadial().deg()),
                        station,
                        Words.side(clockwise),
                        clockwise ? "grow" : "fall"));
        boolean radialSaid = route.clearance()
                .first(Instruction.InterceptArc.class)
                .flatMap(Instruction.InterceptArc::until)
                .filter(Instruction.Until.AtRadial.class::isInstance)
                .isPresent();
        if (!radialSaid) {
            ask(
                    "ARC_LEFT",
                    Skill.FIX,
                    "On which radial of " + station + " is the arc left, three figures?",
                    new Answer.Direction(arc.toRadial().deg(), ARC_LEFT_DEG),
                    Words.say(
                            "where %s is %.0f NM from %s",
                            route.joinedAirway().orElse("the route"), arc.distanceNm(), station));
        }
        Measured.turnAtEnd(route).ifPresent(turn -> {
            ask(
                    "ARC_TURN_OFF",
                    Skill.FIX,
                    "Turn off the arc: left or right?",
                    Answer.Choice.side(turn > 0),
                    Words.say(
                            "the arc ends on %05.1f true: %s %s",
                            arc.path().finalCourse().deg(), Angles.degrees(Math.abs(turn)), Words.side(turn > 0)));
            Situation now = route.situation();
            double groundKt = GroundVector.forCourse(arc.path().finalCourse(), now.trueAirspeedKt(), now.wind())
                    .map(GroundVector.HeadingForCourse::groundSpeedKt)
                    .orElse(now.trueAirspeedKt());
            double leadNm = Turn.leadNm(Turn.standardRadiusNm(groundKt), Math.min(Math.abs(turn), 150));
            double leadDeg = Math.toDegrees(leadNm / arc.distanceNm());
            Radial lead = new Radial(arc.toRadial().deg() + (clockwise ? -leadDeg : leadDeg));
            ask(
                    "ARC_LEAD_RADIAL",
                    Skill.FIX,
                    "Lead radial: at which radial does the turn off the arc begin, three figures?",
                    new Answer.Direction(lead.deg(), ARC_LEFT_DEG),
                    Words.say(
                            "a turn of %.0f degrees at %.0f kt over the ground takes a lead of %.1f NM; at %.0f NM a mile is"
                                    + " %.1f radials, so %.1f before the %s radial",
                            Math.abs(turn),
                            groundKt,
                            leadNm,
                            arc.distanceNm(),
                            60 / arc.distanceNm(),
                            leadDeg,
                            Angles.figures(arc.toRadial().deg())));
        });
    }

    /** Inbound course, turns, entry, and the outbound heading with three times the drift correction. */
    private void hold(Holding holding) {
        ask(
                "HOLD_INBOUND",
                Skill.COURSE,
                "Inbound course of the hold at " + holding.fix().ident() + ", three figures?",
                new Answer.Direction(holding.inbound().deg(), COURSE_DEG),
                route.working().stream()
                        .filter(step -> step.what().equals("inbound course of the hold"))
                        .map(AmendedRoute.WorkingStep::values)
                        .findFirst()
                        .orElse("on " + holding.line() + ": "
                                + Angles.figures(holding.inbound().deg())));
        boolean said = route.clearance()
                .first(Instruction.Hold.class)
                .filter(hold -> hold.turns() != Instruction.TurnDirection.SHORTEST)
                .isPresent();
        ask(
                "HOLD_TURNS",
                Skill.FIX,
                "Turns in the hold: left or right?",
                Answer.Choice.side(holding.right()),
                said ? "as said" : "nothing is said of it: right, as is standard (AIM 5-3-8)");
        if (holding.orEntry().isEmpty()) {
            ask(
                    "HOLD_ENTRY",
                    Skill.FIX,
                    "Entry: direct, teardrop or parallel?",
                    new Answer.Choice(
                            holding.entry().name().toLowerCase(Locale.ROOT), List.of("direct", "teardrop", "parallel")),
                    entry(holding));
        }
        ask(
                "HOLD_OUTBOUND",
                Skill.FIX,
                "Outbound heading with three times the drift correction, three figures?",
                new Answer.Direction(holding.outboundHeading().deg(), OUTBOUND_DEG),
                outbound(holding));
    }

    /** By true directions: the figures of a compass and of a station do not differ by what the two directions do. */
    private String entry(Holding holding) {
        TrueDirection arriving = holding.arrivalHeading()
                .toTrue(route.situation().variationAt(holding.fix().position()));
        double off = holding.inboundTrue().turnTo(arriving);
        return Words.say(
                "arriving on heading %s (%s true), inbound course %s (%s true): %s %s of it, %s turns: %s"
                        + " (sectors of ICAO Doc 8168)",
                Angles.figures(holding.arrivalHeading().deg()),
                Words.tenths(arriving.deg()),
                Angles.figures(holding.inbound().deg()),
                Words.tenths(holding.inboundTrue().deg()),
                Angles.degrees(Math.abs(off)),
                Words.side(off),
                Words.side(holding.right()),
                holding.entry().name().toLowerCase(Locale.ROOT));
    }

    /** By true directions: the course is named by its station, the heading read from the compass, and the two differ. */
    private static String outbound(Holding holding) {
        double reciprocal = holding.inboundTrue().reciprocal().deg();
        TrueDirection heading = new TrueDirection(reciprocal - 3 * holding.correctionDeg());
        return Words.say(
                "inbound %.1f true, outbound %.1f; inbound the correction is %.1f degrees %s, outbound three times that the other way:"
                        + " %.1f true %s by the compass here = %s",
                holding.inboundTrue().deg(),
                reciprocal,
                Math.abs(holding.correctionDeg()),
                Words.side(holding.correctionDeg() > 0),
                heading.deg(),
                Angles.signed(Angles.turn(holding.outboundHeading().deg() - heading.deg()), 1),
                Angles.figures(holding.outboundHeading().deg()));
    }

    private void askToDraw() {
        if (route.courseLeg() >= 0) {
            route.legs()
                    .get(route.courseLeg())
                    .line()
                    .ifPresent(line -> ask(
                            "DRAW_COURSE",
                            Skill.COURSE,
                            "Draw the course to fly, the way it is flown.",
                            new Answer.Line(line, LINE_DEG, LINE_NM),
                            "the line of the clearance, toward where the route goes on"));
        }
        route.intercept()
                .ifPresent(met -> ask(
                        "DRAW_INTERCEPT",
                        Skill.INTERCEPT,
                        "Mark where the heading meets the " + met() + ".",
                        point(met.position(), met.distanceNm()),
                        Words.say("%.1f NM ahead along the track, heading and drift", met.distanceNm())));
        if (route.firstLine().orElse(null) instanceof Leg.DmeArc arc) {
            ask(
                    "DRAW_ARC_END",
                    Skill.FIX,
                    "Mark where the arc is left.",
                    point(arc.path().end(), arc.distanceNm()),
                    out(arc.toRadial().deg(), arc.station(), arc.distanceNm()));
            return;
        }
        Measured.secondCourse(route)
                .ifPresent(second -> ask(
                        "DRAW_CORNER",
                        Skill.FIX,
                        "Mark where the first "
                                + route.course()
                                        .map(course -> RadialDistance.word(course.station()))
                                        .orElse("line") + " is left.",
                        new Answer.Point(second.path().start(), POINT_NM),
                        out(
                                second.course().reciprocal().deg(),
                                second.station(),
                                second.path().lengthNm())));
        route.computedFix().ifPresent(fix -> {
            ComputedFix.Definition own = fix.definitions().get(0);
            ask(
                    "DRAW_FIX",
                    Skill.FIX,
                    "Mark where the airway is joined.",
                    point(fix.fix().position(), own.distanceNm()),
                    Words.say(
                            "where the %s crosses the airway, %.0f NM from %s",
                            RadialDistance.word(own.station()),
                            own.distanceNm(),
                            own.station().ident()));
        });
    }

    private static Answer point(Position at, double distanceNm) {
        return new Answer.Point(at, Math.max(POINT_NM, POINT_SHARE * distanceNm));
    }

    private static String out(double radialDeg, Station station, double nm) {
        return Words.say("on the %s radial of %s, %.0f NM out", Angles.figures(radialDeg), station.ident(), nm);
    }

    /** What the heading meets. */
    private String met() {
        return route.firstLine().orElse(null) instanceof Leg.DmeArc ? "arc" : "course";
    }
}
