package org.rejoin.console.drill;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;

import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Phraseology;
import org.rejoin.bridge.geo.Crossing;
import org.rejoin.bridge.geo.GeodesicArc;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Variation;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.skill.Shape;
import org.rejoin.console.words.Words;

/**
 * A drill that begins where the aircraft is, so that nothing has to be put back: or why not now. Pure: the same aircraft,
 * chart and request give the same answer.
 */
public final class DrillFromHere {

    /** Slower an aircraft is on the ground or about to be, knots; judgement. */
    private static final double FLYING_KT = 60;

    /** More is a turn, degrees of bank and degrees a second; judgement. */
    private static final double LEVEL_BANK_DEG = 5;

    private static final double STEADY_DEG_PER_S = 0.7;

    /** More is a climb or a descent, feet a minute; judgement. */
    private static final double LEVEL_FPM = 300;

    /** An airway farther away is not reached in a drill, nautical miles. */
    private static final double NEAR_NM = 60;

    private static final int TRIES = 300;
    private static final int FIVES = 72;

    /** A larger turn onto the heading is no drill of the moment, degrees; judgement. */
    private static final double MOST_FIRST_TURN_DEG = 120;

    private static final double LEAST_FIRST_TURN_DEG = 10;

    /** A vector off the airway, so that there is a line to meet again, degrees; judgement. */
    private static final double VECTOR_DEG = 50;

    /** From where the aircraft happens to be less fits than from where one is put: wider bands. */
    private static final Band ANGLE = new Band(25, 90);

    private static final Band MINUTES = new Band(1.5, 8);

    private DrillFromHere() {}

    /** The usual drill that begins where the aircraft is: with wider bands than one whose start is free. */
    public static DrillRequest usual(long seed) {
        return DrillRequest.usual(seed).withoutExtras().withBands(ANGLE, MINUTES);
    }

    /**
     * A heading in ATC's words away from where the aircraft is going, as for spacing: whoever flies along the airway
     * meets no line of it. An even seed turns it right.
     */
    public static String vector(Aircraft aircraft, long seed) {
        double off = Math.floorMod(seed, 2) == 0 ? VECTOR_DEG : -VECTOR_DEG;
        MagneticDirection heading =
                new MagneticDirection(Math.round((aircraft.heading().deg() + off) / 5) * 5.0);
        return Phraseology.say(new Clearance(
                "",
                Optional.empty(),
                List.of(new Instruction.FlyHeading(heading, Instruction.TurnDirection.SHORTEST))));
    }

    /**
     * The aircraft as it was received last.
     *
     * @param altitudeFt above mean sea level, feet
     * @param heading by the compass
     * @param trueAirspeedKt knots
     * @param bankDeg right positive; 0 where not known
     * @param turnDegPerS right positive
     * @param verticalSpeedFpm up positive
     */
    public record Aircraft(
            Position position,
            double altitudeFt,
            MagneticDirection heading,
            double trueAirspeedKt,
            double bankDeg,
            double turnDegPerS,
            double verticalSpeedFpm,
            Wind wind) {}

    /** A drill, or why not now. */
    public sealed interface Answer {
        /** A drill that is heard where the aircraft is: its clearance is to be spoken at once. */
        record Now(Drill drill) implements Answer {}

        /**
         * None at this moment.
         *
         * @param because one sentence
         * @param noLine whether the aircraft could, and no line lies right for it: a vector helps
         * @param mustWait whether the aircraft does not fly as it must for any drill: on the ground, in a turn, climbing
         */
        record NotNow(String because, boolean noLine, boolean mustWait) implements Answer {}
    }

    /**
     * Looks for a drill.
     *
     * @param filed route that the aircraft flies, so that the clearance amends it; empty for any airway near by
     * @param request shape, bands, seed and date; speed and wind are the aircraft's
     * @param last what ATC said last: the same words again are drawn only where nothing else is found
     */
    public static Answer of(
            Aircraft aircraft, DrillChart chart, Optional<FiledRoute> filed, DrillRequest request, String last) {
        Optional<String> otherDay = MagneticModel.notPublishedFor(request.date());
        if (otherDay.isPresent()) {
            return new Answer.NotNow("the lesson is of another day: " + otherDay.get(), false, false);
        }
        Optional<String> wait = wait(aircraft);
        if (wait.isPresent()) {
            return new Answer.NotNow(wait.get(), false, true);
        }
        DrillRequest here =
                request.flown(aircraft.trueAirspeedKt(), aircraft.wind()).withoutExtras();
        List<Shape> shapes = DrillMaker.shapes(request);
        DrillMaker maker = new DrillMaker(chart);
        Tally tally = new Tally();
        boolean near = false;
        Optional<Drill> again = Optional.empty();
        for (int i = 0; i < TRIES; i++) {
            Random random = DrawnConditions.tryOf(request.seed(), i);
            Optional<FiledAirway> way = filed.isPresent()
                    ? chart.drawFiled(filed.get(), random)
                    : chart.drawWayNear(aircraft.position(), NEAR_NM, random);
            near |= way.isPresent();
            if (way.isEmpty()) {
                continue;
            }
            Shape shape = shapes.get(random.nextInt(shapes.size()));
            LineDraw draw = new LineDraw(
                    chart, way.get(), here, aircraft.wind(), random.nextBoolean(), Optional.empty(), random, tally);
            Optional<Drill> drill = draw.line(shape)
                    .flatMap(line -> meeting(line, aircraft, draw)
                            .flatMap(placed -> maker.judged(line.at(aircraft.altitudeFt()), placed, draw)));
            if (drill.isPresent() && !drill.get().say().equals(last)) {
                return new Answer.Now(drill.get());
            }
            again = again.or(() -> drill);
        }
        if (again.isPresent()) {
            return new Answer.Now(again.get());
        }
        return new Answer.NotNow(
                near
                        ? "from here no line is met at " + here.angle() + " degrees in " + here.minutes()
                                + " minutes on a heading that makes sense: " + tally.words()
                        : filed.isPresent()
                                ? "the filed route goes along no airway, and every drill ends on one"
                                : Words.say(
                                        "no airway of chart %s lies within %.0f NM of the aircraft",
                                        chart.chart().name(), NEAR_NM),
                near,
                false);
    }

    private static Optional<String> wait(Aircraft aircraft) {
        if (aircraft.trueAirspeedKt() < FLYING_KT) {
            return Optional.of("the aircraft is on the ground or nearly: it flies "
                    + Math.round(aircraft.trueAirspeedKt()) + " kt, at least 60 are needed");
        }
        if (aircraft.trueAirspeedKt() > 300) {
            return Optional.of("the aircraft flies " + Math.round(aircraft.trueAirspeedKt())
                    + " kt; drills are drawn for at most 300");
        }
        if (Math.abs(aircraft.bankDeg()) > LEVEL_BANK_DEG || Math.abs(aircraft.turnDegPerS()) > STEADY_DEG_PER_S) {
            return Optional.of("the aircraft is in a turn: wait until it flies straight");
        }
        if (Math.abs(aircraft.verticalSpeedFpm()) > LEVEL_FPM) {
            return Optional.of("the aircraft is climbing or descending: wait until it is level");
        }
        return Optional.empty();
    }

    /** A heading in whole fives that meets the line as wanted; one of several by the draw. */
    private static Optional<Placement> meeting(LineToMeet line, Aircraft aircraft, LineDraw draw) {
        DrillRequest request = draw.request();
        Variation variation =
                MagneticModel.WMM2025.variation(aircraft.position(), aircraft.altitudeFt(), request.date());
        List<Placement> found = new ArrayList<>();
        for (int i = 0; i < FIVES; i++) {
            MagneticDirection heading = new MagneticDirection(5.0 * i);
            double first = Math.abs(aircraft.heading().turnTo(heading));
            if (first < LEAST_FIRST_TURN_DEG || first > MOST_FIRST_TURN_DEG) {
                continue;
            }
            GroundVector ground =
                    GroundVector.onHeading(heading.toTrue(variation), aircraft.trueAirspeedKt(), aircraft.wind());
            if (ground.groundSpeedKt() >= FLYING_KT && meets(line, aircraft, ground, first, request)) {
                found.add(new Placement(
                        heading,
                        new Lesson.Start(
                                aircraft.position(),
                                aircraft.altitudeFt(),
                                aircraft.heading(),
                                aircraft.trueAirspeedKt()),
                        aircraft.position(),
                        DrawnConditions.Extra.NONE));
            }
        }
        return found.isEmpty() ? draw.nothing(Tally.Why.OUT_OF_BAND) : Optional.of(draw.oneOf(found));
    }

    /** Where the track first meets the circle, if that is on the arc. */
    private static Optional<Crossing> crossing(GeodesicLine track, GeodesicArc arc) {
        return track.crossingsOfCircle(arc.centre(), arc.radiusNm()).stream()
                .filter(along -> along > 0)
                .findFirst()
                .map(along -> {
                    Position at = track.pointAt(along);
                    return new Crossing(
                            at, along, arc.offset(at).alongTrackNm(), track.courseAt(along), arc.courseAbeam(at));
                });
    }

    private static boolean meets(
            LineToMeet line, Aircraft aircraft, GroundVector ground, double firstTurnDeg, DrillRequest request) {
        GeodesicLine track = GeodesicLine.from(aircraft.position(), ground.track(), 100);
        Optional<Crossing> crossing = line.line().fold(track::crossing, arc -> crossing(track, arc));
        if (crossing.isEmpty() || crossing.get().alongFirstNm() <= 0) {
            return false;
        }
        Crossing met = crossing.get();
        double minutes = met.alongFirstNm() / ground.groundSpeedKt() * 60;
        double left = line.line().lengthNm() - met.alongSecondNm();
        double turn = Math.abs(met.turnDeg());
        return request.angle().holds(turn, 0)
                && request.minutes().holds(minutes, 0)
                && minutes * 60 >= Placement.neededS(firstTurnDeg, turn, ground.groundSpeedKt())
                && met.alongSecondNm() >= line.leastAlongNm()
                && line.left().holds(left, 0);
    }
}
