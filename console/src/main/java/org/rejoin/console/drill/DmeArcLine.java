package org.rejoin.console.drill;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Declination;
import org.rejoin.bridge.geo.GeodesicArc;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.console.skill.Shape;
import org.rejoin.console.words.Words;

/**
 * A DME arc that leads to the airway, or to a radial that is flown TO the station and goes on along the airway. Which way
 * round is said as clockwise or counterclockwise, or by where it leads ("northwest bound"), and then it is for the pilot to
 * see which way that is.
 */
final class DmeArcLine {

    /** Whole miles; nearer the turn onto it is most of the arc, farther it is hardly bent. Judgement. */
    private static final Band RADIUS_NM = new Band(8, 20);

    private static final Band LEFT_NM = new Band(7.5, 18);

    /** An arc that goes round by more is no part of a rerouting, degrees; judgement. */
    private static final double MOST_SWEEP_DEG = 110;

    /** Flatter an arc does not cross an airway but touches it, degrees; judgement. */
    private static final double LEAST_CROSSING_DEG = 30;

    /** Published fixes and ends of legs are this far from where the arc is left, nautical miles; judgement. */
    private static final double CLEAR_NM = 3;

    /** So far out a radial is looked at. */
    private static final double REACH_NM = 60;

    /** Where an arc may be left: the place by its azimuth, and the course there in the direction flown on. */
    private record End(TrueDirection azimuth, TrueDirection onto, Optional<Radial> radial) {}

    private DmeArcLine() {}

    static Optional<LineToMeet> draw(LineDraw draw) {
        FiledRoute.Segment leg = draw.leg();
        GeodesicLine airway =
                GeodesicLine.between(leg.from().position(), leg.to().position());
        Position about = airway.pointAt(draw.random().nextDouble() * airway.lengthNm());
        List<Station> near = draw.chart().stationsWithin(about, RADIUS_NM.high()).stream()
                .filter(station -> station.kind().hasDistance())
                .toList();
        if (near.isEmpty()) {
            return draw.nothing(Tally.Why.NO_DME);
        }
        Station station = draw.oneOf(near);
        if (!draw.areClear(station)) {
            return draw.nothing(Tally.Why.TWO_NAMES);
        }
        double radius = Math.rint(RADIUS_NM.draw(draw.random()));
        boolean byRadial = draw.random().nextBoolean() && leg.from().equals(station);
        List<End> ends = byRadial ? radialInbound(draw, leg, station) : onAirway(draw.chart(), airway, station, radius);
        if (ends.isEmpty()) {
            return draw.nothing(byRadial ? Tally.Why.TURN : Tally.Why.NO_CROSSING_OF_ARC);
        }
        End end = draw.oneOf(ends);
        OptionalDouble altitude = draw.altitude(
                airway.initialCourse(), leg.from(), feet -> DrillChart.reaches(station, feet, radius + 1));
        if (altitude.isEmpty()) {
            return draw.nothing(Tally.Why.NO_ALTITUDE);
        }
        LineToMeet line = line(draw, station, radius, end, altitude.getAsDouble());
        return Math.abs(line.turnAtEndDeg().orElse(0)) >= LEAST_CROSSING_DEG
                ? Optional.of(line)
                : draw.nothing(Tally.Why.TURN);
    }

    /** Clockwise or not, so that the turn at its end is to the side wished for. */
    private static LineToMeet line(LineDraw draw, Station station, double radius, End end, double altitudeFt) {
        TrueDirection clockwise = new TrueDirection(end.azimuth().deg() + 90);
        boolean right = (clockwise.turnTo(end.onto()) > 0) == draw.turnsRight();
        double sweep = Math.min(MOST_SWEEP_DEG, Math.toDegrees((LEFT_NM.high() + 1) / radius)) * (right ? 1 : -1);
        GeodesicArc arc = new GeodesicArc(
                station.distancePosition(),
                radius,
                new TrueDirection(end.azimuth().deg() - sweep),
                sweep);
        Optional<String> bound = draw.random().nextBoolean() ? Optional.of(bound(arc, station)) : Optional.empty();
        Instruction intercept = new Instruction.InterceptArc(
                station,
                radius,
                bound.isPresent()
                        ? Instruction.ArcDirection.UNSAID
                        : right ? Instruction.ArcDirection.CLOCKWISE : Instruction.ArcDirection.COUNTERCLOCKWISE,
                bound,
                Optional.empty(),
                end.radial().map(radial -> new Instruction.Until.AtRadial(station, radial)));
        return new LineToMeet(
                Shape.ARC,
                draw.way(),
                draw.way().joinedBy(intercept),
                arc,
                0,
                LEFT_NM,
                OptionalDouble.of(arc.finalCourse().turnTo(end.onto())),
                altitudeFt);
    }

    /** Where it leads, by the compass: the course half way to its end. */
    private static String bound(GeodesicArc arc, Station station) {
        double declination = station.declination().map(Declination::eastDeg).orElse(0.0);
        double middle = Math.max(0, arc.lengthNm() - LEFT_NM.low());
        return Words.compass(Angles.circle(arc.courseAt(middle).deg() - declination))
                .replace("-", "")
                .toLowerCase(Locale.ROOT);
    }

    private static List<End> onAirway(DrillChart chart, GeodesicLine airway, Station station, double radius) {
        List<End> ends = new ArrayList<>();
        for (double along : airway.crossingsOfCircle(station.distancePosition(), radius)) {
            Position at = airway.pointAt(along);
            boolean clear =
                    along > CLEAR_NM && along < airway.lengthNm() - CLEAR_NM && !chart.hasPointWithin(CLEAR_NM, at);
            if (clear) {
                ends.add(
                        new End(station.distancePosition().to(at).initial(), airway.courseAt(along), Optional.empty()));
            }
        }
        return ends;
    }

    private static List<End> radialInbound(LineDraw draw, FiledRoute.Segment leg, Station station) {
        double turn = RadialLines.TURN_ONTO_AIRWAY_DEG.draw(draw.random())
                * (draw.random().nextBoolean() ? 1 : -1);
        RadialLines.Said said = RadialLines.before(leg, draw.lines(station).orElseThrow(), turn);
        Position at = station.position().destination(said.azimuth(), REACH_NM);
        return said.isAlongRoute(draw.way())
                ? List.of()
                : List.of(new End(said.azimuth(), at.to(station.position()).onward(), Optional.of(said.radial())));
    }
}
