package org.rejoin.bridge.route;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Noted;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;

/**
 * "Join V31 ten miles north of AAA" names a point of V31 that the chart has not: here it gets it; "direct five miles east of
 * AAA" names one off any airway.
 *
 * @param chart with such points among those of their airways
 * @param instructions of the clearance, with those points in place of the words
 */
record AirwayPlaces(Chart chart, List<Instruction> instructions) {

    static AirwayPlaces of(Chart chart, FiledRoute filed, Clearance clearance, Situation situation)
            throws ClearanceException {
        AirwayPlaces places = new AirwayPlaces(chart, List.of());
        List<Instruction> instructions = new ArrayList<>();
        for (Instruction each : clearance.instructions()) {
            if (each instanceof Instruction.JoinAirway join
                    && join.away().isPresent()
                    && join.at().isPresent()) {
                Fix point = point(
                        places.chart,
                        join.airway(),
                        join.at().get(),
                        join.away().get(),
                        situation);
                places = new AirwayPlaces(places.with(join.airway(), point), List.of());
                instructions.add(new Instruction.JoinAirway(
                        join.airway(), Optional.of(point), join.to(), Optional.empty(), join.bound()));
            } else if (each instanceof Instruction.Direct direct
                    && direct.away().isPresent()) {
                Fix point = RadialDistance.beside(direct.to(), direct.away().get(), situation);
                instructions.add(new Instruction.Direct(point, direct.whenAble(), direct.turn()));
            } else if (each instanceof Instruction.JoinAirway join && join.to().isEmpty()) {
                instructions.add(toLimit(chart, filed, clearance, join));
            } else if (!(each instanceof Noted.JoinedWithin)) {
                instructions.add(each);
            }
        }
        return new AirwayPlaces(places.chart, instructions);
    }

    /** "Cleared to BBB via V40" leads along V40 to BBB, where nothing else says where V40 is left. */
    private static Instruction.JoinAirway toLimit(
            Chart chart, FiledRoute filed, Clearance clearance, Instruction.JoinAirway join) {
        boolean last = filed.segments().stream().noneMatch(segment -> segment.isOn(join.airway()))
                && clearance
                        .last(Instruction.JoinAirway.class)
                        .filter(join::equals)
                        .isPresent();
        return clearance
                .first(Instruction.ClearedTo.class)
                .map(Instruction.ClearedTo::limit)
                .filter(limit -> last && chart.airways(join.airway()).stream().anyMatch(airway -> airway.passes(limit)))
                .or(() -> toFiled(chart, filed, clearance, join).filter(fix -> last))
                .map(join::leftAt)
                .orElse(join);
    }

    /**
     * "Direct AAA, V31, then as filed", where one fix of V31 is filed and V31 is not: it leads to that fix, from where the rest is
     * as filed. Empty where there are several, or none but the one that V31 is joined at.
     */
    private static Optional<Waypoint> toFiled(
            Chart chart, FiledRoute filed, Clearance clearance, Instruction.JoinAirway join) {
        List<Waypoint> shared = filed.points().stream()
                .distinct()
                .filter(point -> chart.airways(join.airway()).stream().anyMatch(airway -> airway.passes(point)))
                .toList();
        boolean there = join.at().filter(shared::contains).isPresent()
                || clearance.all(Instruction.Direct.class).stream().anyMatch(direct -> shared.contains(direct.to()));
        return clearance.first(Instruction.Onward.class).isPresent() && shared.size() == 1 && !there
                ? Optional.of(shared.get(0))
                : Optional.empty();
    }

    /** The point of an airway that lies so from a fix of it. */
    static Fix point(Chart chart, String ident, Waypoint from, Instruction.Away away, Situation situation)
            throws ClearanceException {
        BesideFix place = chart.airways(ident).stream()
                .flatMap(airway -> IntStream.range(1, airway.points().size())
                        .mapToObj(i -> GeodesicLine.between(
                                airway.points().get(i - 1).position(),
                                airway.points().get(i).position())))
                .flatMap(line -> BesideFix.on(line, 0, line.lengthNm(), from, away, situation))
                .min(Comparator.comparingDouble(BesideFix::offDeg))
                .orElseThrow(() -> AmendmentDraft.refused(
                        "%s has no point %.0f miles %s of %s", ident, away.distanceNm(), away.compass(), from.ident()));
        return new Fix(place.said().ident(), place.position());
    }

    private Chart with(String ident, Fix point) {
        List<Airway> airways = new ArrayList<>();
        for (Airway airway : chart.airways()) {
            airways.add(airway.ident().equals(ident) ? with(airway, point) : airway);
        }
        List<Fix> fixes = new ArrayList<>(chart.fixes());
        fixes.add(point);
        return new Chart(chart.name(), chart.stations(), fixes, chart.airports(), airways, chart.holds())
                .saying(chart.says());
    }

    private static Airway with(Airway airway, Fix point) {
        for (int i = 0; i + 1 < airway.points().size(); i++) {
            Position from = airway.points().get(i).position();
            Position to = airway.points().get(i + 1).position();
            double detour = from.distanceNm(point.position()) + point.position().distanceNm(to) - from.distanceNm(to);
            if (detour < 1e-4) {
                List<Waypoint> points = new ArrayList<>(airway.points());
                points.add(i + 1, point);
                List<Airway.Segment> segments = new ArrayList<>(airway.segments());
                segments.add(i + 1, airway.segments().get(i));
                return new Airway(airway.ident(), points, segments);
            }
        }
        return airway;
    }
}
