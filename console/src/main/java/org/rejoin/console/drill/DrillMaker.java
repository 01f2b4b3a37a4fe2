package org.rejoin.console.drill;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;

import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Phraseology;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.RouteAmender;
import org.rejoin.bridge.route.Situation;
import org.rejoin.bridge.route.Warning;
import org.rejoin.console.skill.Features;
import org.rejoin.console.skill.Shape;
import org.rejoin.console.words.Words;

/**
 * Draws drills on a chart, backwards from the geometry: first the line, then where it is met and at what angle, then the
 * wind and the heading, then the aircraft. What is drawn is read, worked out and flown by the same code that later judges
 * the pilot; a drill that needs a warning, leaves a choice or cannot be flown well is thrown away.
 */
public final class DrillMaker {

    /** Draws before a wish is given up: the shape and sides of the seed, then any side, then any shape asked for. */
    private static final int STRICT_TRIES = 150;

    private static final int LOOSE_TRIES = 250;

    /** A band this narrow cannot be hit with headings in whole fives. */
    private static final double NARROW_DEG = 5;

    private static final double HALF_FIVE_DEG = 2.5;

    /** The limits of an intercept, degrees; the program warns outside. */
    private static final double LEAST_ANGLE_DEG = 20;

    private static final double MOST_ANGLE_DEG = 90;

    /** Ends of a line as near as this are one, nautical miles. */
    private static final double SAME_END_NM = 0.5;

    /** Of the minutes asked for, where the band is narrow. */
    private static final double MINUTES_SHARE = 0.05;

    /** What a drill is drawn for. */
    private enum Purpose {
        /** To be flown; flown before by the practice pilot. */
        FLOWN,
        /** To be flown; somebody else sees to that. */
        TO_BE_FLOWN,
        /** To be worked out, or read back. */
        PAPER
    }

    private final DrillChart chart;

    /** A maker of drills on this chart. */
    public DrillMaker(DrillChart chart) {
        this.chart = chart;
    }

    /**
     * Draws a drill, the same for the same request and chart.
     *
     * @throws NoDrillException if the chart has none of this kind, or the kind cannot be drawn; one line
     */
    public Drill make(DrillRequest request) throws NoDrillException {
        return make(request, Purpose.FLOWN, Optional.empty());
    }

    /**
     * Draws as {@link #make} does, for whoever works it out on paper only: nobody flies it before.
     *
     * @throws NoDrillException likewise
     */
    public Drill makeForPaper(DrillRequest request) throws NoDrillException {
        return make(request, Purpose.PAPER, Optional.empty());
    }

    /** Draws as {@link #make} does, for whoever lets it be flown himself before he gives it. */
    Drill makeToBeFlown(DrillRequest request) throws NoDrillException {
        return make(request, Purpose.TO_BE_FLOWN, Optional.empty());
    }

    /** Draws one that cannot be flown as given. */
    Drill makeFlawed(DrillRequest request, LineDraw.Flaw flaw) throws NoDrillException {
        return make(request, Purpose.PAPER, Optional.of(flaw));
    }

    /** So many draws of one shape; strict ones have the sides of the seed. */
    private record Round(Shape shape, boolean strict, int tries) {}

    /** All that a draw is for. */
    private record Wanted(
            DrillRequest request,
            DrawnConditions conditions,
            Purpose purpose,
            Optional<LineDraw.Flaw> flaw,
            Tally tally) {}

    private Drill make(DrillRequest request, Purpose purpose, Optional<LineDraw.Flaw> flaw) throws NoDrillException {
        Optional<String> otherDay = MagneticModel.notPublishedFor(request.date());
        if (otherDay.isPresent()) {
            throw new NoDrillException("no drill can be drawn for that day: " + otherDay.get());
        }
        if (!chart.hasAirways()) {
            throw new NoDrillException(
                    "chart " + chart.chart().name() + " gives no drill: it has no airway, and every drill ends on one");
        }
        List<Shape> shapes = shapes(request);
        DrawnConditions conditions = DrawnConditions.of(request.seed(), shapes);
        Wanted wanted = new Wanted(request, conditions, purpose, flaw, new Tally());
        List<Round> rounds = new ArrayList<>();
        rounds.add(new Round(conditions.shape(), true, STRICT_TRIES));
        rounds.add(new Round(conditions.shape(), false, LOOSE_TRIES));
        shapes.stream()
                .filter(shape -> shape != conditions.shape())
                .forEach(shape -> rounds.add(new Round(shape, false, LOOSE_TRIES)));
        int index = 0;
        for (Round round : rounds) {
            for (int end = index + round.tries(); index < end; index++) {
                Optional<Drill> drill = draw(wanted, round, index);
                if (drill.isPresent()) {
                    return drill.get();
                }
            }
        }
        String kind =
                request.shape().map(shape -> " of shape " + shape.option()).orElse("");
        throw new NoDrillException(Words.say(
                "chart %s gives no drill%s at %s degrees and %s minutes: %s",
                chart.chart().name(),
                kind,
                request.angle(),
                request.minutes(),
                wanted.tally().words()));
    }

    /** The shapes that a drill may have. */
    static List<Shape> shapes(DrillRequest request) {
        return request.shape().map(List::of).orElseGet(() -> List.of(Shape.values()));
    }

    /** A drill whose clearance is heard at once, where the aircraft is. */
    Optional<Drill> judged(LineToMeet line, Placement placed, LineDraw draw) {
        return workedOut(line, placed, 0, draw).filter(drill -> fliesWell(drill, draw.tally()));
    }

    private boolean fliesWell(Drill drill, Tally tally) {
        Optional<Tally.Why> wrong = FlownCheck.wrong(drill, chart.chart());
        wrong.ifPresent(tally::add);
        return wrong.isEmpty();
    }

    /** Draws, then reads, works out, measures and flies what was drawn. */
    private Optional<Drill> draw(Wanted wanted, Round round, int index) {
        DrillRequest request = wanted.request();
        DrawnConditions conditions = wanted.conditions();
        Tally tally = wanted.tally();
        Random random = DrawnConditions.tryOf(request.seed(), index);
        Optional<FiledAirway> way = chart.drawWay(random);
        if (way.isEmpty()) {
            return tally.nothing(Tally.Why.NO_AIRWAY);
        }
        boolean right = round.strict() ? conditions.turnsRight() : random.nextBoolean();
        boolean thenRight = round.strict() ? conditions.thenRight() : random.nextBoolean();
        Wind wind = request.wind().orElse(conditions.wind());
        LineDraw draw = new LineDraw(chart, way.get(), request, wind, thenRight, wanted.flaw(), random, tally);
        Optional<LineToMeet> line = draw.line(round.shape());
        if (line.isEmpty()) {
            return Optional.empty();
        }
        OptionalDouble turn = line.get().turnAtEndDeg();
        boolean otherSide = turn.isPresent() && turn.getAsDouble() > 0 != thenRight;
        if (round.strict()
                && round.shape() == Shape.C
                && otherSide
                && wanted.flaw().isEmpty()) {
            return tally.nothing(Tally.Why.TURN);
        }
        double first = request.minutes().high() < 1.5
                ? Math.copySign(Math.min(30, Math.abs(conditions.firstTurnDeg())), conditions.firstTurnDeg())
                : conditions.firstTurnDeg();
        return Placement.of(
                        line.get(), new Placement.Ask(right, first, extra(conditions, wanted.purpose(), request)), draw)
                .flatMap(placed -> workedOut(line.get(), placed, Placement.HEARD_S, draw))
                .filter(drill -> wanted.purpose() != Purpose.FLOWN || fliesWell(drill, tally));
    }

    private Optional<Drill> workedOut(LineToMeet line, Placement placed, double heardS, LineDraw draw) {
        DrillRequest request = draw.request();
        List<Instruction> words = new ArrayList<>();
        words.add(new Instruction.FlyHeading(placed.assigned(), Instruction.TurnDirection.SHORTEST));
        Situation situation = placed.start().at(placed.heard(), draw.wind(), request.date());
        extra(line, placed, situation).ifPresent(words::add);
        words.addAll(line.then());
        String say = Phraseology.say(new Clearance("", Optional.empty(), words));
        try {
            Clearance clearance =
                    ClearanceReader.read(say, chart.chart(), line.way().filed());
            if (!clearance.notes().isEmpty() || !clearance.instructions().equals(words)) {
                return draw.nothing(Tally.Why.TWO_NAMES);
            }
            AmendedRoute route = RouteAmender.amend(chart.chart(), line.way().filed(), clearance, situation);
            List<Warning.Code> said =
                    route.warnings().stream().map(Warning::code).toList();
            if (!LineDraw.Flaw.isAsWanted(draw.flaw(), said)) {
                return draw.nothing(Tally.Why.WARNED);
            }
            if (draw.flaw().isEmpty() && !leadsWhereMeant(route, line)) {
                return draw.nothing(Tally.Why.MEANS_ELSEWHERE);
            }
            return Measured.of(route, chart.chart(), Optional.of(placed.start().heading()))
                    .filter(features -> asAsked(features, line, draw))
                    .map(features -> new Drill(
                            request.seed(),
                            line.way().filed(),
                            say,
                            placed.start(),
                            heardS,
                            placed.heard(),
                            draw.wind(),
                            request.date(),
                            route,
                            features));
        } catch (ClearanceException e) {
            return draw.nothing(Tally.Why.NOT_WORKED_OUT);
        }
    }

    /** The line ends where it was drawn to end, and a hold has one entry that the book asks for. */
    private static boolean leadsWhereMeant(AmendedRoute route, LineToMeet line) {
        boolean there = route.courseLeg() >= 0
                && route.legs()
                        .get(route.courseLeg())
                        .groundPath()
                        .filter(path -> path.end().distanceNm(line.line().end()) < SAME_END_NM)
                        .isPresent();
        boolean oneEntry =
                route.holding().filter(hold -> hold.orEntry().isPresent()).isEmpty();
        return there && oneEntry;
    }

    /** A speed is not drawn to be flown: few feeds tell the indicated airspeed, and without it nothing of it is judged. */
    private static DrawnConditions.Extra extra(DrawnConditions conditions, Purpose purpose, DrillRequest request) {
        boolean unjudged = conditions.extra() == DrawnConditions.Extra.SPEED && purpose != Purpose.PAPER;
        return unjudged || !request.extras() ? DrawnConditions.Extra.NONE : conditions.extra();
    }

    private static Optional<Instruction> extra(LineToMeet line, Placement placed, Situation situation) {
        boolean climbs = line.altitudeFt() > placed.start().altitudeFt();
        return switch (placed.extra()) {
            case NONE -> Optional.empty();
            case CLIMB_1000, CLIMB_2000, DESCEND_1000, DESCEND_2000 ->
                Optional.of(new Instruction.Maintain(
                        line.altitudeFt(),
                        false,
                        climbs ? Instruction.Maintain.Vertical.CLIMB : Instruction.Maintain.Vertical.DESCEND,
                        Instruction.Maintain.Begin.NOW,
                        Optional.empty()));
            // What the aircraft flies already, so that any aircraft can: it is to be copied and held.
            case SPEED ->
                Optional.of(new Instruction.MaintainSpeed(
                        Math.round(situation.indicatedAirspeedKt() / 5) * 5.0,
                        Instruction.MaintainSpeed.Limit.EXACTLY));
        };
    }

    private static boolean asAsked(Features features, LineToMeet line, LineDraw draw) {
        Band angle = draw.request().angle();
        Band minutes = draw.request().minutes();
        double slackDeg = angle.high() - angle.low() < NARROW_DEG ? HALF_FIVE_DEG : 0;
        double slackMin = minutes.high() - minutes.low() < 0.2 ? MINUTES_SHARE * minutes.high() : 0;
        boolean sound = features.shape() == line.shape()
                && features.angleDeg() > LEAST_ANGLE_DEG
                && features.angleDeg() <= MOST_ANGLE_DEG
                && angle.holds(features.angleDeg(), slackDeg)
                && minutes.holds(features.minutes(), slackMin);
        if (!sound) {
            draw.tally().add(Tally.Why.OUT_OF_BAND);
        }
        return sound;
    }
}
