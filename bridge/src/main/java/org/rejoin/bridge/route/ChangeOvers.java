package org.rejoin.bridge.route;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.InTurn;
import org.rejoin.bridge.clearance.Instruction.Until;
import org.rejoin.bridge.clearance.When;

/** Where on a route an assigned altitude or speed gives way to the next one. */
public final class ChangeOvers {

    private ChangeOvers() {}

    /**
     * Whether it can be told when each of several altitudes or speeds comes into force.
     *
     * @param inTurn one after the other
     * @param route on which they are flown
     * @return false where one begins when ATC says so, at a place that the route does not come to, or at a time and the time
     *     of day is not known
     */
    public static boolean followed(List<? extends InTurn<?>> inTurn, AmendedRoute route) {
        return inTurn.stream()
                .allMatch(each -> isFollowed(each.from(), route.legs(), route.courseLeg(), route.situation()));
    }

    static boolean isFollowed(Optional<When> from, List<Leg> legs, int courseLeg, Situation situation) {
        if (from.isEmpty()) {
            return true;
        }
        When when = from.get();
        if (when instanceof When.Established established) {
            return !onLegs(established.line(), legs, courseLeg).isEmpty();
        }
        if (when instanceof When.AtLine at) {
            return at.line()
                    .<Boolean>fold(
                            radial -> radial.station().declination().isPresent(),
                            distance -> true,
                            fix -> legTo(fix.fix(), legs) >= 0,
                            airway -> !onLegs(Optional.of(airway), legs, courseLeg)
                                    .isEmpty());
        }
        if (when instanceof When.Near near) {
            return legTo(near.fix(), legs) >= 0;
        }
        if (when instanceof When.AtTime at) {
            return situation.secondsUntil(at.time()).orElse(-1) >= 0;
        }
        return when instanceof When.AtLevel;
    }

    /** The first leg beyond it; one past the last where that is not known. */
    static int firstLeg(When when, List<Leg> legs, int courseLeg) {
        if (when instanceof When.Established established) {
            return onLegs(established.line(), legs, courseLeg).stream()
                    .findFirst()
                    .orElse(legs.size());
        }
        Optional<Waypoint> fix = when instanceof When.AtLine at && at.line() instanceof Until.AtFix over
                ? Optional.of(over.fix())
                : Optional.empty();
        int to = fix.map(each -> legTo(each, legs)).orElse(-1);
        return to < 0 ? legs.size() : to + 1;
    }

    /**
     * The legs on which an aircraft is established that is established on a line.
     *
     * @param line a radial or an airway; empty for the line of the clearance: that of a direct is none, it leads to one
     * @param legs of the route
     * @param courseLeg the first leg along a line; -1 where there is none
     * @return indices, ascending; empty where the route has no such leg
     */
    public static List<Integer> onLegs(Optional<Until> line, List<Leg> legs, int courseLeg) {
        Optional<String> airway = line.flatMap(each -> each.<Optional<String>>fold(
                radial -> Optional.empty(),
                distance -> Optional.empty(),
                fix -> Optional.empty(),
                at -> Optional.of(at.airway())));
        if (airway.isPresent()) {
            return IntStream.range(0, legs.size())
                    .filter(i -> legs.get(i).airway().equals(airway))
                    .boxed()
                    .toList();
        }
        boolean direct =
                courseLeg >= 0 && courseLeg + 1 < legs.size() && legs.get(courseLeg) instanceof Leg.DirectToFix;
        return courseLeg < 0 ? List.of() : List.of(direct ? courseLeg + 1 : courseLeg);
    }

    /**
     * The leg that ends at a fix.
     *
     * @param fix any
     * @param legs of the route
     * @return index of the first; -1 where none does
     */
    public static int legTo(Waypoint fix, List<Leg> legs) {
        for (int i = 0; i < legs.size(); i++) {
            if (legs.get(i).endsAt().filter(fix::equals).isPresent()) {
                return i;
            }
        }
        return -1;
    }
}
