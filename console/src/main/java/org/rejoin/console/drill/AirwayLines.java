package org.rejoin.console.drill;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.route.Holding;
import org.rejoin.console.skill.Shape;
import org.rejoin.console.words.Words;

/**
 * Legs of the filed airway, met on a heading: shape A, after which the route goes on; or with a hold at the end, at a station
 * on one of its radials, drawn so that each of the three entries comes as often as the others, or at a fix on the airway or on
 * the radial or bearing of a station that passes it.
 */
final class AirwayLines {

    private static final Band LEFT_NM = new Band(9, 22);
    private static final Band LEFT_TO_HOLD_NM = new Band(8, 14);

    /** Entries are not drawn near the boundaries of their sectors, where either will do (ICAO Doc 8168), degrees. */
    private static final Band DIRECT_DEG = new Band(-58, 98);

    private static final Band TEARDROP_DEG = new Band(122, 168);
    private static final Band PARALLEL_DEG = new Band(-168, -82);

    /** A station farther away gives no line to hold on, nautical miles; judgement. */
    private static final double STATION_NM = 40;

    /** A radial in whole degrees passes the fix by no more, degrees; twice that is none of the fix. */
    private static final double ROUNDED_DEG = 0.5;

    /** Legs of a distance now and then. */
    private static final int MILES_ONE_IN = 5;

    private AirwayLines() {}

    /** Shape A. */
    static Optional<LineToMeet> leg(LineDraw draw) {
        FiledRoute.Segment leg = draw.leg();
        GeodesicLine line = line(leg);
        OptionalDouble turn = turnAfter(draw.way().filed(), leg, line);
        Instruction onward = new Instruction.Onward(Instruction.Onward.How.RESUME_OWN_NAVIGATION);
        OptionalDouble altitude = altitude(draw, leg, line);
        return altitude.isEmpty()
                ? draw.nothing(Tally.Why.NO_ALTITUDE)
                : Optional.of(toMeet(draw, Shape.A, line, onward, LEFT_NM, turn, altitude.getAsDouble()));
    }

    /** With a hold at its end. */
    static Optional<LineToMeet> hold(LineDraw draw) {
        FiledRoute.Segment leg = draw.leg();
        GeodesicLine line = line(leg);
        OptionalDouble altitude = altitude(draw, leg, line);
        if (altitude.isEmpty()) {
            return draw.nothing(Tally.Why.NO_ALTITUDE);
        }
        Optional<StationLines> lines = leg.to() instanceof Station station ? draw.lines(station) : Optional.empty();
        Instruction hold = lines.isPresent()
                ? atStation(draw, lines.get(), arrival(line, draw))
                : atFix(draw, leg, altitude.getAsDouble());
        return draw.areClear(leg.to())
                ? Optional.of(toMeet(
                        draw, Shape.HOLD, line, hold, LEFT_TO_HOLD_NM, OptionalDouble.empty(), altitude.getAsDouble()))
                : draw.nothing(Tally.Why.TWO_NAMES);
    }

    private static GeodesicLine line(FiledRoute.Segment leg) {
        return GeodesicLine.between(leg.from().position(), leg.to().position());
    }

    private static OptionalDouble altitude(LineDraw draw, FiledRoute.Segment leg, GeodesicLine line) {
        return draw.altitude(line.initialCourse(), leg.from(), feet -> true);
    }

    private static LineToMeet toMeet(
            LineDraw draw,
            Shape shape,
            GeodesicLine line,
            Instruction then,
            Band left,
            OptionalDouble turn,
            double altitudeFt) {
        List<Instruction> words =
                List.of(new Instruction.InterceptAirway(draw.way().airway()), then);
        return new LineToMeet(shape, draw.way(), words, line, LineDraw.CLEAR_OF_TURNS_NM, left, turn, altitudeFt);
    }

    private static OptionalDouble turnAfter(FiledRoute filed, FiledRoute.Segment leg, GeodesicLine line) {
        int next = filed.segments().indexOf(leg) + 1;
        if (next >= filed.segments().size()) {
            return OptionalDouble.empty();
        }
        FiledRoute.Segment after = filed.segments().get(next);
        return OptionalDouble.of(line.courseAt(line.lengthNm())
                .turnTo(after.from().position().to(after.to().position()).initial()));
    }

    /** The heading on which the fix is reached, true; the track where the wind is too strong to say. */
    private static TrueDirection arrival(GeodesicLine line, LineDraw draw) {
        return GroundVector.forCourse(line.finalCourse(), draw.request().speedKt(), draw.wind())
                .map(GroundVector.HeadingForCourse::heading)
                .orElse(line.finalCourse());
    }

    private static Instruction.Hold atStation(LineDraw draw, StationLines lines, TrueDirection arrival) {
        double off = (switch (draw.oneOf(List.of(Holding.Entry.values()))) {
                    case DIRECT -> DIRECT_DEG;
                    case TEARDROP -> TEARDROP_DEG;
                    case PARALLEL -> PARALLEL_DEG;
                })
                .draw(draw.random());
        TrueDirection inbound = new TrueDirection(arrival.deg() - (draw.turnsRight() ? off : -off));
        Radial radial = lines.said(inbound.reciprocal());
        boolean byDme = lines.station().kind().hasDistance();
        return hold(draw, lines.station(), radial.deg(), lines.holdOn(radial), byDme);
    }

    /** On the airway that leads there, or on the radial of a station from either side. */
    private static Instruction.Hold atFix(LineDraw draw, FiledRoute.Segment leg, double altitudeFt) {
        Waypoint fix = leg.to();
        List<Instruction.Hold> all = new ArrayList<>();
        double variation = MagneticModel.WMM2025
                .variation(fix.position(), altitudeFt, draw.request().date())
                .eastDeg();
        double back = fix.position().to(leg.from().position()).initial().deg() - variation;
        all.add(hold(
                draw, fix, back, new Instruction.HoldLine.OnAirway(draw.way().airway()), false));
        for (Station station : draw.chart().stationsWithin(fix.position(), STATION_NM)) {
            StationLines lines = draw.lines(station).orElseThrow();
            Radial exact = lines.exact(station.position().to(fix.position()).initial());
            Radial radial = new Radial(Math.round(exact.deg()));
            double distanceNm = station.position().distanceNm(fix.position());
            boolean inRange = DrillChart.reachNm(station, altitudeFt).orElse(STATION_NM) >= distanceNm + 5;
            if (station.equals(fix)
                    || draw.way().passes(station)
                    || !inRange
                    || !draw.chart().isOnlyOneOfItsName(station)
                    || Math.abs(radial.deg() - exact.deg()) > ROUNDED_DEG
                    || distanceNm < LineDraw.CLEAR_OF_TURNS_NM) {
                continue;
            }
            double outward = station.position().to(fix.position()).onward().deg() - variation;
            for (double side : new double[] {outward, outward + 180}) {
                all.add(hold(
                        draw, fix, side, lines.holdOn(radial), station.kind().hasDistance()));
            }
        }
        return draw.oneOf(all);
    }

    private static Instruction.Hold hold(
            LineDraw draw, Waypoint fix, double sideMagneticDeg, Instruction.HoldLine line, boolean byDme) {
        boolean miles = draw.random().nextInt(MILES_ONE_IN) == 0 && byDme;
        String expect = Words.say(
                "%02d%02d", 8 + draw.random().nextInt(12), 5 * draw.random().nextInt(12));
        return new Instruction.Hold(
                fix,
                Optional.of(Words.compass(Angles.circle(sideMagneticDeg)).replace("-", "")),
                Optional.of(line),
                OptionalDouble.empty(),
                miles ? OptionalDouble.of(4 + draw.random().nextInt(3)) : OptionalDouble.empty(),
                draw.turnsRight() ? Instruction.TurnDirection.SHORTEST : Instruction.TurnDirection.LEFT,
                Optional.of(expect),
                false,
                false);
    }
}
