package org.rejoin.console.drill;

import java.util.Optional;
import java.util.Random;

import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.geo.Variation;
import org.rejoin.console.lesson.Lesson;

/**
 * Places the aircraft so that a line is met as wanted: from where it is met, on a heading of whole fives, backwards to
 * where the clearance is heard and where the flight begins.
 */
record Placement(MagneticDirection assigned, Lesson.Start start, Position heard, DrawnConditions.Extra extra) {

    /** The flight is this old when the clearance is spoken, seconds. */
    static final double HEARD_S = 30;

    /** To read back and begin the turn, and once more before the line, seconds; judgement. */
    private static final double SET_UP_S = 10;

    /** The wind correction of a light aircraft in a strong wind, degrees; judgement. */
    private static final double MOST_CORRECTION_DEG = 20;

    private static final double LOWEST_FT = 2000;
    private static final double MOST_WIND_SHARE = 0.35;
    private static final double LEAST_GROUND_SPEED_KT = 60;

    /** Being established takes a while, and the next turn its room, nautical miles; judgement. */
    private static final double SPARE_NM = 3;

    /** How the aircraft is to come: the way it turns onto the course, and what else is assigned. */
    record Ask(boolean turnsRight, double firstTurnDeg, DrawnConditions.Extra extra) {}

    static Optional<Placement> of(LineToMeet line, Ask ask, LineDraw draw) {
        DrillRequest request = draw.request();
        Random random = draw.random();
        double angle = request.angle().draw(random);
        double minutes = request.minutes().draw(random);
        double least = line.left().low();
        double most = Math.min(line.left().high(), line.line().lengthNm() - line.leastAlongNm());
        if (most < least) {
            return draw.nothing(Tally.Why.TOO_SHORT);
        }
        double left = new Band(least, most).draw(random);
        double along = line.line().lengthNm() - left;
        Position met = line.line().pointAt(along);
        TrueDirection course = line.line().courseAt(along);
        TrueDirection track = new TrueDirection(course.deg() + (ask.turnsRight() ? -angle : angle));
        Optional<GroundVector.HeadingForCourse> heading = GroundVector.forCourse(track, request.speedKt(), draw.wind());
        if (heading.isEmpty()
                || draw.wind().speedKt() > MOST_WIND_SHARE * request.speedKt()
                || Math.abs(heading.get().correctionDeg()) > MOST_CORRECTION_DEG
                || heading.get().groundSpeedKt() < LEAST_GROUND_SPEED_KT) {
            return draw.nothing(Tally.Why.WIND);
        }
        double room = Turn.leadNm(
                        Turn.standardRadiusNm(request.speedKt() + draw.wind().speedKt()),
                        line.turnAtEndDeg().orElse(0))
                + heading.get().groundSpeedKt() / 30
                + SPARE_NM;
        if (left < room) {
            return draw.nothing(Tally.Why.TOO_SHORT);
        }
        Variation variation = MagneticModel.WMM2025.variation(met, line.altitudeFt(), request.date());
        double wanted = heading.get().heading().toMagnetic(variation).deg();
        MagneticDirection assigned = new MagneticDirection(Math.round(wanted / 5) * 5.0);
        return placed(line, met, assigned, minutes, ask, draw);
    }

    /** The assigned heading is a whole five: where it is flown from follows from the track that it gives. */
    private static Optional<Placement> placed(
            LineToMeet line, Position met, MagneticDirection assigned, double minutes, Ask ask, LineDraw draw) {
        Position heard = met;
        for (int round = 0; round < 3; round++) {
            GroundVector ground = onHeading(assigned, heard, line, draw);
            double distance = ground.groundSpeedKt() * minutes / 60;
            // A geodesic's direction changes on the way: turn the arrival until it leaves on the track.
            TrueDirection arriving = ground.track();
            for (int i = 0; i < 2; i++) {
                heard = met.destination(arriving.reciprocal(), distance);
                arriving = new TrueDirection(
                        arriving.deg() + heard.to(met).initial().turnTo(ground.track()));
            }
            heard = met.destination(arriving.reciprocal(), distance);
        }
        MagneticDirection present = new MagneticDirection(Math.rint(assigned.deg() - ask.firstTurnDeg()));
        GroundVector before = onHeading(present, heard, line, draw);
        Position from =
                rounded(heard.destination(before.track().reciprocal(), before.groundSpeedKt() * HEARD_S / 3600));
        Position there =
                from.destination(onHeading(present, from, line, draw).track(), before.groundSpeedKt() * HEARD_S / 3600);
        GroundVector ground = onHeading(assigned, there, line, draw);
        double angle = Math.abs(ground.track().turnTo(line.line().offset(met).course()));
        if (minutes * 60 < neededS(ask.firstTurnDeg(), angle, ground.groundSpeedKt())) {
            return draw.nothing(Tally.Why.NO_TIME);
        }
        return Optional.of(new Placement(
                assigned,
                new Lesson.Start(
                        from,
                        presentFt(line, ask.extra()),
                        present,
                        draw.request().speedKt()),
                there,
                ask.extra()));
    }

    /** To read back, turn to the heading, set up, and lead the turn onto a line that closes at an angle, seconds. */
    static double neededS(double firstTurnDeg, double angleDeg, double groundSpeedKt) {
        return 2 * SET_UP_S
                + Math.abs(firstTurnDeg) / Turn.STANDARD_RATE_DEG_PER_S
                + Turn.leadNm(Turn.standardRadiusNm(groundSpeedKt), Math.min(angleDeg, 170)) / groundSpeedKt * 3600;
    }

    /** From below only where the airway's minimum is kept; else from above. */
    private static double presentFt(LineToMeet line, DrawnConditions.Extra extra) {
        double below = line.altitudeFt() - extra.climbFt;
        double lowest = Math.max(line.way().minimumFt(), LOWEST_FT);
        return below >= lowest ? below : line.altitudeFt() + Math.abs(extra.climbFt);
    }

    private static GroundVector onHeading(MagneticDirection heading, Position at, LineToMeet line, LineDraw draw) {
        DrillRequest request = draw.request();
        Variation variation = MagneticModel.WMM2025.variation(at, line.altitudeFt(), request.date());
        return GroundVector.onHeading(heading.toTrue(variation), request.speedKt(), draw.wind());
    }

    /** As it is written in a lesson: about a metre. */
    static Position rounded(Position position) {
        return new Position(
                Math.round(position.latitudeDeg() * 1e5) / 1e5, Math.round(position.longitudeDeg() * 1e5) / 1e5);
    }
}
