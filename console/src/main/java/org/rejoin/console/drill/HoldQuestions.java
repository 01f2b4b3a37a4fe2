package org.rejoin.console.drill;

import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Holding;
import org.rejoin.console.skill.Skill;
import org.rejoin.console.words.Words;

/** What is asked of a hold: inbound course, turns, entry, and the outbound heading with three times the drift correction. */
final class HoldQuestions {

    private static final double COURSE_DEG = 1;

    /** Drift is worked out in the head; judgement. */
    private static final double OUTBOUND_DEG = 6;

    private HoldQuestions() {}

    static void add(Holding holding, AmendedRoute route, List<Question> all) {
        String fix = holding.fix().ident();
        all.add(new Question(
                "HOLD_INBOUND",
                Skill.COURSE,
                "Inbound course of the hold at " + fix + ", three figures?",
                new Question.Answer.Direction(holding.inbound().deg(), COURSE_DEG),
                working(route, "inbound course of the hold")
                        .orElse("on " + holding.line() + ": "
                                + Angles.figures(holding.inbound().deg()))));
        boolean said = route.clearance()
                .first(Instruction.Hold.class)
                .filter(hold -> hold.turns() != Instruction.TurnDirection.SHORTEST)
                .isPresent();
        all.add(new Question(
                "HOLD_TURNS",
                Skill.FIX,
                "Turns in the hold: left or right?",
                Question.Answer.Choice.side(holding.right()),
                said ? "as said" : "nothing is said of it: right, as is standard (AIM 5-3-8)"));
        if (holding.orEntry().isEmpty()) {
            all.add(new Question(
                    "HOLD_ENTRY",
                    Skill.FIX,
                    "Entry: direct, teardrop or parallel?",
                    new Question.Answer.Choice(
                            holding.entry().name().toLowerCase(Locale.ROOT), List.of("direct", "teardrop", "parallel")),
                    entry(holding, route)));
        }
        all.add(new Question(
                "HOLD_OUTBOUND",
                Skill.FIX,
                "Outbound heading with three times the drift correction, three figures?",
                new Question.Answer.Direction(holding.outboundHeading().deg(), OUTBOUND_DEG),
                outbound(holding)));
    }

    /** By true directions: the figures of a compass and of a station do not differ by what the two directions do. */
    private static String entry(Holding holding, AmendedRoute route) {
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

    private static Optional<String> working(AmendedRoute route, String what) {
        return route.working().stream()
                .filter(step -> step.what().equals(what))
                .map(AmendedRoute.WorkingStep::values)
                .findFirst();
    }
}
