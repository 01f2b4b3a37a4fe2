package org.rejoin.console.drill;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.Crossing;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.console.skill.Shape;

/**
 * A radial of one station, or a bearing of an NDB, until it crosses the radial of another on the filed airway, which is flown
 * TO that station and goes on along the airway.
 */
final class RadialToRadial implements LineShape {

    private static final Band LEFT_NM = new Band(9, 20);

    /** On the second radial, to its station: room for two turns and to be established between them. Judgement. */
    private static final Band SECOND_NM = new Band(10, 20);

    private static final Band TURN_ONTO_AIRWAY_DEG = new Band(20, 110);

    /** A smaller turn from one radial to the other is hardly a crossing, degrees; judgement. */
    private static final double LEAST_TURN_DEG = 30;

    @Override
    public Optional<LineToMeet> draw(DrillChart chart, FiledAirway way, Ask ask, Random random, Tally tally) {
        List<FiledRoute.Segment> onward = way.legs().stream()
                .filter(leg -> leg.from() instanceof Station station
                        && station.kind().hasRadials()
                        && station.declination().isPresent())
                .toList();
        if (onward.isEmpty()) {
            return tally.nothing(Tally.Why.NO_STATION);
        }
        FiledRoute.Segment leg = onward.get(random.nextInt(onward.size()));
        Station second = (Station) leg.from();
        StationLines lines = StationLines.of(second, ask.request().date()).orElseThrow();
        TrueDirection out = second.position().to(leg.to().position()).initial();
        double turn = TURN_ONTO_AIRWAY_DEG.draw(random) * (random.nextBoolean() ? 1 : -1);
        Radial radial = lines.said(new TrueDirection(out.deg() - turn).reciprocal());
        TrueDirection azimuth = lines.azimuth(radial);
        if (InboundRadial.isAlongRoute(way, second, azimuth)) {
            return tally.nothing(Tally.Why.TURN);
        }
        GeodesicLine inward = GeodesicLine.from(second.position(), azimuth, SECOND_NM.high() + 5);
        Position about = second.position().destination(azimuth, SECOND_NM.draw(random));
        List<Station> others = chart.stationsWithin(about, OutboundRadial.FARTHEST_NM).stream()
                .filter(station -> !station.equals(second))
                .toList();
        if (others.isEmpty()) {
            return tally.nothing(Tally.Why.NO_STATION);
        }
        Station first = others.get(random.nextInt(others.size()));
        if (!chart.isOnlyOneOfItsName(first) || !chart.isOnlyOneOfItsName(second) || !chart.isOnlyOneOfItsName(way)) {
            return tally.nothing(Tally.Why.TWO_NAMES);
        }
        StationLines firstLines = StationLines.of(first, ask.request().date()).orElseThrow();
        Radial firstRadial = firstLines.said(first.position().to(about).initial());
        GeodesicLine outbound =
                GeodesicLine.from(first.position(), firstLines.azimuth(firstRadial), OutboundRadial.FARTHEST_NM);
        Optional<Crossing> corner = outbound.crossing(inward)
                .filter(met -> met.alongSecondNm() >= SECOND_NM.low() && met.alongSecondNm() <= inward.lengthNm());
        if (corner.isEmpty()
                || corner.get().acuteAngleDeg()
                        < OutboundRadial.leastDivergenceDeg(corner.get().alongFirstNm())) {
            return tally.nothing(Tally.Why.FLAT_CROSSING);
        }
        double turnAtCorner =
                corner.get().firstCourse().turnTo(corner.get().secondCourse().reciprocal());
        if (Math.abs(turnAtCorner) < LEAST_TURN_DEG
                || Math.abs(turnAtCorner) > MOST_TURN_DEG
                || turnAtCorner > 0 != ask.turnsRight()) {
            return tally.nothing(Tally.Why.TURN);
        }
        double length = corner.get().alongFirstNm();
        OptionalDouble altitude = ask.altitude(
                way,
                out,
                second,
                random,
                feet -> DrillChart.reaches(first, feet, length) && DrillChart.reaches(second, feet, inward.lengthNm()));
        if (altitude.isEmpty()) {
            return tally.nothing(Tally.Why.OUT_OF_RANGE);
        }
        double clear = OutboundRadial.clearNm(first, altitude.getAsDouble());
        double most = Math.min(LEFT_NM.high(), length - clear);
        if (most < LEFT_NM.low()) {
            return tally.nothing(Tally.Why.TOO_SHORT);
        }
        return Optional.of(new LineToMeet(
                Shape.RADIALS,
                way,
                way.joinedBy(
                        firstLines.intercept(
                                firstRadial, false, Optional.of(new Instruction.Until.AtRadial(second, radial))),
                        lines.intercept(radial, true, Optional.empty())),
                GeodesicLine.from(first.position(), outbound.initialCourse(), length),
                clear,
                new Band(LEFT_NM.low(), most),
                OptionalDouble.of(turnAtCorner),
                altitude.getAsDouble(),
                Optional.of(first)));
    }
}
