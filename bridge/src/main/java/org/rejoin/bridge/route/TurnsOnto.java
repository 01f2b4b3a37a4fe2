package org.rejoin.bridge.route;

import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Instruction.TurnDirection;
import org.rejoin.bridge.clearance.Noted;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.TrueDirection;

/** The turns that were ordered onto the lines of a clearance ("turn left onto V31"), against those that the route makes. */
final class TurnsOnto {

    /** A smaller turn has no side worth a word, degrees (common practice, no source). */
    private static final double LEAST_DEG = 2;

    private TurnsOnto() {}

    /**
     * The side on which the aircraft is to turn on course now: "turn left on course"; empty where that is not said, or is said
     * behind what is flown first.
     */
    static Optional<TurnDirection> onCourse(Clearance clearance) {
        List<Instruction> said = clearance.instructions().stream()
                .filter(each -> each instanceof Noted.TurnOnto || !(each instanceof Instruction.Assignment))
                .toList();
        return said.size() > 1
                        && said.get(0) instanceof Noted.TurnOnto turn
                        && said.get(1) instanceof Instruction.Onward
                ? Optional.of(turn.side())
                : Optional.empty();
    }

    /** Warns where a line is joined by a turn to the other side. */
    static void check(AmendmentDraft draft) {
        List<Instruction> said = draft.clearance.instructions();
        for (int i = 0; i + 1 < said.size(); i++) {
            if (said.get(i) instanceof Noted.TurnOnto turn) {
                Optional<Waypoint> over =
                        said.get(i + 1) instanceof Instruction.Onward ? fix(said.subList(0, i)) : Optional.empty();
                check(draft, turn.side(), said.get(i + 1), over);
            }
        }
    }

    /** The fix to which the last of some instructions leads. */
    private static Optional<Waypoint> fix(List<Instruction> said) {
        Instruction last = said.isEmpty() ? null : said.get(said.size() - 1);
        if (last instanceof Instruction.Depart depart) {
            return Optional.of(depart.fix());
        }
        if (last instanceof Instruction.JoinAirway join) {
            return join.to();
        }
        return last instanceof Instruction.Direct direct && direct.away().isEmpty()
                ? Optional.of(direct.to())
                : Optional.empty();
    }

    private static void check(AmendmentDraft draft, TurnDirection side, Instruction line, Optional<Waypoint> over) {
        int leg = over.map(fix -> RouteEnd.legTo(draft, fix) + 1).orElse(0);
        while (over.isEmpty() && leg < draft.legs.size() && !isOf(draft.legs.get(leg), line)) {
            leg++;
        }
        Optional<Double> turn = leg == 0 || leg == draft.legs.size() ? Optional.empty() : turnDeg(draft, leg);
        boolean right = turn.filter(degrees -> degrees > 0).isPresent();
        if (turn.filter(degrees -> Math.abs(degrees) > LEAST_DEG).isPresent()
                && right == (side == TurnDirection.LEFT)) {
            String name = name(line);
            double degrees = Math.abs(turn.get());
            draft.warn(
                    Warning.Code.LONG_WAY_ROUND,
                    "\"turn %s\" onto %s: from %s the turn onto it is %s, %s; to the %s it would go the long way round, %s:"
                            + " ask",
                    right ? "left" : "right",
                    name,
                    draft.legs.get(leg - 1) instanceof Leg.HeadingToIntercept heading
                            ? "heading " + Angles.figures(heading.heading().deg())
                            : "the line before it",
                    right ? "right" : "left",
                    Angles.degrees(degrees),
                    right ? "left" : "right",
                    Angles.degrees(360 - degrees));
        }
    }

    /** From the track of the leg before to the course of a leg where it is joined, degrees, right positive; empty where not met. */
    private static Optional<Double> turnDeg(AmendmentDraft draft, int leg) {
        Leg before = draft.legs.get(leg - 1);
        if (before instanceof Leg.HeadingToIntercept) {
            return draft.intercept
                    .filter(met -> leg == draft.courseLeg && met.distanceNm() > 0)
                    .map(Intercept::turnDeg);
        }
        Optional<TrueDirection> track = before.groundPath().map(GroundPath::finalCourse);
        Optional<TrueDirection> course = draft.legs
                .get(leg)
                .groundPath()
                .map(path -> path.courseAt(draft.legs.get(leg).joinedAtNm()));
        return track.flatMap(from -> course.map(from::turnTo));
    }

    /** Whether a leg is flown along the line of an instruction. */
    private static boolean isOf(Leg leg, Instruction line) {
        if (line instanceof Instruction.Onto onto) {
            return onto.onto(airway -> leg.isOn(airway.airway()), join -> leg.isOn(join.airway()), direct -> false);
        }
        return line instanceof Instruction.StationLine of
                && station(leg).filter(of.station()::equals).isPresent();
    }

    /** The station whose line a leg follows. */
    private static Optional<Station> station(Leg leg) {
        return leg.fold(new Leg.Cases<>(
                toIntercept -> Optional.empty(),
                headingOnly -> Optional.empty(),
                toFix -> Optional.of(toFix.station()),
                outbound -> outbound.station() instanceof Station station ? Optional.of(station) : Optional.empty(),
                track -> Optional.empty(),
                direct -> Optional.empty(),
                arc -> Optional.of(arc.station()),
                course -> course.fix() instanceof Station station ? Optional.of(station) : Optional.empty(),
                hold -> Optional.empty()));
    }

    private static String name(Instruction line) {
        if (line instanceof Instruction.InterceptAirway airway) {
            return airway.airway();
        }
        if (line instanceof Instruction.JoinAirway join) {
            return join.airway();
        }
        return line instanceof Instruction.StationLine of
                ? of.<String>line(
                        radial -> "the " + Course.name(radial.station(), radial.radial()),
                        bearing -> "the " + Angles.figures(bearing.bearing().deg()) + " bearing from "
                                + bearing.station().ident(),
                        arc -> "the " + arc.station().ident() + " arc")
                : "the course";
    }
}
