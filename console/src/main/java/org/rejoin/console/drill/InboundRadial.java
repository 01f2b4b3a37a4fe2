package org.rejoin.console.drill;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.console.skill.Shape;

/** Shape B: a radial, or a bearing of an NDB, inbound to a station on the filed airway. */
final class InboundRadial implements LineShape {

    private static final Band LEFT_NM = new Band(12, 22);
    private static final Band TURN_DEG = new Band(20, 110);

    /** So far out the line is looked at. */
    private static final double REACH_NM = 60;

    /** Closer to a leg of the airway the radial is that leg, degrees. */
    private static final double OTHER_THAN_AIRWAY_DEG = 10;

    @Override
    public Optional<LineToMeet> draw(DrillChart chart, FiledAirway way, Ask ask, Random random, Tally tally) {
        List<FiledRoute.Segment> onward = way.legs().stream()
                .filter(leg -> leg.from() instanceof Station station
                        && StationLines.of(station, ask.request().date()).isPresent())
                .toList();
        if (onward.isEmpty()) {
            return tally.nothing(Tally.Why.NO_STATION);
        }
        FiledRoute.Segment leg = onward.get(random.nextInt(onward.size()));
        Station station = (Station) leg.from();
        StationLines lines = StationLines.of(station, ask.request().date()).orElseThrow();
        if (!chart.isOnlyOneOfItsName(station)) {
            return tally.nothing(Tally.Why.TWO_NAMES);
        }
        TrueDirection out = station.position().to(leg.to().position()).initial();
        double turn = TURN_DEG.draw(random) * (ask.turnsRight() ? 1 : -1);
        TrueDirection inbound = new TrueDirection(out.deg() - turn);
        Radial radial = lines.said(inbound.reciprocal());
        TrueDirection azimuth = lines.azimuth(radial);
        double rounded = azimuth.reciprocal().turnTo(out);
        if (isAlongRoute(way, station, azimuth)) {
            return tally.nothing(Tally.Why.TURN);
        }
        OptionalDouble altitude =
                ask.altitude(way, out, station, random, feet -> DrillChart.reaches(station, feet, LEFT_NM.low() + 2));
        if (altitude.isEmpty()) {
            return tally.nothing(Tally.Why.NO_ALTITUDE);
        }
        double reach = DrillChart.reachNm(station, altitude.getAsDouble()).orElse(REACH_NM);
        return Optional.of(new LineToMeet(
                Shape.B,
                way,
                way.joinedBy(lines.intercept(radial, true, Optional.empty())),
                GeodesicLine.from(station.position(), azimuth, REACH_NM).reversed(),
                0,
                new Band(LEFT_NM.low(), Math.min(LEFT_NM.high(), reach - 1)),
                OptionalDouble.of(rounded),
                altitude.getAsDouble(),
                Optional.of(station)));
    }

    /** Whether a radial is a leg of the filed route itself, flown either way. */
    static boolean isAlongRoute(FiledAirway way, Station station, TrueDirection azimuth) {
        return way.filed().segments().stream()
                .filter(leg -> leg.from().equals(station) || leg.to().equals(station))
                .map(leg -> leg.from().equals(station) ? leg.to() : leg.from())
                .anyMatch(other -> Math.abs(azimuth.turnTo(
                                station.position().to(other.position()).initial()))
                        < OTHER_THAN_AIRWAY_DEG);
    }
}
