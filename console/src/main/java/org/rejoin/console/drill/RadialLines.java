package org.rejoin.console.drill;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.Crossing;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.console.skill.Shape;

/**
 * Radials, and bearings of an NDB. Shape B: inbound to a station on the filed airway. Shape C: outbound from a station off the
 * airway to where it crosses it. Radials: outbound until it crosses the radial of another station on the airway, which is
 * flown TO that station and goes on along the airway.
 */
final class RadialLines {

    private static final Band LEFT_INBOUND_NM = new Band(12, 22);
    private static final Band LEFT_OUTBOUND_NM = new Band(9, 20);

    /** On the second radial, to its station: room for two turns and to be established between them. Judgement. */
    private static final Band SECOND_NM = new Band(10, 20);

    static final Band TURN_ONTO_AIRWAY_DEG = new Band(20, 110);

    /** So far out an inbound line is looked at. */
    private static final double REACH_NM = 60;

    /** Closer to a leg of the airway the radial is that leg, degrees. */
    private static final double OTHER_THAN_AIRWAY_DEG = 10;

    /** Parts of a leg near its ends are left out. */
    private static final Band SHARE = new Band(0.2, 0.8);

    /** Nearer ATC would name the published fix, nautical miles; judgement. */
    private static final double FIX_NM = 5;

    /** Another point this near is taken for it, nautical miles; judgement. */
    private static final double ANYTHING_NM = 3;

    /** Farther no standard service volume reaches below 14,500 ft, nautical miles (AIM 1-1-8). */
    private static final double FARTHEST_NM = 100;

    /** A pilot who knows the service volumes sees that this is beyond, nautical miles; judgement. */
    private static final double BEYOND_NM = 3;

    /** The program warns under 30 degrees; a pilot is to see it on the chart. */
    private static final double FLAT_DEG = 27;

    /** A smaller turn from one radial to the other is hardly a crossing, degrees; judgement. */
    private static final double LEAST_TURN_TO_RADIAL_DEG = 30;

    /** Cone over a VOR: 50 degrees from the vertical (ICAO Doc 8168, volume I). */
    private static final double CONE = Math.tan(Math.toRadians(50)) / Geodesics.FEET_PER_NM;

    /** Nearer to the station a radial is swept through too fast, nautical miles; judgement. */
    private static final double NEAREST_NM = 5;

    private RadialLines() {}

    /** A line of a station as it is said, in whole degrees, and where it leads to from there. */
    record Said(StationLines lines, Radial radial, TrueDirection azimuth) {

        Said(StationLines lines, TrueDirection about) {
            this(lines, lines.said(about), lines.azimuth(lines.said(about)));
        }

        Position station() {
            return lines.station().position();
        }

        GeodesicLine outward(double lengthNm) {
            return GeodesicLine.from(station(), azimuth, lengthNm);
        }

        /** Whether it is a leg of the filed route itself, flown either way. */
        boolean isAlongRoute(FiledAirway way) {
            Station station = lines.station();
            return way.filed().segments().stream()
                    .filter(leg -> leg.from().equals(station) || leg.to().equals(station))
                    .map(leg -> leg.from().equals(station) ? leg.to() : leg.from())
                    .anyMatch(other -> Math.abs(azimuth.turnTo(
                                    station().to(other.position()).initial()))
                            < OTHER_THAN_AIRWAY_DEG);
        }
    }

    /** TO the station where a leg begins, from where the turn onto that leg is so large, degrees, right positive. */
    static Said before(FiledRoute.Segment leg, StationLines lines, double turnDeg) {
        return new Said(lines, new TrueDirection(outOf(leg).deg() - turnDeg).reciprocal());
    }

    /** FROM a station through a place. */
    private static Said through(LineDraw draw, Station station, Position about) {
        return new Said(
                draw.lines(station).orElseThrow(), station.position().to(about).initial());
    }

    private static TrueDirection outOf(FiledRoute.Segment leg) {
        return leg.from().position().to(leg.to().position()).initial();
    }

    /** The legs of the airway that begin at a station with radials, or with bearings. */
    private static List<FiledRoute.Segment> fromStations(LineDraw draw, boolean alsoBearings) {
        return draw.way().legs().stream()
                .filter(leg -> leg.from() instanceof Station station
                        && draw.lines(station).isPresent()
                        && (alsoBearings || !StationLines.isNdb(station)))
                .toList();
    }

    /** Shape B. */
    static Optional<LineToMeet> inbound(LineDraw draw) {
        List<FiledRoute.Segment> onward = fromStations(draw, true);
        if (onward.isEmpty()) {
            return draw.nothing(Tally.Why.NO_STATION);
        }
        FiledRoute.Segment leg = draw.oneOf(onward);
        Station station = (Station) leg.from();
        if (!draw.chart().isOnlyOneOfItsName(station)) {
            return draw.nothing(Tally.Why.TWO_NAMES);
        }
        double turn = TURN_ONTO_AIRWAY_DEG.draw(draw.random()) * (draw.turnsRight() ? 1 : -1);
        Said said = before(leg, draw.lines(station).orElseThrow(), turn);
        if (said.isAlongRoute(draw.way())) {
            return draw.nothing(Tally.Why.TURN);
        }
        OptionalDouble altitude = draw.altitude(
                outOf(leg), station, feet -> DrillChart.reaches(station, feet, LEFT_INBOUND_NM.low() + 2));
        if (altitude.isEmpty()) {
            return draw.nothing(Tally.Why.NO_ALTITUDE);
        }
        double reach = DrillChart.reachNm(station, altitude.getAsDouble()).orElse(REACH_NM);
        return Optional.of(new LineToMeet(
                Shape.B,
                draw.way(),
                draw.way().joinedBy(said.lines().intercept(said.radial(), true, Optional.empty())),
                said.outward(REACH_NM).reversed(),
                0,
                new Band(LEFT_INBOUND_NM.low(), Math.min(LEFT_INBOUND_NM.high(), reach - 1)),
                OptionalDouble.of(said.azimuth().reciprocal().turnTo(outOf(leg))),
                altitude.getAsDouble()));
    }

    /** Shape C. */
    static Optional<LineToMeet> outbound(LineDraw draw) {
        FiledRoute.Segment leg = draw.leg();
        GeodesicLine airway =
                GeodesicLine.between(leg.from().position(), leg.to().position());
        Position about = airway.pointAt(SHARE.draw(draw.random()) * airway.lengthNm());
        List<Station> off = draw.chart().stationsWithin(about, FARTHEST_NM).stream()
                .filter(station -> !draw.way().passes(station))
                .toList();
        if (off.isEmpty()) {
            return draw.nothing(Tally.Why.NO_STATION);
        }
        Station station = draw.oneOf(off);
        Said said = through(draw, station, about);
        Optional<Crossing> found = said.outward(FARTHEST_NM).crossing(airway);
        if (found.isEmpty()) {
            return draw.nothing(Tally.Why.FLAT_CROSSING);
        }
        Crossing fix = found.get();
        Optional<Tally.Why> wrong = wrong(draw, station, fix, airway);
        if (wrong.isPresent()) {
            return draw.nothing(wrong.get());
        }
        OptionalDouble altitude = draw.altitude(fix.secondCourse(), leg.from(), feet -> {
            double reach = DrillChart.reachNm(station, feet).orElse(Double.POSITIVE_INFINITY);
            boolean inRange = reach >= fix.alongFirstNm();
            boolean beyond = reach + BEYOND_NM < fix.alongFirstNm();
            // Radials that cross an airway flat come from far away, and few of them are in range.
            return draw.flaw()
                    .map(flaw -> flaw == LineDraw.Flaw.FLAT_CROSSING || beyond)
                    .orElse(inRange);
        });
        Instruction words = said.lines().intercept(said.radial(), false, Optional.empty());
        return altitude.isEmpty()
                ? draw.nothing(Tally.Why.OUT_OF_RANGE)
                : outward(draw, Shape.C, said, fix, fix.turnDeg(), altitude.getAsDouble(), words);
    }

    /** Radials. */
    static Optional<LineToMeet> untilRadial(LineDraw draw) {
        List<FiledRoute.Segment> onward = fromStations(draw, false);
        if (onward.isEmpty()) {
            return draw.nothing(Tally.Why.NO_STATION);
        }
        FiledRoute.Segment leg = draw.oneOf(onward);
        Station second = (Station) leg.from();
        double turn = TURN_ONTO_AIRWAY_DEG.draw(draw.random()) * (draw.random().nextBoolean() ? 1 : -1);
        Said inbound = before(leg, draw.lines(second).orElseThrow(), turn);
        if (inbound.isAlongRoute(draw.way())) {
            return draw.nothing(Tally.Why.TURN);
        }
        GeodesicLine inward = inbound.outward(SECOND_NM.high() + 5);
        Position about = second.position().destination(inbound.azimuth(), SECOND_NM.draw(draw.random()));
        List<Station> others = draw.chart().stationsWithin(about, FARTHEST_NM).stream()
                .filter(station -> !station.equals(second))
                .toList();
        if (others.isEmpty()) {
            return draw.nothing(Tally.Why.NO_STATION);
        }
        Station first = draw.oneOf(others);
        if (!draw.areClear(first, second)) {
            return draw.nothing(Tally.Why.TWO_NAMES);
        }
        Said said = through(draw, first, about);
        Optional<Crossing> found = said.outward(FARTHEST_NM)
                .crossing(inward)
                .filter(met -> met.alongSecondNm() >= SECOND_NM.low() && met.alongSecondNm() <= inward.lengthNm())
                .filter(met -> met.acuteAngleDeg() >= leastDivergenceDeg(met.alongFirstNm()));
        if (found.isEmpty()) {
            return draw.nothing(Tally.Why.FLAT_CROSSING);
        }
        Crossing corner = found.get();
        double turnAtCorner = corner.firstCourse().turnTo(corner.secondCourse().reciprocal());
        if (Math.abs(turnAtCorner) < LEAST_TURN_TO_RADIAL_DEG || turnAtCorner > 0 != draw.turnsRight()) {
            return draw.nothing(Tally.Why.TURN);
        }
        OptionalDouble altitude = draw.altitude(
                outOf(leg),
                second,
                feet -> DrillChart.reaches(first, feet, corner.alongFirstNm())
                        && DrillChart.reaches(second, feet, inward.lengthNm()));
        Instruction.Until until = new Instruction.Until.AtRadial(second, inbound.radial());
        return altitude.isEmpty()
                ? draw.nothing(Tally.Why.OUT_OF_RANGE)
                : outward(
                        draw,
                        Shape.RADIALS,
                        said,
                        corner,
                        turnAtCorner,
                        altitude.getAsDouble(),
                        said.lines().intercept(said.radial(), false, Optional.of(until)),
                        inbound.lines().intercept(inbound.radial(), true, Optional.empty()));
    }

    /** From the station to where another line is met, as far as it can be followed. */
    private static Optional<LineToMeet> outward(
            LineDraw draw,
            Shape shape,
            Said said,
            Crossing end,
            double turnDeg,
            double altitudeFt,
            Instruction... words) {
        double clear =
                Math.max(NEAREST_NM, CONE * (altitudeFt - said.lines().station().elevationFt()));
        double most = Math.min(LEFT_OUTBOUND_NM.high(), end.alongFirstNm() - clear);
        return most < LEFT_OUTBOUND_NM.low()
                ? draw.nothing(Tally.Why.TOO_SHORT)
                : Optional.of(new LineToMeet(
                        shape,
                        draw.way(),
                        draw.way().joinedBy(words),
                        said.outward(end.alongFirstNm()),
                        clear,
                        new Band(LEFT_OUTBOUND_NM.low(), most),
                        OptionalDouble.of(turnDeg),
                        altitudeFt));
    }

    private static Optional<Tally.Why> wrong(LineDraw draw, Station station, Crossing fix, GeodesicLine airway) {
        boolean flat = draw.flaw().equals(Optional.of(LineDraw.Flaw.FLAT_CROSSING))
                ? fix.acuteAngleDeg() > FLAT_DEG
                : fix.acuteAngleDeg() < leastDivergenceDeg(fix.alongFirstNm());
        if (flat) {
            return Optional.of(Tally.Why.FLAT_CROSSING);
        }
        boolean atTheEnds = fix.alongSecondNm() < FIX_NM || fix.alongSecondNm() > airway.lengthNm() - FIX_NM;
        if (atTheEnds || draw.chart().hasPointWithin(ANYTHING_NM, fix.position())) {
            return Optional.of(Tally.Why.NEAR_A_FIX);
        }
        return draw.areClear(station) ? Optional.empty() : Optional.of(Tally.Why.TWO_NAMES);
    }

    /**
     * Least angle between the lines that make a fix: 30 degrees up to 30 NM from the station off the course, one more for
     * each mile, 45 from 45 NM on (FAA Order JO 7110.65, 4-1-5 b).
     */
    private static double leastDivergenceDeg(double distanceNm) {
        return Math.min(45, Math.max(30, distanceNm));
    }
}
