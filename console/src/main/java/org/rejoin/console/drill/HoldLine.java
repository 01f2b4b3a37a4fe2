package org.rejoin.console.drill;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;

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
 * A hold at the end of a leg of the airway: at a station on one of its radials, drawn so that each of the three entries comes
 * as often as the others, or at a fix on the airway or on the radial or bearing of a station that passes it.
 */
final class HoldLine implements LineShape {

    private static final Band LEFT_NM = new Band(8, 14);

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

    @Override
    public Optional<LineToMeet> draw(DrillChart chart, FiledAirway way, Ask ask, Random random, Tally tally) {
        FiledRoute.Segment leg = way.legs().get(random.nextInt(way.legs().size()));
        GeodesicLine line = GeodesicLine.between(leg.from().position(), leg.to().position());
        OptionalDouble altitude = ask.altitude(way, line.initialCourse(), leg.from(), random, feet -> true);
        if (altitude.isEmpty()) {
            return tally.nothing(Tally.Why.NO_ALTITUDE);
        }
        boolean right = ask.turnsRight();
        LocalDate date = ask.request().date();
        Optional<StationLines> lines =
                leg.to() instanceof Station station ? StationLines.of(station, date) : Optional.empty();
        Optional<Instruction.Hold> hold = lines.isPresent()
                ? atStation(lines.get(), arrival(line, ask), right, random)
                : atFix(chart, way, leg, right, altitude.getAsDouble(), date, random);
        if (hold.isEmpty()) {
            return tally.nothing(Tally.Why.NO_STATION);
        }
        if (!chart.isOnlyOneOfItsName(leg.to()) || !chart.isOnlyOneOfItsName(way)) {
            return tally.nothing(Tally.Why.TWO_NAMES);
        }
        return Optional.of(new LineToMeet(
                Shape.HOLD,
                way,
                List.of(new Instruction.InterceptAirway(way.airway()), hold.get()),
                line,
                CLEAR_OF_TURNS_NM,
                LEFT_NM,
                OptionalDouble.empty(),
                altitude.getAsDouble(),
                Optional.empty()));
    }

    /** The heading on which the fix is reached, true; the track where the wind is too strong to say. */
    private static TrueDirection arrival(GeodesicLine line, Ask ask) {
        return GroundVector.forCourse(line.finalCourse(), ask.request().speedKt(), ask.wind())
                .map(GroundVector.HeadingForCourse::heading)
                .orElse(line.finalCourse());
    }

    private static Optional<Instruction.Hold> atStation(
            StationLines lines, TrueDirection arrival, boolean right, Random random) {
        Holding.Entry[] entries = Holding.Entry.values();
        double off = (switch (entries[random.nextInt(entries.length)]) {
                    case DIRECT -> DIRECT_DEG;
                    case TEARDROP -> TEARDROP_DEG;
                    case PARALLEL -> PARALLEL_DEG;
                })
                .draw(random);
        TrueDirection inbound = new TrueDirection(arrival.deg() - (right ? off : -off));
        Radial radial = lines.said(inbound.reciprocal());
        return Optional.of(hold(
                lines.station(),
                compass(radial.deg()),
                lines.holdOn(radial),
                right,
                lines.station().kind().hasDistance(),
                random));
    }

    /** On the airway that leads there, or on the radial of a station from either side. */
    private static Optional<Instruction.Hold> atFix(
            DrillChart chart,
            FiledAirway way,
            FiledRoute.Segment leg,
            boolean right,
            double altitudeFt,
            LocalDate date,
            Random random) {
        Waypoint fix = leg.to();
        List<Instruction.Hold> all = new ArrayList<>();
        double variation = MagneticModel.WMM2025
                .variation(fix.position(), altitudeFt, date)
                .eastDeg();
        double back = fix.position().to(leg.from().position()).initial().deg() - variation;
        all.add(hold(fix, compass(back), new Instruction.HoldLine.OnAirway(way.airway()), right, false, random));
        for (Station station : chart.stationsWithin(fix.position(), STATION_NM)) {
            StationLines lines = StationLines.of(station, date).orElseThrow();
            Radial exact = lines.exact(station.position().to(fix.position()).initial());
            Radial radial = new Radial(Math.round(exact.deg()));
            boolean inRange = DrillChart.reachNm(station, altitudeFt).orElse(STATION_NM)
                    >= station.position().distanceNm(fix.position()) + 5;
            if (station.equals(fix)
                    || way.passes(station)
                    || !inRange
                    || !chart.isOnlyOneOfItsName(station)
                    || Math.abs(radial.deg() - exact.deg()) > ROUNDED_DEG
                    || station.position().distanceNm(fix.position()) < CLEAR_OF_TURNS_NM) {
                continue;
            }
            double outward = station.position().to(fix.position()).onward().deg() - variation;
            for (double side : new double[] {outward, outward + 180}) {
                all.add(hold(
                        fix,
                        compass(side),
                        lines.holdOn(radial),
                        right,
                        station.kind().hasDistance(),
                        random));
            }
        }
        return Optional.of(all.get(random.nextInt(all.size())));
    }

    private static Instruction.Hold hold(
            Waypoint fix, String compass, Instruction.HoldLine line, boolean right, boolean byDme, Random random) {
        boolean miles = random.nextInt(MILES_ONE_IN) == 0 && byDme;
        String expect = Words.say("%02d%02d", 8 + random.nextInt(12), 5 * random.nextInt(12));
        return new Instruction.Hold(
                fix,
                Optional.of(compass),
                Optional.of(line),
                OptionalDouble.empty(),
                miles ? OptionalDouble.of(4 + random.nextInt(3)) : OptionalDouble.empty(),
                right ? Instruction.TurnDirection.SHORTEST : Instruction.TurnDirection.LEFT,
                Optional.of(expect),
                false,
                false);
    }

    private static String compass(double magneticDeg) {
        return Words.compass(Angles.circle(magneticDeg)).replace("-", "");
    }
}
