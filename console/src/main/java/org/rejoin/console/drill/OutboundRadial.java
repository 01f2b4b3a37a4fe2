package org.rejoin.console.drill;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.geo.Crossing;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.console.skill.Shape;

/** Shape C: a radial, or a bearing of an NDB, outbound from a station off the filed airway to where it crosses it. */
final class OutboundRadial implements LineShape {

    private static final Band LEFT_NM = new Band(9, 20);

    /** Parts of a leg near its ends are left out. */
    private static final Band SHARE = new Band(0.2, 0.8);

    /** Nearer ATC would name the published fix, nautical miles; judgement. */
    private static final double FIX_NM = 5;

    /** Another point this near is taken for it, nautical miles; judgement. */
    private static final double ANYTHING_NM = 3;

    /** Farther no standard service volume reaches below 14,500 ft, nautical miles (AIM 1-1-8). */
    static final double FARTHEST_NM = 100;

    /** A pilot who knows the service volumes sees that this is beyond, nautical miles; judgement. */
    private static final double BEYOND_NM = 3;

    /** The program warns under 30 degrees; a pilot is to see it on the chart. */
    private static final double FLAT_DEG = 27;

    /** Nobody can turn the wrong way by less, degrees; judgement. */
    private static final double LEAST_TURN_DEG = 15;

    /** Flatter there is hardly a crossing. */
    private static final double FLATTEST_DEG = 8;

    /** Cone over a VOR: 50 degrees from the vertical (ICAO Doc 8168, volume I). */
    private static final double CONE = Math.tan(Math.toRadians(50)) / Geodesics.FEET_PER_NM;

    /** Nearer to the station a radial is swept through too fast, nautical miles; judgement. */
    private static final double NEAREST_NM = 5;

    @Override
    public Optional<LineToMeet> draw(DrillChart chart, FiledAirway way, Ask ask, Random random, Tally tally) {
        FiledRoute.Segment leg = way.legs().get(random.nextInt(way.legs().size()));
        GeodesicLine airway =
                GeodesicLine.between(leg.from().position(), leg.to().position());
        Position about = airway.pointAt(SHARE.draw(random) * airway.lengthNm());
        List<Station> off = chart.stationsWithin(about, FARTHEST_NM).stream()
                .filter(station -> !way.passes(station))
                .toList();
        if (off.isEmpty()) {
            return tally.nothing(Tally.Why.NO_STATION);
        }
        Station station = off.get(random.nextInt(off.size()));
        StationLines lines = StationLines.of(station, ask.request().date()).orElseThrow();
        Radial radial = lines.said(station.position().to(about).initial());
        GeodesicLine outbound = GeodesicLine.from(station.position(), lines.azimuth(radial), FARTHEST_NM);
        Optional<Crossing> found = outbound.crossing(airway);
        if (found.isEmpty()) {
            return tally.nothing(Tally.Why.FLAT_CROSSING);
        }
        Crossing fix = found.get();
        Optional<Tally.Why> wrong = wrong(chart, station, way, fix, ask.flaw(), airway);
        if (wrong.isPresent()) {
            return tally.nothing(wrong.get());
        }
        OptionalDouble altitude = ask.altitude(way, fix.secondCourse(), leg.from(), random, feet -> {
            double reach = DrillChart.reachNm(station, feet).orElse(Double.POSITIVE_INFINITY);
            boolean inRange = reach >= fix.alongFirstNm();
            boolean beyond = reach + BEYOND_NM < fix.alongFirstNm();
            // Radials that cross an airway flat come from far away, and few of them are in range.
            return ask.flaw().map(flaw -> flaw == Flaw.FLAT_CROSSING || beyond).orElse(inRange);
        });
        if (altitude.isEmpty()) {
            return tally.nothing(Tally.Why.OUT_OF_RANGE);
        }
        double clear = clearNm(station, altitude.getAsDouble());
        double most = Math.min(LEFT_NM.high(), fix.alongFirstNm() - clear);
        if (most < LEFT_NM.low()) {
            return tally.nothing(Tally.Why.TOO_SHORT);
        }
        return Optional.of(new LineToMeet(
                Shape.C,
                way,
                way.joinedBy(lines.intercept(radial, false, Optional.empty())),
                GeodesicLine.from(station.position(), outbound.initialCourse(), fix.alongFirstNm()),
                clear,
                new Band(LEFT_NM.low(), most),
                OptionalDouble.of(fix.turnDeg()),
                altitude.getAsDouble(),
                Optional.of(station)));
    }

    /** How near to a station a line of it can be followed. */
    static double clearNm(Station station, double altitudeFt) {
        return Math.max(NEAREST_NM, CONE * (altitudeFt - station.elevationFt()));
    }

    private static Optional<Tally.Why> wrong(
            DrillChart chart,
            Station station,
            FiledAirway way,
            Crossing fix,
            Optional<Flaw> flaw,
            GeodesicLine airway) {
        double turn = Math.abs(fix.turnDeg());
        if (turn > MOST_TURN_DEG || turn < (flaw.isPresent() ? FLATTEST_DEG : LEAST_TURN_DEG)) {
            return Optional.of(Tally.Why.TURN);
        }
        boolean flat = flaw.equals(Optional.of(Flaw.FLAT_CROSSING))
                ? fix.acuteAngleDeg() > FLAT_DEG
                : fix.acuteAngleDeg() < leastDivergenceDeg(fix.alongFirstNm());
        if (flat) {
            return Optional.of(Tally.Why.FLAT_CROSSING);
        }
        boolean atTheEnds = fix.alongSecondNm() < FIX_NM || fix.alongSecondNm() > airway.lengthNm() - FIX_NM;
        if (atTheEnds || chart.hasPointWithin(ANYTHING_NM, fix.position())) {
            return Optional.of(Tally.Why.NEAR_A_FIX);
        }
        return chart.isOnlyOneOfItsName(station) && chart.isOnlyOneOfItsName(way)
                ? Optional.empty()
                : Optional.of(Tally.Why.TWO_NAMES);
    }

    /**
     * Least angle between the lines that make a fix: 30 degrees up to 30 NM from the station off the course, one more for
     * each mile, 45 from 45 NM on (FAA Order JO 7110.65, 4-1-5 b).
     */
    static double leastDivergenceDeg(double distanceNm) {
        return Math.min(45, Math.max(30, distanceNm));
    }
}
